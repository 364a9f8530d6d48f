"""Numbers, quantities and percentages as people write them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError, Read
from seedbox.tin.exchange.shapes import share_of
from seedbox.tin.records import Unit

MOST_SEEDS = 10_000_000
MOST_GRAMS = 1_000_000
# Avoirdupois ounce and pound in grams, exact (international yard and pound agreement, 1959).
_GRAMS = {
    "g": 1.0, "gr": 1.0, "gm": 1.0, "gms": 1.0, "gram": 1.0, "grams": 1.0, "gramme": 1.0,
    "grammes": 1.0, "mg": 0.001, "kg": 1000.0, "oz": 28.349523125, "ounce": 28.349523125,
    "ounces": 28.349523125, "lb": 453.59237, "lbs": 453.59237,
}  # fmt: skip
_SEEDS = {"seed", "seeds", "sd", "sds", "pcs", "beans", "peas", "ct", "count", "grains", "kernels"}
_STOCK = {"sets", "cloves", "bulbs", "tubers", "corms", "plants", "roots", "crowns"}
_ROUGH = re.compile(
    r"^(?:approx(?:imately|\.)?|about|around|roughly|circa|ca?\.|~|≈|>|<|max|min)\s*"
)
_ROUGH_END = re.compile(r"\s*(?:ish|approx\.?|or so|\+|\?|\(\?\))$")
_AMOUNT = re.compile(r"([\d.,'’\s]*\d)\s*([a-z]*)\.?$")
_FRACTION = re.compile(r"(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)\s*([a-z]*)\.?$")
_RANGE = re.compile(r"(\d+)\s*(?:-|–|to)\s*(\d+)\s*([a-z]*)\.?$")
_PERCENT = re.compile(r"(?:min\.?|>|≥|~|approx\.?|about)?\s*([\d.,]+)\s*(%|percent|per cent)?$")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅛": "1/8"}
_UNCOUNTED = re.compile(
    r"\b(packets?|pkts?|packs?|pks?|handfuls?|pinch(?:es)?|some|few|lots?|plenty|full|half|most|"
    r"many|unknown|jars?|bags?|envelopes?|tins?|bottles?|loads|bit|little|low|ok|yes|several|"
    r"pods?|heads?|spoon(?:ful)?|tsp|teaspoons?|good|enough|opened|unopened|part|quarter|n/a)\b|^[?x]$"
)  # fmt: skip
_NOTHING = {"none", "empty", "nil", "zero", "nothing", "gone", "used up", "all gone", "finished"}
_EXPECTED = "a number of seeds such as 50, or grams such as 2.5 g, was expected"


@dataclass(frozen=True, slots=True)
class Amount:
    """What is in a packet. `value` None: nobody counted."""

    value: float | None
    unit: Unit | None


def quantity(text: str, unit: Unit | None = None) -> Amount | Read:
    """Seeds or grams. A bare number has the `unit` of its column, seeds where that says none."""
    plain = _plain(text)
    if plain in _NOTHING:
        return Amount(0.0, unit or Unit.SEEDS)
    bare = _ROUGH_END.sub("", _ROUGH.sub("", plain))
    found = _range(bare, unit) or _counted(text, bare, unit)
    if found:
        kept = text.strip() if bare != plain or _RANGE.match(bare) else ""
        return Read(found, kept) if kept else found
    if _UNCOUNTED.search(plain):
        return Read(Amount(None, unit), text.strip())
    raise CellFaultError(f"{shown(text)} is no quantity; {_EXPECTED}.")


def percent(text: str) -> float:
    """A share of 1 from `85%`, `85` or `0.85`. A bare 1 could be either, so it is a fault."""
    found = _PERCENT.match(_plain(text))
    if not found:
        raise CellFaultError(f"{shown(text)} is no percentage; one such as 85 % was expected.")
    value = number(found[1], text)
    if found[2] is None and value == 1:
        raise CellFaultError(f"{shown(text)} may be 1 % or all of it; write 1 % or 100 %.")
    share = value if found[2] is None and value < 1 else value / 100
    if not 0 <= share <= 1:
        raise CellFaultError(f"{shown(text)} is not between 0 and 100 %.")
    return share


def exact_percent(text: str) -> float:
    """A percentage as an export writes it: 0.5 is half a per cent."""
    try:
        share = share_of(text.strip().removesuffix("%").rstrip())
    except (ValueError, ArithmeticError):
        return percent(text)
    if not 0 <= share <= 1:
        raise CellFaultError(f"{shown(text)} is not between 0 and 100 %.")
    return share


def number(digits: str, text: str, *, whole: bool = False) -> float:
    """A number with either decimal sign. `1,000` is a thousand where whole numbers are counted."""
    plain = re.sub(r"[\s'’]", "", digits)
    commas, points = plain.count(","), plain.count(".")
    if commas and points:
        thousands = "," if plain.rfind(".") > plain.rfind(",") else "."
        plain = plain.replace(thousands, "")
    elif commas > 1 or points > 1 or (whole and _grouped(plain)):
        plain = plain.replace(",", "").replace(".", "")
    elif commas and _grouped(plain) and not plain.startswith("0"):
        raise CellFaultError(
            f"{shown(text)} may be a thousand or a decimal; write it without the comma."
        )
    try:
        return float(plain.replace(",", "."))
    except ValueError:
        raise CellFaultError(f"{shown(text)} is no number.") from None


def _grouped(plain: str) -> bool:
    return bool(re.fullmatch(r"[1-9]\d{0,2}[.,]\d{3}", plain))


def _plain(text: str) -> str:
    plain = " ".join(text.casefold().replace("\u2212", "-").split())
    for sign, spelt in _VULGAR.items():
        plain = plain.replace(sign, f" {spelt}")
    return plain.strip()


def _range(bare: str, unit: Unit | None) -> Amount | None:
    """The lower of two figures: better one seed more than was thought than one too few."""
    found = _RANGE.match(bare)
    if not found or int(found[1]) >= int(found[2]):
        return None
    return _sized(float(found[1]), found[3], unit, bare)


def _counted(text: str, bare: str, unit: Unit | None) -> Amount | None:
    if bare.startswith("-"):
        raise CellFaultError(f"{shown(text)} is less than nothing; {_EXPECTED}.")
    found = _FRACTION.match(bare)
    if found and int(found[3]):
        value = int(found[1] or 0) + int(found[2]) / int(found[3])
        return _sized(value, found[4], unit, text)
    found = _AMOUNT.match(bare)
    if not found:
        return None
    weighed = found[2] in _GRAMS or (not found[2] and unit is Unit.GRAMS)
    return _sized(number(found[1], text, whole=not weighed), found[2], unit, text)


def _sized(value: float, word: str, unit: Unit | None, text: str) -> Amount | None:
    """The amount in seeds or grams; None when the word behind the number is no unit."""
    if word in _GRAMS or (not word and unit is Unit.GRAMS):
        amount = Amount(round(value * _GRAMS.get(word, 1.0), 9), Unit.GRAMS)
    elif not word or word in _SEEDS or word in _STOCK:
        amount = Amount(value, Unit.SEEDS)
    else:
        return None
    if value != int(value) and amount.unit is Unit.SEEDS:
        raise CellFaultError(f"{shown(text)} is no whole number of seeds; {_EXPECTED}.")
    if value > (MOST_SEEDS if amount.unit is Unit.SEEDS else MOST_GRAMS):
        raise CellFaultError(f"{shown(text)} is more than any packet holds; {_EXPECTED}.")
    return amount
