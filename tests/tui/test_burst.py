from __future__ import annotations

from seedbox.tui.burst import Burst


def typed(text: str, gap: float, start: float = 1.0) -> Burst:
    burst = Burst(0.12)
    for number, char in enumerate(text):
        burst.add(char, start + number * gap)
    return burst


def test_a_scanner_is_recognised_by_its_rhythm():
    assert typed("P000002G", 0.005).text(1.04) == "P000002G"
    assert typed("P000002G", 0.1).text(1.8) == "P000002G"


def test_fingers_are_not():
    assert typed("P000002G", 0.15).text(2.2) == ""


def test_a_late_enter_is_a_finger():
    assert typed("P000002G", 0.005).text(2.0) == ""


def test_spaces_and_dashes_belong_to_a_code():
    assert typed("P000-002 G", 0.005).text(1.05) == "P000-002 G"


def test_only_the_end_counts():
    assert typed("xyP000002G", 0.005).text(1.05) == "P000002G"


def test_a_shops_number_is_all_digits():
    assert typed("2001234567893", 0.005).text(1.07) == "2001234567893"


def test_only_letters_of_codes_and_digits_begin_one():
    burst = Burst(0.12)
    assert burst.takes("P", 1) and burst.takes("t", 1) and burst.takes("7", 1)
    assert not burst.takes("j", 1)
    burst.add("p", 1.0)
    assert burst.takes("4", 1.1) and burst.takes("-", 1.1)
    assert not burst.takes("/", 1.1)
    assert not burst.takes("x", 1.2), "after a pause only a first character is one"


def test_a_number_goes_on_with_digits_alone():
    assert typed("200", 0.005).takes("1", 1.02)
    assert not typed("200", 0.005).takes("a", 1.02)
    assert not typed("2001234567893", 0.005).takes("1", 1.07)
