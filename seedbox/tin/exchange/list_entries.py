"""Wants, words for the swap and labels that wait of a whole tin, read to the letter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from seedbox.errors import SeedboxError
from seedbox.tin import codes as printed
from seedbox.tin.exchange import texts, words
from seedbox.tin.exchange.entries import Entries, refuse_gaps, refuse_repeats, whole_number
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.exchange.sheet import Sheet
from seedbox.tin.label_queue import label_problem
from seedbox.tin.list_records import USUAL_WORTH, SwapWord, Want
from seedbox.tin.swap_choices import choice_problem
from seedbox.tin.wants import check_want, want_key


def read_wants(sheet: Sheet) -> Entries:
    """Rows are `Want` records with id 0."""
    crops = sheet.read("crop_id", texts.line, "")
    varieties = sheet.read("variety", texts.line, "")
    portions = sheet.read("portions", whole_number)
    worths = sheet.read("worth", whole_number, USUAL_WORTH)
    notes = sheet.read("note", texts.exact_note, "")
    refuse_gaps(sheet, {"crop_id": crops, "portions": portions})
    wants = [
        Want(0, crop_id, variety, wanted or 0, *rest)
        for crop_id, variety, wanted, *rest in zip(
            crops, varieties, portions, worths, notes, strict=True
        )
    ]
    for at, want in enumerate(wants):
        if at not in sheet.faults:
            for problem in check_want(want):
                sheet.fault(at, problem.sentence, problem.field)
    refuse_repeats(sheet, [want_key(want) for want in wants])
    return Entries(sheet, [(want,) for want in wants])


def read_swap_choices(sheet: Sheet) -> Entries:
    """Rows are (packet code, choice, portions or None)."""
    packets = sheet.read("packet", words.packet_code, "")
    choices = sheet.read("choice", _swap_word)
    portions = sheet.read("portions", whole_number)
    refuse_gaps(sheet, {"packet": packets, "choice": choices})
    rows = list(zip(packets, choices, portions, strict=True))
    for at, (_, choice, most) in enumerate(rows):
        wrong = choice_problem(SwapWord(choice), most) if at not in sheet.faults else ""
        if wrong:
            sheet.fault(at, wrong, "portions")
    refuse_repeats(sheet, [packet or at for at, packet in enumerate(packets)])
    return Entries(sheet, rows)


def read_label_queue(sheet: Sheet, owners: Mapping[str, str]) -> Entries:
    """Rows are (packet code, code on the label, design, copies).

    `owners` gives the packet of every code but those of packets.
    """
    codes = sheet.read("code", _any_code, "")
    designs = sheet.read("design", texts.line, "")
    copies = sheet.read("copies", whole_number, 1)
    refuse_gaps(sheet, {"code": codes})
    packets = [code if code.startswith("P") else owners.get(code, "") for code in codes]
    rows: list[tuple[Any, ...]] = list(zip(packets, codes, designs, copies, strict=True))
    for at, (packet, code, design, number) in enumerate(rows):
        if at not in sheet.faults and not packet:
            sheet.fault(at, f"There is no {printed.KINDS[code[0]]} {shown(code)}.", "code")
        wrong = label_problem(design, number) if at not in sheet.faults else ""
        if wrong:
            sheet.fault(at, wrong, "copies")
    refuse_repeats(sheet, list(zip(codes, designs, strict=True)))
    return Entries(sheet, rows)


def _swap_word(text: str) -> str:
    word = text.casefold()
    if word not in tuple(SwapWord):
        raise CellFaultError(f"{shown(text)} is none of {', '.join(SwapWord)}.")
    return word


def _any_code(text: str) -> str:
    try:
        return printed.parse(text)
    except SeedboxError as fault:
        raise CellFaultError(fault.sentence) from fault
