"""Settings of germination tests: what each accepts, and that poor stays below good."""

from __future__ import annotations

import pytest

from seedbox.errors import BadDataError
from seedbox.tin.file import Tin
from seedbox.tin.preferences import Settings, settings_from
from seedbox.tin.settings import reset_setting, set_setting


def test_defaults(tin: Tin) -> None:
    found = tin.settings()
    assert (found.test_interval, found.test_confidence) == ("wilson", 0.95)
    assert (found.test_poor, found.test_good, found.test_error) == (0.5, 0.8, 0.1)


@pytest.mark.parametrize("name", ["wilson", "clopper-pearson", "jeffreys"])
def test_intervals_by_name(tin: Tin, name: str) -> None:
    assert set_setting(tin, "test_interval", name.upper()).test_interval == name


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("test_interval", "wald"),
        ("test_confidence", "95"),
        ("test_error", "0.5"),
        ("test_poor", "0.8"),
        ("test_poor", "0.9"),
        ("test_good", "0.4"),
    ],
)
def test_what_is_refused(tin: Tin, name: str, text: str) -> None:
    with pytest.raises(BadDataError):
        set_setting(tin, name, text)
    assert tin.settings() == Settings()


def test_a_reset_may_not_turn_the_two_round(tin: Tin) -> None:
    set_setting(tin, "test_good", "0.95")
    set_setting(tin, "test_poor", "0.85")
    with pytest.raises(BadDataError, match="must lie below"):
        reset_setting(tin, "test_good")
    assert tin.settings().test_good == 0.95


def test_what_another_tool_wrote_falls_back_together() -> None:
    found = settings_from({"test_poor": "0.9", "test_good": "0.7", "test_error": "0.2"})
    assert (found.test_poor, found.test_good, found.test_error) == (0.5, 0.8, 0.2)
