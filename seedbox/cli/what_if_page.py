"""The answer to "what if" in plain lines: stage by stage, and had it stayed where it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.cli.forecast_words import advice, share
from seedbox.cli.tables import Column, room, table, wrapped
from seedbox.cli.words import count, germination, number, percent

if TYPE_CHECKING:
    from seedbox.season.what_if import Stage, WhatIf
    from seedbox.tin.preferences import Settings

_COLUMNS = (
    Column("after", right=True),
    Column("storage", least=24),
    Column("germination"),
    Column("reaches the standard", right=True),
)
_DAYS_PER_YEAR = 365.25


def page(name: str, found: WhatIf, settings: Settings) -> list[str]:
    """Lines of the answer."""
    width = room()
    rows = [_row(stage, stage.words) for stage in found.stages]
    if found.kept_as_it_is:
        rows.append(_row(found.kept_as_it_is, found.kept_as_it_is.words))
    lines = [name, "", *table(_COLUMNS, rows, width), ""]
    for sentence in (*found.warnings, share(found), advice(found, settings), _compared(found)):
        lines += wrapped(sentence) if sentence else []
    lines += ["", "It rests on"]
    for sentence in found.rests_on:
        lines += wrapped(sentence, "  - ", "    ")
    return lines


def _row(stage: Stage, words: str) -> tuple[str, str, str, str]:
    share_there = germination(stage.mean, stage.low, stage.high)
    return _time(stage.days), words, share_there, percent(stage.p_standard)


def _time(days: float) -> str:
    if days < 2 * _DAYS_PER_YEAR:
        return count(round(days), "day")
    return f"{number(round(days / _DAYS_PER_YEAR, 1))} years"


def _compared(found: WhatIf) -> str:
    """What the moves gained, or cost."""
    if found.kept_as_it_is is None:
        return ""
    kept = found.kept_as_it_is.mean
    if abs(found.mean - kept) < 0.005:
        return "Moving it makes no difference that could be told."
    verb = "gains" if found.mean > kept else "costs"
    points = round(abs(found.mean - kept) * 100)
    return f"Moving it {verb} {count(points, 'point')} of germination against leaving it."
