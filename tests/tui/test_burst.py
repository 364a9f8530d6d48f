from __future__ import annotations

from seedbox.tui.burst import Burst


def typed(text: str, gap: float, start: float = 1.0) -> Burst:
    burst = Burst(0.04)
    for number, char in enumerate(text):
        burst.add(char, start + number * gap)
    return burst


def test_a_scanner_is_recognised_by_its_speed():
    assert typed("P000002G", 0.005).code(1.04) == "P000002G"


def test_fingers_are_not():
    assert typed("P000002G", 0.12).code(1.96) == ""


def test_a_late_enter_is_a_finger():
    assert typed("P000002G", 0.005).code(2.0) == ""


def test_spaces_and_dashes_belong_to_a_code():
    assert typed("P000-002 G", 0.005).code(1.05) == "P000-002 G"


def test_only_the_end_counts():
    assert typed("xyP000002G", 0.005).code(1.05) == "P000002G"


def test_only_letters_of_codes_open_one():
    burst = Burst(0.04)
    assert burst.opens("P") and burst.opens("t")
    assert not burst.opens("j")
    burst.add("p", 1.0)
    assert burst.opens("4") and burst.opens("-")
    assert not burst.opens("/")
