"""Fonts that are embedded, and which of them draws a character.

Latin, Greek, Cyrillic, Hebrew, Arabic, Armenian, Georgian and Ethiopic come from the TTF files in
labels/fonts. Chinese, Japanese and Korean use
the reader's own fonts by name (CID fonts): these are not embedded, unless a person has put a TTF
file that holds them into labels/fonts.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from seedbox.errors import BadDataError
from seedbox.printing.reading_order import joined
from seedbox.printing.styles import FONT_FILES
from seedbox.resources import labels_dir

ASCENT, DESCENT = 0.95, 0.27
"""Of the size: room above and below the baseline, stacked Vietnamese accents included."""

# Each reader font with the national character set whose glyphs it is known to hold; kana decides
# for Japanese shapes, otherwise the first set that holds the character.
_CID = (
    ("STSong-Light", "gbk"),
    ("HeiseiKakuGo-W5", "cp932"),
    ("MSung-Light", "big5"),
    ("HYGothic-Medium", "cp949"),
)
FIRST_CJK = 0x2E80
"""Chinese, Japanese and Korean signs begin here (CJK Radicals, the Unicode code charts)."""

# Signs on letters: Hebrew 0591 to 05C7, Arabic 064B to 065F, 0670, 06D6 to 06ED; the Unicode code
# charts. The last pattern holds combining marks by their blocks.
_POINTS = re.compile(
    "[\\u0591-\\u05bd\\u05bf\\u05c1\\u05c2\\u05c4\\u05c5\\u05c7"
    "\\u0610-\\u061a\\u064b-\\u065f\\u0670"
    "\\u06d6-\\u06dc\\u06df-\\u06e4\\u06e7\\u06e8\\u06ea-\\u06ed]"
)
_MARK = "[\\u0300-\\u036f\\u1ab0-\\u1aff\\u1dc0-\\u1dff\\u20d0-\\u20ff]"
_VARIATIONS = re.compile("[\\ufe00-\\ufe0f]")
_MANY_MARKS = re.compile(f"({_MARK}{{3}}){_MARK}+")

BOX = ""
"""Font name of a run whose characters no font has: each is drawn as an empty box."""
BOX_WIDTH = 0.6
"""Advance of such a box, of the size."""


@dataclass(frozen=True, slots=True)
class Run:
    """Characters in one font, `width` at a size of 1 point."""

    font: str
    text: str
    width: float


def clean(text: str) -> str:
    """Composed, on one line, without control, format and variation characters; Arabic letters
    joined, vowel points of Hebrew and Arabic left out, and no more than three marks on a letter.
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    text = joined(_pointless(unicodedata.normalize("NFC", text)))
    if not text.isprintable():
        text = "".join(map(_shown, text))
    return " ".join(_MANY_MARKS.sub(r"\1", _VARIATIONS.sub("", text)).split())


def _shown(char: str) -> str:
    """A blank for any sort of blank or control character, nothing for what only formats."""
    kind = unicodedata.category(char)
    return " " if char.isspace() or kind == "Cc" else "" if kind == "Cf" else char


def _pointless(text: str) -> str:
    """Points are placed by tables that are not read here, and names are written without them."""
    return _POINTS.sub("", text)


def is_cjk(char: str) -> bool:
    """Whether lines may be broken beside it: Chinese, Japanese and Korean signs."""
    return FIRST_CJK <= ord(char) < 0xFB00 or 0xFF00 <= ord(char) <= 0xFFEF or ord(char) > 0x1FFFF


@lru_cache(maxsize=1024)
def runs(text: str, weight: str) -> tuple[Run, ...]:
    """The text split where the font changes."""
    if _face(weight).issuperset(map(ord, text)):
        return (_run(font_name(weight), text),) if text else ()
    japanese = any(0x3040 <= ord(char) <= 0x30FF for char in text)
    grouped = groupby(text, lambda char: _font_for(char, weight, japanese))
    return tuple(_run(font, "".join(chars)) for font, chars in grouped)


def width(text: str, weight: str) -> float:
    """Width at a size of 1 point; a text at size s is s times as wide."""
    return sum(run.width for run in runs(text, weight))


def font_name(weight: str) -> str:
    """The embedded font of a weight, registered at first use."""
    _face(weight)
    return f"Seedbox-{weight}"


def is_embedded(font: str) -> bool:
    """False for a font that the reader of the PDF must have."""
    return font not in dict(_CID)


@cache
def _others(weight: str) -> tuple[str, ...]:
    """File names of the fonts of other scripts, a person's own among them: tried after the main
    ones by name, bold ones first where bold is wanted, else last.
    """
    files = sorted(path.name for path in (labels_dir() / "fonts").glob("*.ttf"))
    others = [name for name in files if name not in FONT_FILES.values()]
    return tuple(
        sorted(others, key=lambda name: ("bold" in name.lower()) != (weight == "semibold"))
    )


def _run(font: str, text: str) -> Run:
    if font == BOX:
        return Run(font, text, BOX_WIDTH * len(text))
    return Run(font, text, pdfmetrics.stringWidth(text, font, 1))


@cache
def _font_for(char: str, weight: str, japanese: bool) -> str:
    for candidate in dict.fromkeys((weight, "regular", *_others(weight))):
        if ord(char) in _face(candidate):
            return font_name(candidate)
    private = unicodedata.category(char) == "Co"
    if FIRST_CJK <= ord(char) <= 0xFFFF and not private:
        return _cid_font(char, japanese)
    return BOX


def _cid_font(char: str, japanese: bool) -> str:
    for name, charset in sorted(_CID, key=lambda entry: japanese and entry[1] != "cp932"):
        if _encodes(char, charset):
            return _registered_cid(name)
    return BOX


def _encodes(char: str, charset: str) -> bool:
    try:
        return bool(char.encode(charset))
    except UnicodeEncodeError:
        return False


@cache
def _face(weight: str) -> frozenset[int]:
    """Registers the font of a weight; the code points that it has glyphs for."""
    path = labels_dir() / "fonts" / FONT_FILES.get(weight, weight)
    try:
        font = TTFont(f"Seedbox-{weight}", str(path))
    except (OSError, TTFError) as e:
        raise BadDataError(f"{path} cannot be used as a font: {e}.") from e
    pdfmetrics.registerFont(font)
    return frozenset(font.face.charToGlyph)


@cache
def _registered_cid(name: str) -> str:
    pdfmetrics.registerFont(UnicodeCIDFont(name))
    return name
