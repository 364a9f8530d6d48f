"""The printer's correction as it would be typed into the settings."""

from __future__ import annotations

from seedbox.printing.measuring import Correction, correction_of

__all__ = ["as_settings", "correction_of"]


def as_settings(found: Correction) -> dict[str, str]:
    """The same by the names of the settings, as they would be typed."""
    return {
        "label_offset_x_mm": f"{found.offset_x_mm:g}",
        "label_offset_y_mm": f"{found.offset_y_mm:g}",
        "label_scale_x": f"{found.scale_x:g}",
        "label_scale_y": f"{found.scale_y:g}",
    }
