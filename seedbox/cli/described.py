"""What depends on the garden's frosts: a garden that has not said them is told how to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.errors import BadDataError

if TYPE_CHECKING:
    from seedbox.season.sowing.desk import Desk

HOW_TO_SET = "seedbox garden --last-frost 04-25 --first-frost 10-25 --latitude 52"


def refuse_undescribed(desk: Desk) -> None:
    """Without frosts and latitude nothing can be told of a season."""
    if desk.garden.climate is None:
        raise BadDataError(
            "That depends on your garden, and its frosts and latitude have not been said yet.",
            hint=f"Say them (none where frost never comes): {HOW_TO_SET}",
        )
