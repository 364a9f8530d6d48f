"""The printer's correction as the settings keep it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seedbox.printing.measuring import Correction
    from seedbox.tin.preferences import Settings


def correction_of(settings: Settings) -> Correction:
    """What labels are drawn with."""
    from seedbox.printing.measuring import Correction

    return Correction(
        settings.label_offset_x_mm,
        settings.label_offset_y_mm,
        settings.label_scale_x,
        settings.label_scale_y,
    )


def as_settings(found: Correction) -> dict[str, str]:
    """The same by the names of the settings, as they would be typed."""
    return {
        "label_offset_x_mm": f"{found.offset_x_mm:g}",
        "label_offset_y_mm": f"{found.offset_y_mm:g}",
        "label_scale_x": f"{found.scale_x:g}",
        "label_scale_y": f"{found.scale_y:g}",
    }
