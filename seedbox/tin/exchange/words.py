"""Cells that hold one of a few words: origin, treatment, kind, unit, yes or no; and codes."""

from __future__ import annotations

import re

from seedbox.errors import SeedboxError
from seedbox.tin import codes
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError, Read
from seedbox.tin.records import Kind, Origin, Treatment, Unit
from seedbox.tin.text import clean_line

_ORIGINS = {
    Origin.BOUGHT: (
        "bought", "purchased", "shop", "shop bought", "store bought", "commercial", "purchase",
        "buy", "b", "ordered", "retail", "nursery", "garden centre", "garden center",
    ),
    Origin.SAVED: (
        "saved", "own", "own seed", "own saved", "home saved", "homegrown", "home grown", "mine",
        "self", "self saved", "my own", "saved seed", "home", "s", "own garden", "my garden",
    ),
    Origin.SWAPPED: (
        "swapped", "swap", "seed swap", "trade", "traded", "exchange", "exchanged", "swop",
    ),
    Origin.GIFT: ("gift", "given", "present", "free", "freebie", "donated", "donation", "gifted"),
}  # fmt: skip
_TREATMENTS = {
    Treatment.NONE: (
        "none", "no", "untreated", "n", "not treated", "nil", "natural", "raw", "organic", "false",
        "-", "not",
    ),
    Treatment.DRESSED: (
        "dressed", "treated", "yes", "y", "fungicide", "coated", "chemical", "true", "film coated",
        "thiram", "fungicide treated", "treated seed", "seed dressing",
    ),
    Treatment.PELLETED: ("pelleted", "pellets", "pelletised", "pelletized", "pilled", "pellet"),
    Treatment.PRIMED: ("primed", "pre germinated", "priming", "osmoprimed", "hydroprimed"),
}  # fmt: skip
_KINDS = {
    Kind.SEED: ("seed", "seeds", "true seed"),
    Kind.STOCK: ("planting stock", "stock", "sets", "tubers", "bulbs", "cloves"),
}
_UNITS = {
    Unit.SEEDS: ("seeds", "seed", "pcs", "pieces", "count", "no"),
    Unit.GRAMS: ("grams", "g", "gram", "gr", "gm"),
}
_YES, _NO = {"yes", "y", "true", "1", "x"}, {"no", "n", "false", "0"}


_BY_WORD: dict[type, dict[str, object]] = {
    kind: {word: meaning for meaning, words in groups.items() for word in words}
    for kind, groups in (
        (Origin, _ORIGINS), (Treatment, _TREATMENTS), (Kind, _KINDS), (Unit, _UNITS),
    )
}  # fmt: skip


def origin(text: str) -> Origin | Read | None:
    """How the packet came. Other words (a country, a name) are kept as a remark: origin unknown."""
    found = _BY_WORD[Origin].get(_folded(text))
    return found if isinstance(found, Origin) else Read(None, f"Origin: {text.strip()}")


def origin_of_source(text: str) -> Origin | None:
    """What a source such as `own seed` or `seed swap` says of the origin."""
    found = _BY_WORD[Origin].get(_folded(text))
    return found if isinstance(found, Origin) else None


def treatment(text: str) -> Treatment:
    """None, dressed, pelleted or primed; `yes` is dressed, the one to be careful with."""
    found = _BY_WORD[Treatment].get(_folded(text))
    if isinstance(found, Treatment):
        return found
    raise CellFaultError(
        f"{shown(text)} is no treatment; none, dressed, pelleted or primed was expected."
    )


def kind(text: str) -> Kind:
    found = _BY_WORD[Kind].get(_folded(text))
    if isinstance(found, Kind):
        return found
    raise CellFaultError(f"{shown(text)} is no kind; seed or planting stock was expected.")


def unit(text: str) -> Unit:
    found = _BY_WORD[Unit].get(_folded(text))
    if isinstance(found, Unit):
        return found
    raise CellFaultError(f"{shown(text)} is no unit; seeds or grams was expected.")


def yes_or_no(text: str) -> bool:
    word = _folded(text)
    if word in _YES or word in _NO:
        return word in _YES
    raise CellFaultError(f"{shown(text)} is neither yes nor no.")


def packet_code(text: str) -> str:
    """A packet's code in its plain form."""
    return _code(text, "P", "packet")


def test_code(text: str) -> str:
    return _code(text, "T", "germination test")


def sowing_code(text: str) -> str:
    return _code(text, "S", "sowing")


def ean(text: str) -> str:
    """A trade number (EAN-13, EAN-8, UPC-A) with a true check digit.

    Weights 3 and 1 from the right (GS1 General Specifications, section 7.9.1).
    """
    digits = re.sub(r"[\s-]", "", text)
    if re.fullmatch(r"\d([.,]\d+)?[eE]\+?\d+", digits):
        raise CellFaultError(
            f"{shown(text)}: the spreadsheet has shortened this number; format the column as text."
        )
    if not (digits.isascii() and digits.isdigit() and len(digits) in (8, 12, 13)):
        raise CellFaultError(f"{shown(text)} is no trade number; 13, 12 or 8 digits were expected.")
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(digits[::-1]))
    if total % 10:
        raise CellFaultError(f"{shown(text)}: the last digit does not check; one digit is wrong.")
    return digits


def tags(text: str) -> tuple[str, ...]:
    """Words between commas; where there is none, between semicolons or bars. Each once."""
    words = (clean_line(word) for word in re.split("," if "," in text else r"[;|\n]", text))
    return tuple(dict.fromkeys(word for word in words if word))


def _code(text: str, letter: str, what: str) -> str:
    try:
        code = codes.parse(text)
    except SeedboxError as fault:
        raise CellFaultError(fault.sentence) from fault
    if not code.startswith(letter):
        raise CellFaultError(f"{shown(text)} is the code of no {what}: those begin with {letter}.")
    return code


def _folded(text: str) -> str:
    return " ".join(re.sub(r"[_/-]", " ", text.casefold()).split()).strip(".! ") or text.strip()
