"""From a code, however it is spelt, to the packet that it names or belongs to."""

from __future__ import annotations

from seedbox.errors import NotFoundError
from seedbox.tin.codes import parse, shown
from seedbox.tin.file import Tin


def packet_code_for(tin: Tin, text: str) -> str:
    """Code of the packet to show: the packet's own, or that of the packet which was tested.

    Raises:
        BadDataError: the check character does not match, or it is no code.
        NotFoundError: nothing in this tin has the code.
    """
    code = parse(text)
    if code.startswith("T"):
        return _tested_packet(tin, code)
    return tin.packet(code).code


def _tested_packet(tin: Tin, code: str) -> str:
    tested = next((test for test in tin.tests() if test.code == code), None)
    if tested is None:
        raise NotFoundError(f"There is no germination test {shown(code)} in the tin.")
    return next(p.code for p in tin.packets() if p.id == tested.packet_id)
