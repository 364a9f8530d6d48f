"""What the import asks of a crop resolver, and what it takes for an answer."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol


class CropAnswer(Protocol):
    """`crop_id` when the text means one crop; else names to offer the person.

    `clashes` are crops that share the very name; `near` are names spelt almost alike. `is_id`
    says that the text is the id of a crop, whatever it means as a name.
    """

    @property
    def crop_id(self) -> str | None: ...
    @property
    def clashes(self) -> tuple[str, ...]: ...
    @property
    def near(self) -> tuple[str, ...]: ...
    @property
    def is_id(self) -> bool: ...


ResolveCrop = Callable[[str], CropAnswer]
NameOfCrop = Callable[[str], str]
