"""From what was chosen to a print job: the words of each label, and the settings behind them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seedbox.errors import NotFoundError

if TYPE_CHECKING:
    from seedbox.cli.filters import Chosen
    from seedbox.printing.content import LabelContent, LabelJob, Printed
    from seedbox.season.listing import Listing, PacketLine
    from seedbox.season.sharing_words import PortionWords
    from seedbox.tin.preferences import Settings


def label_job(settings: Settings, items: Sequence[LabelContent], given: dict[str, Any]) -> LabelJob:
    """The job, with what the settings say where no option does."""
    from seedbox.printing.content import LabelJob
    from seedbox.printing.designs import design
    from seedbox.printing.layout import with_code
    from seedbox.printing.sheets import sheet
    from seedbox.season.waiting_labels import first_free, sheet_in_use, usual_design

    across, down = given.get("offset_x"), given.get("offset_y")
    in_use = sheet_in_use(settings)
    wanted = given.get("sheet") or in_use
    on = sheet(wanted)
    chosen = design(given.get("design") or usual_design("P", settings))
    return LabelJob(
        design=with_code(chosen, given["code"]) if given.get("code") else chosen,
        sheet=on,
        items=items,
        start=given.get("start") or (first_free(settings, on.count) if wanted == in_use else 1),
        copies=given.get("copies", 1),
        offset_x_mm=settings.label_offset_x_mm if across is None else across,
        offset_y_mm=settings.label_offset_y_mm if down is None else down,
        outlines=given.get("outlines"),
        length_mm=given.get("length"),
        scale_x=settings.label_scale_x,
        scale_y=settings.label_scale_y,
    )


def printed_labels(
    settings: Settings, file: Path, items: Sequence[LabelContent], given: dict[str, Any]
) -> Printed:
    """Print the job to a file."""
    from seedbox.printing.labels import print_labels

    job = label_job(settings, items, given)
    dpi = given.get("dpi") or settings.label_dpi
    return print_labels(job, file, proof=not given.get("no_proof"), dpi=dpi)


def contents(
    listing: Listing,
    codes: Sequence[str],
    chosen: Chosen | None = None,
    text: str = "",
    settings: Settings | None = None,
    *,
    portions: PortionWords | None = None,
) -> Sequence[LabelContent]:
    """The words for each label, in the order in which the codes were named, else as listed. They
    are made when they are printed: a large tin's words need not be in memory together. With
    `portions` what is left is that of a portion.
    """
    from seedbox.printing.content import Contents, LabelContent
    from seedbox.season.label_fields import label_fields
    from seedbox.season.listing import Filter

    wanted = chosen.filter(listing, text=text, codes=codes) if chosen else Filter()
    lines = listing.select(wanted)
    if not lines:
        raise NotFoundError(
            "No packet fits, so no label was written.",
            hint="" if listing.lines else "The tin is empty.",
        )
    if codes:
        lines.sort(key=lambda line: codes.index(line.packet.code))

    def words(line: PacketLine) -> LabelContent:
        fields = label_fields(line, listing.book, listing.today, settings or listing.settings)
        if portions:
            fields["left"] = portions.of(line)
        return LabelContent(line.packet.code, fields)

    return Contents(lines, words)
