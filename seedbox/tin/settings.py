"""Changing the settings of a tin."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from seedbox.errors import BadDataError
from seedbox.tin.changes import OpenChange
from seedbox.tin.file import Tin
from seedbox.tin.preferences import CHOICES, Settings, parse_setting, together_problem

__all__ = [
    "CHOICES", "Settings", "reset_setting", "set_setting", "set_settings", "write_settings",
]  # fmt: skip


def set_setting(tin: Tin, name: str, text: str) -> Settings:
    """Sets one setting from what a person typed; returns all settings as they are now."""
    return set_settings(tin, {name: text})


def set_settings(tin: Tin, texts: Mapping[str, str], label: str = "") -> Settings:
    """Sets several settings as one change, called `label` in the history."""
    parsed = {name: parse_setting(name, text) for name, text in texts.items()}
    said = " and ".join(f"{name} to {str(value) or 'nothing'}" for name, value in parsed.items())
    with tin.change(label or f"Set {said}") as change:
        write_settings(tin, change, parsed)
    return tin.settings()


def write_settings(tin: Tin, change: OpenChange, parsed: Mapping[str, str | float]) -> None:
    """As part of a change: settings whose values were parsed before."""
    _refuse_together(replace(tin.settings(), **parsed))  # type: ignore[arg-type]
    for name, value in parsed.items():
        row_id = _row_id(tin, name)
        if row_id is None:
            change.insert("setting", {"name": name, "value": str(value)})
        else:
            change.update("setting", row_id, {"value": str(value)})


def reset_setting(tin: Tin, name: str) -> Settings:
    """Goes back to the default of one setting."""
    parse_setting(name, str(getattr(Settings(), name, "")))
    row_id = _row_id(tin, name)
    if row_id is not None:
        default = {name: getattr(Settings(), name)}
        _refuse_together(replace(tin.settings(), **default))
        with tin.change(f"Reset {name}") as change:
            change.delete("setting", row_id)
    return tin.settings()


def _refuse_together(settings: Settings) -> None:
    problem = together_problem(settings)
    if problem:
        raise BadDataError(problem)


def _row_id(tin: Tin, name: str) -> int | None:
    found: int | None = tin.database.value("SELECT id FROM setting WHERE name = ?", (name,))
    return found
