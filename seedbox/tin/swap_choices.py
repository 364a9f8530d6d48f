"""A person's word over the program's: which packets are offered at a swap, which are kept back."""

from __future__ import annotations

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapChoice, SwapWord
from seedbox.tin.records import Packet
from seedbox.tin.wants import MOST_PORTIONS


def set_swap_choice(
    tin: Tin, packet: Packet, choice: SwapWord, *, portions: int | None = None
) -> SwapChoice:
    """Offers a packet in spite of a caution (at most `portions` of it), or keeps it back.

    A word said before is replaced. Raises BadDataError for portions of what is kept back.
    """
    wrong = choice_problem(choice, portions)
    if wrong:
        raise BadDataError(wrong)
    columns = {"packet_id": packet.id, "choice": choice.value, "portions": portions}
    before = choice_of(tin, packet)
    with tin.change(f"{_said(choice, portions)}: {codes.shown(packet.code)}") as change:
        if before is None:
            row_id = change.insert("swap_choice", columns)
        else:
            row_id = before.id
            change.update("swap_choice", row_id, columns)
    return SwapChoice(row_id, packet.id, choice, portions)


def clear_swap_choice(tin: Tin, packet: Packet) -> None:
    """Leaves the packet to the program's judgement again."""
    before = choice_of(tin, packet)
    if before is None:
        raise NotFoundError(f"Nothing was said of {codes.shown(packet.code)} for the swap.")
    with tin.change(f"Leave {codes.shown(packet.code)} to the program at a swap") as change:
        change.delete("swap_choice", before.id)


def choice_of(tin: Tin, packet: Packet) -> SwapChoice | None:
    """What was said of a packet; None where nothing was."""
    return next((one for one in tin.swap_choices() if one.packet_id == packet.id), None)


def choice_problem(choice: SwapWord, portions: int | None) -> str:
    """What is wrong with a word, as a sentence; empty when nothing is."""
    if portions is None:
        return ""
    if choice is SwapWord.KEEP:
        return "What is kept back has no portions: say offer and at most how many."
    if not 1 <= portions <= MOST_PORTIONS:
        return f"Offer 1 to {MOST_PORTIONS:,} portions, not {portions}."
    return ""


def _said(choice: SwapWord, portions: int | None) -> str:
    if choice is SwapWord.KEEP:
        return "Keep back from the swap"
    most = f", at most {portions}" if portions else ""
    return f"Offer at the swap{most}"
