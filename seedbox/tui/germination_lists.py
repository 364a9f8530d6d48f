"""The lists of the Tests tab: columns, rows, and what is said of the highlighted line."""

from __future__ import annotations

from seedbox.season.testing.account import Account
from seedbox.season.testing.plan import PlannedTest
from seedbox.tin.codes import shown
from seedbox.tui.columns import Column
from seedbox.tui.germination_words import (
    counted,
    decided_words,
    expected_words,
    next_short,
    next_words,
    so_far_words,
    verdict_word,
    waiting,
)
from seedbox.tui.tin_columns import TINTS, advice_text, germination_text, left_text
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row

RUNNING = (
    Column("code", "Test", 9),
    Column("crop", "Crop", 9, most=24),
    Column("variety", "Variety", 9, most=30),
    Column("laid", "Laid", 6),
    Column("day", "Day", 3, right=True),
    Column("germinated", "Germinated", 10, right=True),
    Column("verdict", "Decided", 8),
    Column("next", "Next count", 15, most=20),
    Column("packet", "Packet", 9, from_width=98),
)
FINISHED = (
    Column("code", "Test", 9),
    Column("crop", "Crop", 9, most=24),
    Column("variety", "Variety", 9, most=30),
    Column("on", "Finished", 11),
    Column("germinated", "Germinated", 10, right=True),
    Column("share", "Share", 14),
    Column("verdict", "Decided", 8),
    Column("hard", "Hard", 4, right=True, from_width=86),
    Column("packet", "Packet", 9, from_width=98),
)
WORTH = (
    Column("code", "Packet", 9),
    Column("crop", "Crop", 9, most=24),
    Column("variety", "Variety", 9, most=30),
    Column("seeds", "Lay", 8, right=True),
    Column("left", "Left", 6, right=True),
    Column("germination", "Germination", 14),
    Column("advice", "Advice", 9),
    Column("plants", "For plants", 10, right=True, from_width=98),
)
_VERDICTS = {"good": "good", "poor": "bad", "not sure": "warn"}


def tint(key: str, text: str) -> str:
    """The colour that repeats what a cell says in words."""
    if key == "verdict":
        return _VERDICTS.get(text, "quiet")
    if key == "next":
        return "warn" if text.endswith(("late", "today")) or text == "finish it" else ""
    if key == "advice":
        return TINTS.get(text, "quiet")
    return "quiet" if key in ("code", "packet") else ""


def running_row(found: Account) -> Row:
    test, stands = found.test, found.progress
    laid = test.started_on or test.on
    return (
        shown(test.code),
        found.line.crop,
        found.packet.variety,
        f"{laid.day} {laid:%b}",
        str(stands.day),
        f"{stands.total.normal} of {test.seeds}",
        verdict_word(stands) if counted(stands) else "-",
        next_short(stands),
        shown(found.packet.code),
    )


def finished_row(found: Account) -> Row:
    test, share = found.test, found.progress.germination
    return (
        shown(test.code),
        found.line.crop,
        found.packet.variety,
        f"{test.on.day} {test.on:%b %Y}",
        f"{test.germinated} of {test.seeds}",
        f"{share.estimate * 100:3.0f} % ({share.low * 100:.0f}-{share.high * 100:.0f})",
        verdict_word(found.progress),
        str(test.hard) if test.hard else "",
        shown(found.packet.code),
    )


def worth_row(planned: PlannedTest) -> Row:
    line = planned.line
    return (
        shown(line.packet.code),
        line.crop,
        line.packet.variety,
        f"{planned.seeds} seeds" if planned.seeds else "no test",
        left_text(line.dossier.left, line.packet.unit),
        germination_text(line.forecast),
        advice_text(line.forecast),
        str(planned.plants),
    )


def running_words(found: Account) -> str:
    """What to do with a running test, and how it stands."""
    stands = found.progress
    parts = [f"{found.name}: {next_words(stands, waiting(found))}"]
    if counted(stands):
        parts += [expected_words(stands), decided_words(stands)]
    return " ".join(filter(None, parts))


def finished_words(found: Account) -> str:
    parts = [f"{found.name}: {so_far_words(found.progress)}", decided_words(found.progress)]
    if found.test.reported_by:
        parts.append(f"Reported by {found.test.reported_by}.")
    return " ".join([*parts, "Enter shows what it did to the forecast."])


def worth_words(planned: PlannedTest) -> str:
    """Why a test is worth while, or not."""
    what = f"{planned.line.crop} {planned.line.packet.variety}".strip()
    start = " N starts it." if planned.seeds else ""
    return f"{what}: {unbroken(planned.why)}{start}"
