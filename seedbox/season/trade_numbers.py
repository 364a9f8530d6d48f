"""Shops' numbers (EAN-13, UPC-A, EAN-8) on bought packets: a hint to the variety, no identity."""

from __future__ import annotations

from seedbox.tin.file import Tin
from seedbox.tin.records import Packet

_LONG = (12, 13)
_LENGTHS = (8, *_LONG)


def is_trade_number(text: str) -> bool:
    """Whether it has the length and the check digit of such a number (ISO/IEC 15420, GS1).

    >>> is_trade_number("2001234567893"), is_trade_number("2001234567894")
    (True, False)
    """
    if not (text.isascii() and text.isdigit() and len(text) in _LENGTHS):
        return False
    from stdnum.ean import is_valid

    return bool(is_valid(text))


def looks_like_trade_number(text: str) -> bool:
    """Whether somebody probably meant one, even with a slip in it."""
    return is_trade_number(text) or (text.isascii() and text.isdigit() and len(text) in _LONG)


def bare(number: str) -> str:
    """The number without the zeros in front: UPC-A is EAN-13 without its leading 0."""
    return number.strip().lstrip("0")


def packets_with(tin: Tin, number: str) -> list[Packet]:
    """Packets that came with the number, latest first."""
    wanted = bare(number)
    return [one for one in reversed(tin.packets()) if one.ean and bare(one.ean) == wanted]
