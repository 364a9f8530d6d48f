"""What README shows is what the program prints."""

from __future__ import annotations

from pathlib import Path

from tests.journeys.readme import README, Walk, steps

TEXT = README.read_text(encoding="utf-8")


def test_the_tour_prints_what_readme_shows(tmp_path: Path) -> None:
    walk = Walk(tmp_path)
    tour = steps(TEXT)
    assert len(tour) >= 8
    for step in tour:
        printed = walk.run(step.command)
        shown = list(step.printed)
        if shown and shown[-1] == "...":
            shown.pop()
            printed = printed[: len(shown)]
        assert printed == shown, step.command
