"""From a code, however it is spelt, to the page of what it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.tin.codes import parse
from seedbox.tin.file import Tin

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


def named(tin: Tin, text: str) -> str:
    """The code of a packet, a sowing or a germination test that is in the tin.

    Raises:
        BadDataError: the check character does not match, or it is no code.
        NotFoundError: nothing in this tin has the code.
    """
    code = parse(text)
    if code.startswith("S"):
        return tin.sowing(code).code
    return tin.test(code).code if code.startswith("T") else tin.packet(code).code


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
            on_top.show_sowing(code)
        else:
            app.push_screen(SowingPage(code))
        return
    from seedbox.tui.packet_page import PacketPage

    if isinstance(on_top, PacketPage):
        on_top.show_packet(code)
    else:
        app.push_screen(PacketPage(code))
