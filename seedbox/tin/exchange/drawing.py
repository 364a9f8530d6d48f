"""Codes for thousands of new packets at once: those that `codes.new_code` draws one by one."""

from __future__ import annotations

from random import Random

from seedbox.tin.codes import ALPHABET

# ISO/IEC 7064 MOD 37-2: the character set of the standard, radix 2, modulus 37.
_CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_VALUE = {character: value for value, character in enumerate(_CHARACTERS)}
_MODULUS, _RADIX = 37, 2
_WHOLE = frozenset(ALPHABET)


# A pair of characters and what it adds to the weighted sum, for each ten random bits.
_PAIRS = [
    (first + second, _RADIX * _VALUE[first] + _VALUE[second])
    for first in ALPHABET
    for second in ALPHABET
]


def draw_codes(count: int, taken: set[str], rng: Random, letter: str = "P") -> list[str]:
    """`count` different codes that are not in `taken`."""
    quick = Random(rng.getrandbits(128))
    used, found = set(taken), list[str]()
    while len(found) < count:
        code = _draw(quick, letter)
        if code is not None and code not in used:
            used.add(code)
            found.append(code)
    return found


def _draw(quick: Random, letter: str) -> str | None:
    """A code from thirty random bits; None where its check character or its look rules it out.

    Pure system (ISO/IEC 7064, 7.1.1): character i of n, from the left, weighs 2^(n - i), the
    check character 1, and the weighted sum is 1 modulo 37.
    """
    bits = quick.getrandbits(30)
    first, second, third = _PAIRS[bits >> 20], _PAIRS[bits >> 10 & 1023], _PAIRS[bits & 1023]
    total = 128 * _VALUE[letter] + 32 * first[1] + 8 * second[1] + 2 * third[1]
    check = _CHARACTERS[(1 - total) % _MODULUS]
    body = first[0] + second[0] + third[0]
    return None if check not in _WHOLE or body.isalpha() else f"{letter}{body}{check}"
