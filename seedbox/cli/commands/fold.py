"""`fold`: seed packets to cut out, fold and glue, with how to sow on the back."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import many_codes, refuse_code_as_file
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import Chosen, filter_options
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.label_report import facts, refuse_unreadable, sentence, warn_of
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.params import WORDS, Choice, Whole
from seedbox.cli.proof_options import proof_options
from seedbox.cli.session import Session
from seedbox.errors import NotFoundError, UsageError

if TYPE_CHECKING:
    from seedbox.printing.content import Printed
    from seedbox.printing.folding import FoldingPacket
    from seedbox.season.listing import PacketLine
    from seedbox.season.sowing.desk import Desk
    from seedbox.tin.preferences import Settings

_PAGE = Choice("paper", ("a4", "letter"))
_PICTURE = ".png"


@seedbox_command("fold")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.argument(
    "codes",
    nargs=-1,
    metavar="[CODE]...",
    callback=many_codes,
    shell_complete=completing.codes,
)
@click.option("--size", type=WORDS, help="Width x height in mm: see --sizes, or your own: 80x120.")
@click.option("--design", type=WORDS, help="Your own design of the packet: a file.toml.")
@click.option("--page", type=_PAGE, help="a4 or letter; as in the settings where you do not say.")
@click.option("--copies", type=Whole("number", 1, 1000), default=1, help="Packets of each kind.")
@click.option("--seeds", type=Whole("number", 1, 100_000), help="Seeds that go in each, to print.")
@click.option("--to-give", is_flag=True, help="Say who shares it, and not where it came from.")
@proof_options
@filter_options
@click.option("--sizes", is_flag=True, help="List the usual sizes and print nothing.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path | None,
    codes: list[str],
    chosen: Chosen,
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write seed packets to cut out, fold and glue to FILE, and read every code back from it.

    Name the packets by CODE, or by the same filters as in `seedbox list`. The front has crop,
    variety, year, caution and code; the back how to sow in this garden, and the germination. A
    FILE that ends in .png is a picture of the page, to look at first.

    \b
    seedbox fold beans.pdf P4K7QMX2 --size 70x100 --copies 2 --seeds 25
    """
    from seedbox.printing.folding_design import folding_design
    from seedbox.printing.folding_net import USUAL_SIZE, folding_size, nets_on

    if given["sizes"]:
        _show_sizes(as_json)
        return
    if file is None:
        raise UsageError("Name the file to write, such as packets.pdf.")
    refuse_code_as_file(file, "packets.pdf")
    if not codes and not chosen.any:
        raise UsageError("Say for which packets: by their codes, or by a filter such as --tag new.")
    from seedbox.season.sowing.desk import Desk

    given["design"] = folding_design(given["design"] or "")
    size = folding_size(given["size"] or USUAL_SIZE, given["design"].flaps)
    with session.tin() as tin:
        wanted = [tin.packet(code).code for code in codes]
        desk = Desk(tin, session.today)
    page = given["page"] or desk.settings.page
    nets_on(size, page)  # a size that does not fit is told before anything is reckoned
    packets = [_packet(desk, line, given) for line in _lines(desk, wanted, chosen)]
    printed = _printed(packets, (size, page), file, given, desk.settings)
    if given["to_give"]:
        _warn_nameless(desk.settings)
    _report(printed, file, as_json)
    hand_over(printed.path, opened=opened, sent=sent)


def _warn_nameless(settings: Settings) -> None:
    """Said once for all packets, as of sharing labels: who shares them, or where, is missing."""
    from seedbox.printing.designs import design

    said = {"sharer": settings.grower_name, "town": settings.grower_town}
    missing = [field for field, text in said.items() if not text]
    line = next(line for line in design("sharing").lines if line.fields == tuple(said))
    if missing:
        warn(f"no {' and no '.join(missing)} is written on the packets. {line.if_empty}")


def _lines(desk: Desk, codes: Sequence[str], chosen: Chosen) -> list[PacketLine]:
    """The packets in the order in which they were named, else as listed."""
    lines = desk.listing.select(chosen.filter(desk.listing, codes=codes))
    if not lines:
        raise NotFoundError("No packet fits, so no page was written.")
    if codes:
        lines.sort(key=lambda line: codes.index(line.packet.code))
    return lines


def _packet(desk: Desk, line: PacketLine, given: dict[str, Any]) -> FoldingPacket:
    from seedbox.printing.content import LabelContent
    from seedbox.printing.folding import FoldingPacket
    from seedbox.season.packet_words import front_fields, packet_words

    gift = given["to_give"]
    fields = front_fields(desk, line, given["seeds"], to_give=gift)
    content = LabelContent(line.packet.code, fields)
    return FoldingPacket(content, packet_words(desk, line, to_give=gift))


def _printed(
    packets: Sequence[FoldingPacket],
    net: tuple[Any, str],
    file: Path,
    given: dict[str, Any],
    settings: Settings,
) -> Printed:
    """The PDF, or pictures of its pages."""
    from seedbox.printing.folding import print_folding
    from seedbox.printing.measuring import correction_of

    def printing(path: Path) -> Printed:
        return print_folding(
            packets,
            *net,
            path,
            design=given["design"],
            copies=given["copies"],
            proof=not given["no_proof"],
            dpi=given["dpi"] or settings.label_dpi,
            corrected=correction_of(settings),
        )

    if file.suffix.lower() != _PICTURE:
        return printing(file)
    from seedbox.printing.pictures import preview

    return preview(printing, file)


def _report(printed: Printed, file: Path, as_json: bool) -> None:
    if file.suffix.lower() == _PICTURE:
        from seedbox.cli.label_pictures import report_pictures

        report_pictures(printed, file, "packet", as_json)
        return
    warn_of(printed)
    say_json(facts(printed, "packets")) if as_json else say(sentence(printed, "packet"))
    refuse_unreadable(printed)


def _show_sizes(as_json: bool) -> None:
    from seedbox.cli.tables import Column, room, table
    from seedbox.printing.folding_net import PAGES, SIZES

    columns = (
        Column("size (mm)"),
        *(Column(f"to a page of {paper}") for paper, _ in PAGES.values()),
    )
    if as_json:
        say_json(
            [
                {
                    "size": size.name,
                    "width_mm": size.width_mm,
                    "height_mm": size.height_mm,
                    **{page: size.rows_on(page) for page in PAGES},
                }
                for size in SIZES.values()
            ]
        )
        return
    rows = [(size.name, *(str(size.rows_on(page)) for page in PAGES)) for size in SIZES.values()]
    say(*table(columns, rows, room()))
    say("", "These sizes are from memory. Your own: --size 80x120.")
