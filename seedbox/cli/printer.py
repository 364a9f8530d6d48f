"""The printer's correction as it would be typed into the settings."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seedbox.printing.measuring import Correction


def as_settings(found: Correction) -> dict[str, str]:
    """The correction by the names of the settings."""
    return {
        "label_offset_x_mm": f"{found.offset_x_mm:g}",
        "label_offset_y_mm": f"{found.offset_y_mm:g}",
        "label_scale_x": f"{found.scale_x:g}",
        "label_scale_y": f"{found.scale_y:g}",
    }
