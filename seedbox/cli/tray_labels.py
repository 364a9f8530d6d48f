"""Labels for trays, pots and rows, printed and read back as every label is."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seedbox.errors import NotFoundError

if TYPE_CHECKING:
    from seedbox.printing.content import LabelContent, Printed
    from seedbox.season.sowing.in_progress import Growing
    from seedbox.tin.file import Tin
    from seedbox.tin.preferences import Settings

DESIGN = "tray"


def trays_wanted(codes: Sequence[str]) -> bool:
    """Whether labels are asked for sowings, by their codes."""
    return any(code.lstrip()[:1] in "Ss" for code in codes)


def sowings_for(tin: Tin, codes: Sequence[str]) -> list[Growing]:
    """The sowings that codes name; none names all that still stand."""
    from seedbox.cli.lookup import crop_book
    from seedbox.season.sowing.garden import read_garden
    from seedbox.season.sowing.in_progress import all_sowings

    found = all_sowings(tin, read_garden(tin), crop_book(tin), tin.packets())
    if codes:
        by_code = {one.sowing.code: one for one in found}
        return [by_code[tin.sowing(code).code] for code in codes]
    standing = [one for one in found if one.open]
    if not standing:
        raise NotFoundError(
            "No sowing is in progress, so there is no tray to label.",
            hint="Sow with: seedbox sow CODE --plants 12",
        )
    return standing


def tray_contents(
    tin: Tin, sowings: Sequence[Growing], settings: Settings, each: str = "tray"
) -> list[LabelContent]:
    """The words of each label: one for each sowing, or one for `each` "cell" of it."""
    from seedbox.cli.lookup import crop_book
    from seedbox.printing.content import LabelContent
    from seedbox.season.sowing.tray_fields import fields_each

    book = crop_book(tin)
    return [
        LabelContent(one.sowing.code, fields)
        for one in sowings
        for fields in fields_each(one, book, settings, each)
    ]


def print_trays(tin: Tin, sowings: Sequence[Growing], file: Path, given: dict[str, Any]) -> Printed:
    """Labels of sowings as a PDF, in the design for trays unless another is named."""
    from seedbox.cli.label_jobs import printed_labels

    settings = tin.settings()
    items = tray_contents(tin, sowings, settings, given.get("each") or "tray")
    return printed_labels(settings, file, items, with_usual(given))


def with_usual(given: dict[str, Any]) -> dict[str, Any]:
    """The options, with the design for trays where none was named."""
    return {"design": DESIGN, **{name: value for name, value in given.items() if value is not None}}
