"""Sowing again what was sown before: for how many plants, and whether anything calls for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.in_progress import Growing, Stage
from seedbox.season.sowing.job_dates import JobKind
from seedbox.season.sowing.sowing_jobs import SowingJob, jobs_of_one


@dataclass(frozen=True, slots=True)
class Again:
    """Plants to sow for; `mind` says so in a sentence where nothing calls for the sowing."""

    plants: int
    mind: str = ""


def sowing_again(desk: Desk, before: Growing) -> Again:
    """What failed or came up too thin is sown for what is missing, else as many as before.

    A sowing that came up well, or was never counted, may be made again all the same: then it is
    said that this is one more.
    """
    jobs = jobs_of_one(desk, before)
    if any(job.when.kind is JobKind.RESOW for job in jobs):
        return Again(max(before.sown_for - before.plants, 1))
    again = [job for job in jobs if job.when.kind is JobKind.SOW_AGAIN]
    due = any(job.when.due <= desk.today for job in again)
    if due or not before.open or before.stage is Stage.HARVESTED:
        return Again(before.sown_for)
    plants = "1 plant" if before.sown_for == 1 else f"{before.sown_for} plants"
    why = f"{_stands(before)}{_when(again)}"
    return Again(before.sown_for, f"{why}: this is one more sowing, for {plants}.")


def _stands(before: Growing) -> str:
    """How the first sowing does, as far as anybody looked."""
    if before.emerged is None and before.stage is Stage.SOWN:
        return f"What came up of {before.code} was not counted yet"
    up = "" if before.emerged is None else f"{before.emerged} of {before.sowing.seeds} came up, "
    return f"{before.code} does well ({up}{before.plants} plants of {before.sown_for} wanted)"


def _when(again: Sequence[SowingJob]) -> str:
    if not again:
        return ""
    return f" and is to be sown again from {spoken(min(job.when.due for job in again))}"
