"""From a packet to the form that starts its test, and from there to the page of the test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.season.listing import PacketLine
from seedbox.tui.germination_forms import start_plan

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


def ask_to_start(app: SeedboxApp, line: PacketLine, seeds: int = 0) -> None:
    """Put the form over the page; `seeds` are proposed, 0 leaves it to the forecast."""

    def show(code: str, sentence: str) -> None:
        app.call_later(_show, app, code, sentence)

    seeds = seeds or (line.forecast.test_seeds or 0 if line.forecast else 0)
    try:
        plan = start_plan(app.desk, line, seeds, show)
    except SeedboxError as error:
        app.complain(error)
    else:
        app.ask(plan)


def _show(app: SeedboxApp, code: str, sentence: str) -> None:
    if app.jump(code):
        app.say(sentence)
