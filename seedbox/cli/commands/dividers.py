"""`dividers`: cards that part the packets in a tin, with what stands behind each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import Chosen, filter_options
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.label_report import warn_of
from seedbox.cli.output import say, say_json
from seedbox.cli.params import WORDS, Choice, Whole
from seedbox.cli.session import Session
from seedbox.cli.words import count
from seedbox.errors import NotFoundError

if TYPE_CHECKING:
    from seedbox.printing.content import LabelJob, Printed
    from seedbox.printing.dividers import Card
    from seedbox.season.dividers import Divider
    from seedbox.tin.preferences import Settings


@seedbox_command("dividers")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--by",
    type=Choice("order", ("group", "month")),
    default="group",
    help="By crop group, or by the month in which sowing begins in this garden.",
)
@click.option("--sheet", type=WORDS, help="Which sheet of cards or labels; or your own file.toml.")
@click.option("--design", type=WORDS, help="Another design than divider; or your own file.toml.")
@click.option("--start", type=Whole("number", 1), default=1, help="First free card of the sheet.")
@filter_options
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path,
    chosen: Chosen,
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write divider cards for the packets of the tin to FILE as a PDF, and say what stands behind
    each. The filters choose packets as in `seedbox list`, such as --store for one box.

    \b
    seedbox dividers cards.pdf --by month --store "Shoe box"
    """
    from seedbox.cli.described import refuse_undescribed
    from seedbox.printing.dividers import print_dividers
    from seedbox.season.dividers import DividedBy, dividers
    from seedbox.season.sowing.desk import Desk

    by = DividedBy(given["by"])
    with session.tin() as tin:
        desk = Desk(tin, session.today)
    if by is DividedBy.MONTH:
        refuse_undescribed(desk)
    lines = desk.listing.select(chosen.filter(desk.listing))
    if not lines:
        raise NotFoundError("No packet fits, so no card was written.")
    found = dividers(desk, lines, by)
    job = _job(desk.settings, given)
    cards = [_card(one, desk.settings) for one in found]
    printed = print_dividers(cards, job, file, dpi=desk.settings.label_dpi)
    warn_of(printed)
    say_json(_facts(found, printed)) if as_json else say(*_page(found, printed))
    hand_over(file, opened=opened, sent=sent)


def _job(settings: Settings, given: dict[str, Any]) -> LabelJob:
    from seedbox.cli.label_jobs import label_job
    from seedbox.printing.dividers import USUAL_DESIGN, USUAL_SHEET

    usual = {"design": USUAL_DESIGN, "sheet": USUAL_SHEET[settings.page]}
    chosen = {name: value for name, value in given.items() if value is not None}
    return label_job(settings, [], {**usual, **chosen})


def _card(divider: Divider, settings: Settings) -> Card:
    """The card, with its list in two lengths: with the varieties, and the crops alone."""
    from seedbox.printing.dividers import Card

    crops = [_counted(crop, len(varieties)) for crop, varieties in divider.by_crop.items()]
    full, short = "; ".join(_named(divider)), ", ".join(crops)
    return Card(divider.name, (full, short), {"line": settings.label_line})


def _named(divider: Divider) -> Iterator[str]:
    """`leek: Long Hill, Sentry Post (2)`, for each crop."""
    for crop, varieties in divider.by_crop.items():
        named = ", ".join(
            _counted(name, number) for name, number in Counter(varieties).items() if name
        )
        yield f"{crop}: {named}" if named else _counted(crop, len(varieties))


def _counted(name: str, packets: int) -> str:
    return f"{name} ({packets})" if packets > 1 else name


def _page(found: Sequence[Divider], printed: Printed) -> Iterator[str]:
    from seedbox.cli.tables import wrapped

    for divider in found:
        yield f"{divider.name} ({len(divider.lines)})"
        yield from wrapped("; ".join(_named(divider)), "  ", "  ")
    yield ""
    pages = count(printed.pages, "page")
    yield f"Wrote {count(printed.labels, 'card')} on {pages} to {printed.path}."


def _facts(found: Sequence[Divider], printed: Printed) -> dict[str, Any]:
    return {
        "path": str(printed.path),
        "pages": printed.pages,
        "cards": [
            {"name": divider.name, "packets": [line.packet.code for line in divider.lines]}
            for divider in found
        ],
        "warnings": [str(problem) for problem in printed.warnings],
    }
