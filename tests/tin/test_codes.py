"""Codes: the check character by the standard, and what a slip of hand or eye does to one."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from seedbox.errors import BadDataError
from seedbox.tin import codes

STANDARD_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"


def check_by_weights(body: str) -> str:
    """ISO/IEC 7064, pure system MOD 37-2 by its polynomial method: the sum of character value
    times 2^(position from the right, the check at position 0) leaves 1 after division by 37.
    Written apart from the recursive method that python-stdnum uses."""
    total = sum(
        STANDARD_ALPHABET.index(character) * 2**power
        for power, character in enumerate(reversed(body), 1)
    )
    return STANDARD_ALPHABET[(1 - total) % 37]


@st.composite
def made_codes(draw: st.DrawFn) -> str:
    letter = draw(st.sampled_from("PST"))
    return codes.new_code(letter, (), Random(draw(st.integers(0, 2**32))))


def is_accepted(text: str) -> bool:
    try:
        codes.parse(text)
    except BadDataError:
        return False
    return True


def test_worked_example_of_python_stdnum() -> None:
    # Example in the documentation of stdnum.iso7064.mod_37_2.
    assert codes.check_character("G123489654321") == "Y"


def test_isbt_128_donation_number() -> None:
    # A donation number printed in ISBT 128 introductions carries MOD 37-2; figure from memory.
    assert codes.check_character("G123498654321") == check_by_weights("G123498654321") == "H"


@given(st.text(STANDARD_ALPHABET[:-1], min_size=1, max_size=20))
def test_check_agrees_with_an_independent_computation(body: str) -> None:
    assert codes.check_character(body) == check_by_weights(body)


@given(made_codes())
def test_a_new_code_is_within_the_alphabet_and_valid(code: str) -> None:
    assert len(code) == codes.LENGTH
    assert set(code) <= set(codes.ALPHABET)
    assert any(character.isdigit() for character in code[:-1])
    assert mod_37_2.is_valid(code)
    assert codes.parse(code) == code
    assert codes.looks_like_code(code)


@given(made_codes(), st.data())
def test_every_single_substitution_is_caught(code: str, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, codes.LENGTH - 1))
    other = data.draw(st.sampled_from(codes.ALPHABET))
    assume(other != code[place])
    assert not is_accepted(code[:place] + other + code[place + 1 :])


@given(made_codes(), st.integers(0, codes.LENGTH - 2))
def test_swapped_neighbours_are_caught(code: str, place: int) -> None:
    assume(code[place] != code[place + 1])
    swapped = code[:place] + code[place + 1] + code[place] + code[place + 2 :]
    assert not is_accepted(swapped)


@given(made_codes(), st.integers(0, codes.LENGTH - 3))
def test_a_jump_is_caught(code: str, place: int) -> None:
    a, b, c = tuple(code[place : place + 3])
    assume(a != c)
    assert not is_accepted(code[:place] + c + b + a + code[place + 3 :])


def test_misread_twins_are_caught() -> None:
    """Every pair of equal neighbours, read as every other pair."""
    rng, seen = Random(11), 0
    while seen < 2_000:
        code = codes.new_code("P", (), rng)
        for place in range(1, codes.LENGTH - 1):
            if code[place] == code[place + 1]:
                seen += 1
                for other in set(codes.ALPHABET) - {code[place]}:
                    assert not is_accepted(code[:place] + other * 2 + code[place + 2 :])


@given(made_codes(), st.data())
def test_any_spelling_is_read(code: str, data: st.DataObject) -> None:
    lookalikes = {"1": "1IilL", "0": "0oO"}
    spelt = [data.draw(st.sampled_from(lookalikes.get(c, c + c.lower()))) for c in code]
    gaps = st.sampled_from(["", " ", "-", "–", "\u00a0", "  ", "_"])
    text = "".join(character + data.draw(gaps) for character in spelt)
    assert codes.parse(text) == code


def test_lookalikes_are_read_in_the_check_character_too() -> None:
    code = next(c for c in (codes.new_code("P", (), Random(n)) for n in range(500)) if c[-1] == "0")
    assert codes.parse(code[:-1] + "o") == code
    code = next(c for c in (codes.new_code("P", (), Random(n)) for n in range(500)) if c[-1] == "1")
    assert codes.parse(code[:-1] + "l") == codes.parse(code[:-1] + "I") == code


def test_serials_with_an_impossible_check_are_skipped() -> None:
    class Scripted(Random):
        """Draws serials in the order given."""

        def __init__(self, *serials: str) -> None:
            super().__init__()
            self.serials = list(serials)

        def choices(self, *_: object, **__: object) -> list[str]:  # type: ignore[override]
            return list(self.serials.pop(0))

    def serial_with(check: str) -> str:
        serials = (f"{number:06d}" for number in range(100_000))
        return next(serial for serial in serials if check_by_weights("P" + serial) == check)

    good = serial_with("7")
    skipped = [serial_with(check) for check in "ILOU*"]
    assert codes.new_code("P", (), Scripted(*skipped, "ABCDEF", good)) == f"P{good}7"


def test_taken_codes_are_not_given_again() -> None:
    first = codes.new_code("P", (), Random(1))
    assert codes.new_code("P", {first}, Random(1)) != first


def test_a_seed_gives_the_same_codes_again() -> None:
    assert codes.new_code("T", (), Random(9)) == codes.new_code("T", (), Random(9))


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "0 characters"),
        ("P4K7", "4 characters"),
        ("P4K7QMXU", "no code has “U”"),
        ("P4K7QM*2", "no code has “*”"),
        ("A4K7QMX2", "begins with none of P, S, T"),
        ("P" * 1_000_000, "1000000 characters"),
    ],
)
def test_what_is_no_code_gets_a_sentence(text: str, part: str) -> None:
    with pytest.raises(BadDataError) as caught:
        codes.parse(text)
    assert part in caught.value.sentence
    assert len(caught.value.sentence) < 200


def test_a_wrong_check_character_is_named_as_such() -> None:
    code = codes.new_code("P", (), Random(2))
    wrong = "2" if code[3] != "2" else "3"
    with pytest.raises(BadDataError, match="check character does not match"):
        codes.parse(code[:3] + wrong + code[4:])


@pytest.mark.parametrize("word", ["tomatoes", "potatoes", "tomato", "", "parsnip", "S", "Swede"])
def test_words_do_not_look_like_codes(word: str) -> None:
    assert not codes.looks_like_code(word)


def test_a_code_with_a_slip_still_looks_like_one() -> None:
    assert codes.looks_like_code("p4k7 qmx9")


def test_shown() -> None:
    assert codes.shown("P4K7QMX2") == "P4K7 QMX2"
