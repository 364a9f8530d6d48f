"""A list of somebody else as a line, and all that is to be said of it."""

from __future__ import annotations

from collections.abc import Iterable

from seedbox.season.swapping.records import Offer, SwapList, Wish
from seedbox.season.swapping.words import named
from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_table import TableList, serving
from seedbox.tui.swap_words import capital
from seedbox.tui.text_lines import Line, heading, item, paragraph
from seedbox.tui.virtual_list import Row

LISTS = (
    Column("name", "List", 14, most=34),
    Column("offers", "Offers", 6, right=True),
    Column("wants", "Wants", 5, right=True),
    Column("for_you", "For you", 7, right=True),
    Column("from_you", "From you", 8, right=True),
    Column("left_out", "Left out", 8, right=True),
    Column("file", "File", 16, most=60),
)
MOST_SHOWN = 100
_OWN = "All its packets are your own: is this the list that you wrote yourself? x takes it away."


def list_row(one: TableList, own: SwapList | None) -> Row:
    """One list; how many wants it could serve, each way."""
    if one.read is None:
        return (one.listed.name, "-", "-", "-", "-", "-", f"not read: {one.path.name}")
    listed = one.listed
    return (
        listed.name,
        str(len(listed.offers)),
        str(len(listed.wishes)),
        "…" if own is None else str(len(_wishes(serving(listed.offers, own.wishes)))),
        "…" if own is None else str(len(_wishes(serving(own.offers, listed.wishes)))),
        str(len(one.read.problems)) if one.read.problems else "-",
        one.path.name,
    )


def _wishes(found: Iterable[tuple[Offer, Wish]]) -> set[Wish]:
    return {wish for _, wish in found}


def list_lines(one: TableList, own: SwapList | None, width: int) -> list[Line]:
    """Where it comes from, what was left out, what is assumed, what matches."""
    lines = paragraph(f"{one.listed.name}: {one.path}", width, "bold")
    if one.read is None:
        return [*lines, *paragraph(f"Nothing was read. {one.fault}", width, "$error")]
    listed = one.listed
    lines += paragraph(_facts(listed), width)
    if own is not None and _is_own(listed, own):
        lines += paragraph(_OWN, width, "$warning")
    if one.read.problems:
        said = [capital(str(problem)) for problem in one.read.problems]
        lines += _section(f"Left out, {counted(len(said), 'fault')}", said, width, "$error")
    if own is not None:
        lines += _matches("They offer what you want", serving(listed.offers, own.wishes), width)
        lines += _matches("They want what you offer", serving(own.offers, listed.wishes), width)
    else:
        lines += paragraph("What matches is told once your spare seed is reckoned.", width)
    if one.read.notes:
        lines += _section("As it was read", one.read.notes, width)
    return lines


def _facts(listed: SwapList) -> str:
    parts = [counted(len(listed.offers), "offer"), counted(len(listed.wishes), "want")]
    parts += [f"from {listed.town}"] if listed.town else []
    parts += [f"made on {listed.made_on}"] if listed.made_on else []
    return f"{', '.join(parts)}."


def _is_own(listed: SwapList, own: SwapList) -> bool:
    codes = {offer.code for offer in own.offers if offer.code}
    return bool(listed.offers) and all(offer.code in codes for offer in listed.offers)


def _matches(title: str, found: list[tuple[Offer, Wish]], width: int) -> list[Line]:
    said = [
        f"{named(offer.crop, offer.variety)}: {counted(offer.portions, 'portion')},"
        f" {wish.portions} wanted, worth {wish.worth} of 5"
        for offer, wish in sorted(found, key=lambda pair: -pair[1].worth)
    ]
    return _section(title, said or ["nothing"], width)


def _section(title: str, said: Iterable[str], width: int, style: str = "") -> list[Line]:
    sentences = list(said)
    lines = heading(title)
    for sentence in sentences[:MOST_SHOWN]:
        lines += item(sentence, width, style)
    more = len(sentences) - MOST_SHOWN
    return [*lines, *(paragraph(f"and {more} more", width) if more > 0 else [])]
