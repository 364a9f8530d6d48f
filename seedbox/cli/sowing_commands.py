"""What the commands about sowings share: the sowing a code names, its jobs, and telling them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.output import changed, say
from seedbox.cli.session import Session
from seedbox.cli.sowing_page import as_jobs, next_lines
from seedbox.cli.tables import wrapped

if TYPE_CHECKING:
    from seedbox.season.sowing.done import Done
    from seedbox.tin.file import Tin


def job_words(ctx: click.Context, param: click.Parameter, words: tuple[str, ...]) -> str:
    """Callback of an argument that names a job: a code and a word, however it is parted."""
    return " ".join(words)


def refuse_test(job: str, does: str) -> None:
    """Counts of germination tests have commands of their own."""
    if job.lstrip()[:1] in ("T", "t"):
        from seedbox.errors import UsageError

        raise UsageError(
            f"That is a germination test, which is not {does} here.",
            hint="Count it with: seedbox test count CODE --normal NUMBER",
        )


def say_done(tin: Tin, done: Done, sentence: str, session: Session, as_json: bool) -> None:
    """What was written down, what is next, and the way back."""
    jobs = as_jobs(done.next_jobs, session.today)
    if as_json:
        changed(sentence, as_json=True, code=done.sowing.code, event=_event(done), jobs=jobs)
        return
    say(*wrapped(sentence), *next_lines(done.next_jobs, session.today), "Undo with: seedbox undo")


def named(tin: Tin, done: Done) -> str:
    """Code, crop and variety of the sowing that something was written down of."""
    from seedbox.cli.lookup import crop_book
    from seedbox.tin.codes import shown

    packet = next(one for one in tin.packets() if one.id == done.sowing.packet_id)
    crop = crop_book(tin).name(packet.crop_id)
    return f"{shown(done.sowing.code)} {f'{crop} {packet.variety}'.strip()}"


def _event(done: Done) -> dict[str, Any]:
    event = done.event
    return {
        "on": event.on,
        "kind": event.kind,
        "count": event.count,
        "job": event.job or None,
        "until": event.until,
        "note": event.note,
    }
