"""A packet as a person enters it, and everything that can be wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from math import isfinite
from typing import Any

from seedbox.problems import Problem
from seedbox.tin.quantity import amount_problem
from seedbox.tin.records import Kind, Origin, Treatment, Unit
from seedbox.tin.text import clean_line, clean_note

FIRST_YEAR = 1900
LONGEST_LINE = 200
LONGEST_NOTE = 10_000
LONGEST_TAG = 40
MOST_TAGS = 30
# Seed sealed outside these is not seed that anyone stores: bone dry, or wet enough to rot.
MOISTURE_PERCENT = (1.0, 30.0)
YEARS_AHEAD = 30  # a sow-by date further off than this is a slip of the pen


@dataclass(frozen=True, slots=True)
class PacketDraft:
    """A packet before it has an id. Without a code it is given one; `amount` None is unknown.

    Without a store nothing is said of where it lay. `stored_from` and the date of the first
    entry in the journal are `received_on`, or else the day it is entered.
    `sealed` and `moisture` [% of fresh weight] left out are those of the store.
    """

    crop_id: str
    variety: str = ""
    kind: Kind = Kind.SEED
    origin: Origin | None = None
    source: str = ""
    harvest_year: int | None = None
    packed_year: int | None = None
    bought_year: int | None = None
    sow_by: date | None = None
    printed_germination: float | None = None
    printed_on: date | None = None
    treatment: Treatment = Treatment.NONE
    ean: str = ""
    note: str = ""
    tags: tuple[str, ...] = ()
    parent_id: int | None = None
    unit: Unit | None = None
    received_on: date | None = None
    code: str | None = None
    amount: float | None = None
    store_id: int | None = None
    stored_from: date | None = None
    sealed: bool | None = None
    moisture: float | None = None


def cleaned(draft: PacketDraft) -> PacketDraft:
    """The draft without control characters, stray spaces and doubled tags."""
    tidy: dict[str, Any] = {
        "crop_id": clean_line(draft.crop_id),
        "variety": clean_line(draft.variety),
        "source": clean_line(draft.source),
        "ean": draft.ean and "".join(clean_line(draft.ean).replace("-", " ").split()),
        "note": clean_note(draft.note),
        "tags": tidy_tags(draft.tags),
    }
    # Most drafts are clean, and an import makes thousands: copy only what changed.
    changed = {name: text for name, text in tidy.items() if text != getattr(draft, name)}
    return replace(draft, **changed) if changed else draft


def tidy_tags(tags: tuple[str, ...]) -> tuple[str, ...]:
    """Tags as kept: a comma parts them, none is empty, none comes twice."""
    parts = (clean_line(part) for tag in tags for part in tag.split(","))
    return tuple(dict.fromkeys(part for part in parts if part))


def check_draft(draft: PacketDraft, today: date) -> list[Problem]:
    """Everything wrong with a draft by itself, each with its field; empty when it is sound.

    What needs the tin (does the parent exist, is the code taken) is looked at on adding.
    """
    found = [
        *_text_problems(draft),
        *_year_problems(draft, today),
        *_date_problems(draft, today),
        *_figure_problems(draft),
        *_code_problems(draft),
    ]
    return [Problem(sentence, field=field) for field, sentence in found]


Fault = tuple[str, str]


def _text_problems(draft: PacketDraft) -> Iterator[Fault]:
    if not draft.crop_id:
        yield "crop", "A packet needs a crop."
    for name, text in (
        ("crop", draft.crop_id),
        ("variety", draft.variety),
        ("source", draft.source),
    ):
        if len(text) > LONGEST_LINE:
            yield name, f"The {name} has {len(text)} characters; {LONGEST_LINE} are the most."
    if len(draft.note) > LONGEST_NOTE:
        yield "note", f"The note has {len(draft.note)} characters; {LONGEST_NOTE} are the most."
    if draft.tags:
        yield from _tag_problems(draft.tags)


def _tag_problems(tags: tuple[str, ...]) -> Iterator[Fault]:
    if len(tags) > MOST_TAGS:
        yield "tags", f"There are {len(tags)} tags; {MOST_TAGS} are the most."
    long = next((tag for tag in tags if len(tag) > LONGEST_TAG), None)
    if long is not None:
        yield "tags", f"The tag “{long[:20]}…” is longer than {LONGEST_TAG} characters."


def _year_problems(draft: PacketDraft, today: date) -> Iterator[Fault]:
    last = today.year + 1  # seed for the coming season is packed before the year turns
    for field, word, year in (
        ("harvest_year", "harvest", draft.harvest_year),
        ("packed_year", "packing", draft.packed_year),
        ("bought_year", "purchase", draft.bought_year),
    ):
        if year is not None and not FIRST_YEAR <= year <= last:
            yield field, f"The {word} year {year} is not between {FIRST_YEAR} and {last}."
    if draft.harvest_year is None:
        return
    for field, word, later in (
        ("packed_year", "packed", draft.packed_year),
        ("bought_year", "bought", draft.bought_year),
    ):
        if later is not None and later < draft.harvest_year:
            yield (
                field,
                f"It cannot be {word} in {later}, before its harvest in {draft.harvest_year}.",
            )


def _date_problems(draft: PacketDraft, today: date) -> Iterator[Fault]:
    if draft.sow_by is not None and not FIRST_YEAR <= draft.sow_by.year <= today.year + YEARS_AHEAD:
        last = today.year + YEARS_AHEAD
        yield "sow_by", f"The sow-by date {draft.sow_by} is not between {FIRST_YEAR} and {last}."
    for field, day in (
        ("printed_on", draft.printed_on),
        ("received_on", draft.received_on),
        ("stored_from", draft.stored_from),
    ):
        if day is not None:
            sentence = past_day_problem(day, today)
            if sentence:
                yield field, sentence


def past_day_problem(day: date, today: date) -> str:
    """What is wrong with the date of something that has happened; empty when nothing is."""
    if day > today:
        return f"The date {day} is in the future."
    if day.year < FIRST_YEAR:
        return f"The date {day} is before {FIRST_YEAR}."
    return ""


def _figure_problems(draft: PacketDraft) -> Iterator[Fault]:
    printed = draft.printed_germination
    if printed is not None and not 0 <= printed <= 1:
        yield "printed_germination", "The printed germination must lie between 0 and 100 %."
    if draft.amount is not None:
        sentence = amount_problem(draft.amount, draft.unit)
        if sentence:
            yield "amount", sentence
    if draft.moisture is not None:
        sentence = moisture_problem(draft.moisture)
        if sentence:
            yield "moisture", sentence
    if draft.ean:
        sentence = ean_problem(draft.ean)
        if sentence:
            yield "ean", sentence


def moisture_problem(percent: float) -> str:
    """What is wrong with a seed moisture [% of fresh weight]; empty when nothing is."""
    lowest, highest = MOISTURE_PERCENT
    if isfinite(percent) and lowest <= percent <= highest:
        return ""
    return f"A seed moisture of {percent:g} % is not between {lowest:g} and {highest:g} %."


def ean_problem(ean: str) -> str:
    """What is wrong with a trade number; EAN-13, EAN-8 and UPC-A (12 digits) are accepted."""
    from stdnum import ean as standard

    if len(ean) not in (8, 12, 13) or not (ean.isascii() and ean.isdigit()):
        return f"“{ean[:30]}” is not a trade number: that is 13, 12 or 8 digits."
    if not standard.is_valid(ean):
        return f"The check digit of the trade number {ean} does not match. Look at it again."
    return ""


def _code_problems(draft: PacketDraft) -> Iterator[Fault]:
    from seedbox.errors import BadDataError
    from seedbox.tin import codes

    if draft.code is None:
        return
    try:
        code = codes.parse(draft.code)
    except BadDataError as error:
        yield "code", error.sentence
        return
    if code[0] != "P":
        yield "code", f"{codes.shown(code)} is the code of a {codes.KINDS[code[0]]}, not a packet."
