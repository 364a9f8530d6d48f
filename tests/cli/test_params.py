"""Values of options: what is read, and what is refused in words."""

from __future__ import annotations

import click
import pytest

from seedbox.cli.params import YEAR, Choice, Number, Whole, read_number, read_share, read_words


@pytest.mark.parametrize(
    ("text", "share"),
    [("85%", 0.85), ("85", 0.85), ("0.85", 0.85), ("0,85", 0.85), ("1%", 0.01),
     ("100 %", 1), ("0", 0), ("1.0", 1.0)],
)  # fmt: skip
def test_shares(text: str, share: float) -> None:
    assert read_share(text) == pytest.approx(share)


@pytest.mark.parametrize("text", ["1", "101", "-3", "x", "", "nan", "inf", "120%"])
def test_what_is_no_share_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"\."):
        read_share(text)


def test_numbers_take_a_comma_and_a_true_minus() -> None:
    assert read_number("2,5") == 2.5
    assert read_number("\N{MINUS SIGN}18") == -18


@pytest.mark.parametrize("text", ["inf", "nan", "1e999", "", "five", "1.2.3"])
def test_what_is_no_finite_number_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not a number"):
        read_number(text)


def test_a_comma_that_could_part_thousands_is_asked_back() -> None:
    with pytest.raises(ValueError, match=r"could be 1200 or 1\.2"):
        read_number("1,200")
    assert read_number("1,25") == 1.25


def test_text_is_tidied_and_terminal_controls_are_refused() -> None:
    assert read_words(" Cherry\n Lane ") == "Cherry Lane"
    with pytest.raises(ValueError, match="control character"):
        read_words("a\x1b[2Jb")
    with pytest.raises(ValueError, match="not text"):
        read_words("a\udce9")


def test_a_choice_takes_the_beginning_of_a_word() -> None:
    kind = Choice("advice", ("sow", "sow thick", "spent", "test", "use up"))
    assert kind.convert("sow", None, None) == "sow"
    assert kind.convert("Sow-Thick", None, None) == "sow thick"
    assert kind.convert("u", None, None) == "use up"
    with pytest.raises(click.BadParameter, match="none of"):
        kind.convert("s", None, None)


def test_ranges_and_years_say_what_would_do() -> None:
    with pytest.raises(click.BadParameter, match="from 0 to 100"):
        Number("percent", 0, 100).convert("130", None, None)
    with pytest.raises(click.BadParameter, match="four digits"):
        YEAR.convert("25", None, None)


@pytest.mark.parametrize(
    ("text", "part"),
    [("0", "1 or more"), ("31", "30 or less"), ("2.5", "whole number"), ("", "whole number")],
)
def test_whole_numbers_in_a_range(text: str, part: str) -> None:
    kind = Whole("number", 1, 30)
    assert kind.convert("12", None, None) == 12
    with pytest.raises(click.BadParameter, match=part):
        kind.convert(text, None, None)
