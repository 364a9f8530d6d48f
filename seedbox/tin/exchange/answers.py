"""What a crop resolver answers when the import asks which crop a text means."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CropAnswer:
    """`crop_id` when the text means one crop; else names to offer the person.

    `clashes` are crops that share the very name; `near` are names spelt almost alike.
    """

    crop_id: str | None = None
    clashes: tuple[str, ...] = ()
    near: tuple[str, ...] = ()


ResolveCrop = Callable[[str], CropAnswer]
NameOfCrop = Callable[[str], str]
