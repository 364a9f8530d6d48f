from __future__ import annotations

import re

import numpy
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.printing.symbols import (
    CODE128_MOST_MODULES,
    CODE128_QUIET,
    QR_QUIET,
    Symbol,
    code128,
    qr,
)

# Every code begins with the letter of its kind. (python-barcode drops a leading 99 where a code is
# digits alone.)
CODES = st.builds(
    str.__add__,
    st.sampled_from("PST"),
    st.text("0123456789ABCDEFGHJKMNPQRSTVWXYZ", min_size=7, max_size=7),
)

# Bar and space widths of some symbol characters, ISO/IEC 15417:2007 table 1 (figures from memory;
# the independent reader below agrees with them).
WIDTHS = {
    "211214": 104,  # Start B
    "313121": 48,  # P
    "112133": 42,  # J
    "123221": 17,  # 1
    "223211": 18,  # 2
    "221132": 19,  # 3
    "131321": 35,  # C
    "311321": 55,  # W
}
STOP = "2331112"


def picture(symbol: Symbol, quiet: int, scale: int = 4, bar_height: int = 40) -> numpy.ndarray:
    """The symbol's rectangles painted by hand, as a PDF reader would."""
    high = bar_height if symbol.height == 1 else symbol.height
    image = numpy.full((high + 2 * quiet, symbol.width + 2 * quiet), 255, numpy.uint8)
    for x, y, length in re.findall(r"(\d+) (\d+) (\d+) 1 re", symbol.path):
        rows = slice(None) if symbol.height == 1 else high - 1 - int(y) + quiet
        image[rows, quiet + int(x) : quiet + int(x) + int(length)] = 0
    return image.repeat(scale, 0).repeat(scale, 1)


def test_code_128_of_the_worked_example() -> None:
    # "PJJ123C", a much used worked example: values 48 42 42 17 18 19 35; with start B (104) the
    # check is (104 + 1x48 + 2x42 + 3x42 + 4x17 + 5x18 + 6x19 + 7x35) mod 103 = 55.
    symbol = code128("PJJ123C")
    black = {x for start, _, length in _rectangles(symbol) for x in range(start, start + length)}
    row = "".join("1" if x in black else "0" for x in range(symbol.width))
    widths = "".join(str(len(run)) for run in re.findall("1+|0+", row))
    assert widths.endswith(STOP)
    body = widths[: -len(STOP)]
    values = [WIDTHS[body[at : at + 6]] for at in range(0, len(body), 6)]
    assert values == [104, 48, 42, 42, 17, 18, 19, 35, 55]
    assert (104 + 48 + 84 + 126 + 68 + 90 + 114 + 245) % 103 == 55


@settings(deadline=None)
@given(CODES)
def test_qr_is_read_back_as_version_1_level_h(code: str) -> None:
    symbol = qr(code)
    (read,) = zxingcpp.read_barcodes(picture(symbol, QR_QUIET), formats=zxingcpp.QRCode)
    assert read.text == code
    assert read.ec_level == "H"
    assert symbol.width == 21  # version 1: ISO/IEC 18004:2015, 5.3.1.1


@settings(deadline=None)
@given(CODES)
def test_code_128_is_read_back_and_never_wider_than_allowed_for(code: str) -> None:
    symbol = code128(code)
    (read,) = zxingcpp.read_barcodes(picture(symbol, CODE128_QUIET), formats=zxingcpp.Code128)
    assert read.text == code
    assert symbol.width <= CODE128_MOST_MODULES


@pytest.mark.parametrize("code", ["", "p4k7qmx2", "P4K7QMX2ABC", "Ä", "P4K7\n"])
def test_what_the_smallest_symbol_cannot_hold_is_refused(code: str) -> None:
    for make in (qr, code128):
        with pytest.raises(BadDataError, match="cannot be printed as a code"):
            make(code)


def _rectangles(symbol: Symbol) -> list[tuple[int, int, int]]:
    found = re.findall(r"(\d+) (\d+) (\d+) 1 re", symbol.path)
    return [(int(x), int(y), int(length)) for x, y, length in found]
