"""Codes for thousands of new packets at once: those that `codes.new_code` draws one by one."""

from __future__ import annotations

from random import Random

from seedbox.tin.codes import ALPHABET

# ISO/IEC 7064 MOD 37-2: the character set of the standard, radix 2, modulus 37.
_CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_VALUE = {character: value for value, character in enumerate(_CHARACTERS)}
_MODULUS, _RADIX = 37, 2
_WHOLE = frozenset(ALPHABET)


def draw_codes(count: int, taken: set[str], rng: Random, letter: str = "P") -> list[str]:
    """`count` different codes that are not in `taken`."""
    quick = Random(rng.getrandbits(128))
    used, found = set(taken), list[str]()
    while len(found) < count:
        body = letter + "".join(quick.choices(ALPHABET, k=6))
        check = _check_character(body)
        code = body + check
        if check in _WHOLE and code not in used and not body.isalpha():
            used.add(code)
            found.append(code)
    return found


def _check_character(body: str) -> str:
    """Pure system check character (ISO/IEC 7064, 7.1.1): the weighted sum becomes 1 modulo 37."""
    product = 0
    for character in body:
        product = (product + _VALUE[character]) * _RADIX % _MODULUS
    return _CHARACTERS[(1 - product) % _MODULUS]
