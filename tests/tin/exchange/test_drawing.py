"""Many codes at once are the codes of one at a time."""

from __future__ import annotations

from random import Random

from stdnum.iso7064 import mod_37_2

from seedbox.tin import codes
from seedbox.tin.exchange.drawing import draw_codes


def test_every_code_passes_an_independent_check() -> None:
    # python-stdnum computes ISO/IEC 7064 MOD 37-2 by itself.
    for letter in "PT":
        for code in draw_codes(2_000, set(), Random(1), letter):
            assert mod_37_2.is_valid(code)
            assert codes.parse(code) == code
            assert code[0] == letter
            assert any(character.isdigit() for character in code[1:7])


def test_no_code_comes_twice_or_is_taken() -> None:
    first = draw_codes(3_000, set(), Random(5))
    assert len(set(first)) == 3_000
    assert not set(first) & set(draw_codes(3_000, set(first), Random(5)))


def test_all_codes_that_one_at_a_time_would_draw_are_possible() -> None:
    seen = {character for code in draw_codes(3_000, set(), Random(2)) for character in code[1:]}
    assert seen == set(codes.ALPHABET)
