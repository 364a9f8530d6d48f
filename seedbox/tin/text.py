"""What people type: cleaned, never interpreted. And amounts as people read them."""

from __future__ import annotations

import unicodedata

from seedbox.tin.records import Kind, Unit

# Cc control, Cs lone surrogates (no file can hold them), Co and Cn nothing that can be shown.
_DROPPED = {"Cc", "Cs", "Co", "Cn"}
# Marks that turn the direction of the text after them: a name could disguise itself with these.
_TURNING = {chr(point) for point in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))}


def clean_line(text: str) -> str:
    """One line: spaces and line breaks become one space each, control characters go."""
    if not text:
        return text
    if text.isascii() and text.isprintable() and "  " not in text:
        return text.strip()
    return " ".join(_composed(text, keep="").split())


def clean_note(text: str) -> str:
    """Several lines: line breaks stay, control characters go."""
    if text.isascii() and text.isprintable():
        return text.strip()
    lines = _composed(text.replace("\r\n", "\n").replace("\r", "\n"), keep="\n").split("\n")
    return "\n".join(line.rstrip() for line in lines).strip()


def amount_text(amount: float, unit: Unit | None, kind: Kind = Kind.SEED) -> str:
    """`20 seeds`, `1 seed`, `2.5 g`; planting stock is counted in pieces."""
    if unit is Unit.GRAMS:
        return f"{amount:.6f}".rstrip("0").rstrip(".") + " g"
    word = "seed" if kind is Kind.SEED else "piece"
    return f"{amount:.0f} {word}{'' if amount == 1 else 's'}"


def _composed(text: str, *, keep: str) -> str:
    """Text in composed form (NFC), so that one name is spelt one way."""
    return unicodedata.normalize("NFC", "".join(_kept(character, keep) for character in text))


def _kept(character: str, keep: str) -> str:
    if character in keep:
        return character
    if character.isspace():
        return " "
    dropped = character in _TURNING or unicodedata.category(character) in _DROPPED
    return "" if dropped else character
