"""The columns of the sowings and their words."""

from __future__ import annotations

from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted, due_words, short_day, up_words
from seedbox.tui.sowings_reading import Standing
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row

COLUMNS = (
    Column("code", "Code", 9),
    Column("crop", "Crop", 9, most=22),
    Column("variety", "Variety", 8, most=26, from_width=72),
    Column("sown", "Sown", 8, from_width=72),
    Column("place", "Stands in", 12, most=26, from_width=96),
    Column("up", "Came up", 9, from_width=72),
    Column("next", "Next", 15),
    Column("due", "Due", 13),
)


def row(standing: Standing) -> Row:
    """One sowing as the texts of its columns."""
    growing, job = standing.growing, standing.next
    today = standing.today
    return (
        growing.code,
        growing.crop,
        growing.packet.variety,
        short_day(growing.sowing.on, today),
        growing.stands_in.name,
        up_words(growing),
        job.when.kind.value if job else growing.stage.value,
        due_words(job.when.due, job.days_late(today), today) if job else "",
    )


def tint(key: str, text: str) -> str:
    """Colour that repeats a word."""
    if key == "due":
        return "warn" if text.endswith("late") else "good" if text == "now" else ""
    return "quiet" if key in ("code", "place") else ""


def summary(standings: tuple[Standing, ...], hidden: int) -> str:
    """How many there are, how many are late."""
    late = sum(1 for one in standings if one.days_late)
    due = sum(1 for one in standings if one.next and not one.days_late and _is_due(one))
    parts = [counted(len(standings), "sowing")]
    parts += [f"{late} late"] if late else []
    parts += [f"{due} due now"] if due else []
    parts += [f"{hidden} over (a shows them)"] if hidden else []
    return " " + ", ".join(parts)


def _is_due(one: Standing) -> bool:
    return one.next is not None and one.next.when.due <= one.today


def detail(standing: Standing | None, *, described: bool) -> str:
    """What to do next with a sowing, and why; or why nothing is told."""
    if standing is None:
        return ""
    job = standing.next_told
    if job is not None:
        return unbroken(f"{job.what} {job.why}")
    if not standing.growing.open:
        return f"{standing.growing.what}: {standing.growing.stage.value}."
    if not described:
        return "Its jobs are reckoned once the garden's frosts and latitude are said."
    return "Nothing is left to do but the harvest. E says that it is over."
