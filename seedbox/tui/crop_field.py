"""The field in which a crop is named: names offered while one types, and what was meant."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.errors import NotFoundError
from seedbox.season.crops import CropBook
from seedbox.tui.field_values import FieldReader


@dataclass(frozen=True, slots=True)
class CropNames:
    """Crop names offered while one types."""

    book: CropBook

    def __call__(self, typed: str) -> list[tuple[str, str]]:
        found = ((name, self.book.name(crop_id)) for name, crop_id in self.book.complete(typed))
        return [(name, "" if name == usual else usual) for name, usual in found]


def crop_meant(reader: FieldReader, before: str, book: CropBook) -> str:
    """Id of the crop in the field `crop`, '' where it is empty or at fault; `before` stays where
    its name was left alone.
    """
    typed = reader.text("crop")
    if before and typed == book.name(before):
        return before
    try:
        return book.crop_id(typed) if typed else ""
    except NotFoundError as error:
        reader.fault("crop", f"{error.sentence} {error.hint}".strip())
        return ""
