"""What a booking did, and the labels and packets to fold that go with it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from seedbox.errors import SeedboxError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.booking import Booked, Given
from seedbox.season.swapping.minding import Minding
from seedbox.season.swapping.words import named
from seedbox.tin.codes import shown
from seedbox.tin.records import Packet
from seedbox.tin.text import amount_text
from seedbox.tui.desk import Desk
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_text_page import law_lines
from seedbox.tui.swap_words import capital
from seedbox.tui.tabs import tab
from seedbox.tui.text_lines import Line, heading, item, paragraph
from seedbox.tui.units import unbroken

SHARING = "sharing"


def refuse_label_file(path: Path) -> None:
    """Before anything is booked: sharing labels that cannot be written stop it."""
    from seedbox.printing.labels import check_target
    from seedbox.season.swapping.portion_labels import refuse_other_ending

    refuse_other_ending(path)
    check_target(path)


def sharing_words(desk: Desk, given: Sequence[Given], path: Path | None) -> str:
    """Writes a sharing label for each portion and says so, or why not. What is booked stays."""
    if path is None or not given:
        return f"For a sharing label later: seedbox labels sharing.pdf CODE --design {SHARING}"
    from seedbox.printing.content import LabelContent, LabelJob
    from seedbox.printing.designs import design
    from seedbox.printing.labels import print_labels
    from seedbox.printing.sheets import sheet
    from seedbox.season.swapping.portion_labels import portion_labels
    from seedbox.season.waiting_labels import first_free, sheet_in_use

    tin = desk.tin()
    settings = tin.settings()
    try:
        on = sheet(sheet_in_use(settings))
        job = LabelJob(
            design=design(SHARING),
            sheet=on,
            items=[LabelContent(*one) for one in portion_labels(tin, given, desk.today)],
            start=first_free(settings, on.count),
            offset_x_mm=settings.label_offset_x_mm,
            offset_y_mm=settings.label_offset_y_mm,
            scale_x=settings.label_scale_x,
            scale_y=settings.label_scale_y,
        )
        printed = print_labels(job, path, dpi=settings.label_dpi)
    except SeedboxError as error:
        return f"The sharing labels could not be written. {error.sentence} {error.hint}".strip()
    unread = f" Could not be read back: {', '.join(printed.unreadable)}."
    remarks = "".join(dict.fromkeys(f" {capital(str(one))}" for one in printed.warnings))
    return (
        f"{counted(printed.labels, 'sharing label')} in {printed.path}, on {on.name} from label"
        f" {job.start}.{unread if printed.unreadable else ''}{remarks}"
    )


def booked_lines(
    booked: Booked,
    minded: Minding,
    book_of_names: CropBook,
    labels: str,
    *,
    law: str,
    width: int,
) -> list[Line]:
    """What was booked, what to mind of it, and how to print what goes with it; `labels` tells of
    sharing labels.
    """

    def what(packet: Packet) -> str:
        name = named(book_of_names.name(packet.crop_id), packet.variety)
        return f"{name} ({shown(packet.code)})"

    lines = paragraph("The swap is booked, as one change: u takes all of it back.", width, "bold")
    if booked.given:
        lines += heading("Given")
        for one in booked.given:
            to = f" to {one.to}" if one.to else ""
            gift = f"{counted(one.portions, 'portion')} of {what(one.packet)}{to}"
            lines += item(f"{gift}; {_left(one)}", width)
        lines += _minding_lines(minded, width)
    if booked.received:
        lines += heading("New packets")
        for packet in booked.received:
            giver = f" from {packet.source}" if packet.source else ""
            lines += item(f"{what(packet)}{giver}", width)
        opens = f"which {tab('Labels').key} opens"
        lines += paragraph(f"Labels that wait are printed on the Labels tab, {opens}.", width)
    if booked.wants_met:
        lines += heading("No longer wanted")
        for want in booked.wants_met:
            lines += item(want, width)
    if booked.given:
        lines += heading("Labels and packets for what you give")
        lines += paragraph("Packets to fold and glue, by these commands:", width)
        lines += [line for one in booked.given for line in item(_fold(one), width)]
        lines += paragraph(labels, width)
    return [*lines, *law_lines(law, width)]


def _minding_lines(minded: Minding, width: int) -> list[Line]:
    """Where a gift goes against the reckoning, and what must be told to whoever gets the seed."""
    lines: list[Line] = []
    if minded.remarks:
        lines += heading("What speaks against giving it")
        for remark in minded.remarks:
            lines += item(unbroken(remark), width, "$warning")
    told = [offer for offer in minded.offers if offer.cautions]
    if told:
        lines += heading("To say with what you give")
        for offer in told:
            said = f"{named(offer.crop, offer.variety)}: {' '.join(offer.cautions)}"
            lines += item(unbroken(said), width, "$warning")
    return lines


def _left(one: Given) -> str:
    if one.left is None:
        return "nobody knows what is left"
    return f"{amount_text(one.left, one.packet.unit, one.packet.kind)} left"


def _fold(one: Given) -> str:
    """The command that prints packets to fold for a gift."""
    fold = f"seedbox fold packets.pdf {one.packet.code} --copies {one.portions}"
    return f"{fold} --seeds {one.seeds_per_portion} --to-give"
