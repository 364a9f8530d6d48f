"""Codes of eight characters that survive mud, handwriting and typing.

A letter for what it is, six of Crockford's 32 digits and letters (no I, L, O, U), and the check
character of ISO/IEC 7064 MOD 37-2. That alphabet has 37 characters; serials whose check would
be I, L, O, U or * are skipped, so the whole code stays within the 32.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Container
from typing import TYPE_CHECKING

from seedbox.errors import BadDataError

if TYPE_CHECKING:
    from random import Random

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
KINDS = {"P": "packet", "S": "sowing", "T": "germination test"}
LENGTH = 8

_SERIAL_LENGTH = 6
_LOOKALIKES = str.maketrans("ILO", "110")


def check_character(body: str) -> str:
    """Check character by ISO/IEC 7064 MOD 37-2; may be one that no code of ours carries."""
    # Imported here: a listing reads codes but never computes one, and stdnum costs 20 ms.
    from stdnum.iso7064 import mod_37_2

    return str(mod_37_2.calc_check_digit(body))


def new_code(kind_letter: str, taken: Container[str], rng: Random) -> str:
    """A code that is not in `taken`.

    A serial has at least one digit, so that no word ("tomatoes") is ever a code.
    """
    while True:
        body = kind_letter + "".join(rng.choices(ALPHABET, k=_SERIAL_LENGTH))
        if body.isalpha():
            continue
        check = check_character(body)
        if check in ALPHABET and body + check not in taken:
            return body + check


def parse(text: str) -> str:
    """The code in its plain form; case, spaces, dashes, I, L and O for 1, 1, 0 do not matter."""
    code = _folded(text)
    shown_text = text.strip()[:40]
    if len(code) != LENGTH:
        raise BadDataError(
            f"“{shown_text}” is not a code: it has {len(code)} characters, a code has {LENGTH}."
        )
    strange = next((character for character in code if character not in ALPHABET), None)
    if strange is not None:
        raise BadDataError(f"“{shown_text}” is not a code: no code has “{strange}” in it.")
    if code[0] not in KINDS:
        raise BadDataError(f"“{shown_text}” is not a code: it begins with none of P, S, T.")
    if check_character(code[:-1]) != code[-1]:
        raise BadDataError(
            f"“{shown_text}”: the check character does not match. One character is wrong,"
            " or two are swapped."
        )
    return code


def looks_like_code(text: str) -> bool:
    """Whether somebody probably meant a code here, even with a slip in it.

    Eight letters without a digit are a word, unless the check character says otherwise.
    """
    code = _folded(text)
    if len(code) != LENGTH or code[0] not in KINDS or not set(code) <= set(ALPHABET):
        return False
    has_digit = any(character.isdigit() for character in text)
    return has_digit or check_character(code[:-1]) == code[-1]


def shown(code: str) -> str:
    """As people read it: `P4K7QMX2` becomes `P4K7 QMX2`."""
    return f"{code[:4]} {code[4:]}"


def _folded(text: str) -> str:
    """Capitals without spaces and dashes of any script, with lookalikes as the digits meant."""
    plain = unicodedata.normalize("NFKC", text).upper()
    kept = (c for c in plain if not c.isspace() and unicodedata.category(c) not in ("Pd", "Cf"))
    return "".join(kept).replace("_", "").translate(_LOOKALIKES)
