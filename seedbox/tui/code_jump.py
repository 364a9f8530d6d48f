"""From a code, however it is spelt, or a shop's number, to the page of what it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.trade_numbers import is_trade_number, looks_like_trade_number, packets_with
from seedbox.tin.codes import parse
from seedbox.tin.file import Tin

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


def named(tin: Tin, text: str) -> str:
    """The code of a packet, a sowing or a germination test that is in the tin; for a shop's number
    that of the latest packet which came with it.

    Raises:
        BadDataError: the check character does not match, or it is no code.
        NotFoundError: nothing in this tin has the code, or came with the number.
    """
    number = text.strip()
    if looks_like_trade_number(number):
        return _latest(tin, number)
    code = parse(text)
    if code.startswith("S"):
        return tin.sowing(code).code
    return tin.test(code).code if code.startswith("T") else tin.packet(code).code


def number_words(tin: Tin, text: str) -> str:
    """What to say beside a packet that a shop's number has led to; empty after a code."""
    number = text.strip()
    if not is_trade_number(number):
        return ""
    others = len(packets_with(tin, number)) - 1
    which = f"the latest of {others + 1} packets" if others else "a packet"
    return (
        f"{number} is a shop's number: this is {which} that came with it. It tells the variety,"
        " not which packet you hold."
    )


def _latest(tin: Tin, number: str) -> str:
    if not is_trade_number(number):
        raise BadDataError(f"{number} is no shop's number: its check digit does not match.")
    packets = packets_with(tin, number)
    if not packets:
        raise NotFoundError(
            f"No packet of this tin came with the shop's number {number}.",
            hint="Add the packet (a on the Tin tab) and scan its number into the field Bar code.",
        )
    return packets[0].code


def go_to(app: SeedboxApp, code: str) -> None:
    """Open the page of what a code names; a page of the same kind on top shows it instead."""
    page = app.page()
    on_top = page if page is app.screen else None
    if code.startswith("T"):
        from seedbox.tui.germination_page import GerminationPage

        if isinstance(on_top, GerminationPage):
            on_top.show_test(code)
        else:
            app.push_screen(GerminationPage(code))
        return
    if code.startswith("S"):
        from seedbox.tui.sowing_page import SowingPage

        if isinstance(on_top, SowingPage):
            on_top.show_code(code)
        else:
            app.push_screen(SowingPage(code))
        return
    from seedbox.tui.packet_page import PacketPage

    if isinstance(on_top, PacketPage):
        on_top.show_code(code)
    else:
        app.push_screen(PacketPage(code))
