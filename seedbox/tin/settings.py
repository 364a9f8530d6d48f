"""Changing the settings of a tin."""

from __future__ import annotations

from dataclasses import replace

from seedbox.errors import BadDataError
from seedbox.tin.file import Tin
from seedbox.tin.preferences import CHOICES, Settings, parse_setting, together_problem

__all__ = ["CHOICES", "Settings", "reset_setting", "set_setting"]


def set_setting(tin: Tin, name: str, text: str) -> Settings:
    """Sets one setting from what a person typed; returns all settings as they are now."""
    parsed = parse_setting(name, text)
    _refuse_together(_with(tin.settings(), name, parsed))
    value = str(parsed)
    row_id = _row_id(tin, name)
    with tin.change(f"Set {name} to {value or 'nothing'}") as change:
        if row_id is None:
            change.insert("setting", {"name": name, "value": value})
        else:
            change.update("setting", row_id, {"value": value})
    return tin.settings()


def reset_setting(tin: Tin, name: str) -> Settings:
    """Goes back to the default of one setting."""
    parse_setting(name, str(getattr(Settings(), name, "")))
    row_id = _row_id(tin, name)
    if row_id is not None:
        _refuse_together(_with(tin.settings(), name, getattr(Settings(), name)))
        with tin.change(f"Reset {name}") as change:
            change.delete("setting", row_id)
    return tin.settings()


def _with(settings: Settings, name: str, value: str | float) -> Settings:
    return replace(settings, **{name: value})  # type: ignore[arg-type]


def _refuse_together(settings: Settings) -> None:
    problem = together_problem(settings)
    if problem:
        raise BadDataError(problem)


def _row_id(tin: Tin, name: str) -> int | None:
    found: int | None = tin.database.value("SELECT id FROM setting WHERE name = ?", (name,))
    return found
