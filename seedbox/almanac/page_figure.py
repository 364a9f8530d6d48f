"""A figure ready to be shown."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.almanac.marks import Mark


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing known of a crop, as text for show. Numbers come from the typed functions.

    `key` is the name under which a person may set the figure for their garden, or empty.
    `note` says what the figure is of, where its name and unit do not.
    """

    section: str
    name: str
    value: str
    unit: str
    source: str
    mark: Mark
    key: str = ""
    note: str = ""
