"""`buy`: what the plans need and the tin will not have alive in time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.handing_over import hand_over, handing_over_options, refuse_nothing
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table, wrapped
from seedbox.cli.words import count, day, day_of_month, number
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.season.sowing.buying import BuyLine
    from seedbox.season.sowing.desk import Desk

_COLUMNS = (
    Column("crop", least=10),
    Column("variety", least=8),
    Column("plants", right=True),
    Column("sowings", right=True),
    Column("sure of", right=True),
    Column("seeds", right=True),
    Column("grams", right=True),
    Column("sow from"),
)
_CSV_HEAD = "crop,variety,plants"


@seedbox_command("buy")
@click.option("--csv", "csv_file", type=click.Path(path_type=Path), help="Write it as CSV.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write it as a page to tick off.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    csv_file: Path | None,
    pdf: Path | None,
    opened: bool,
    sent: bool,
    as_json: bool,
) -> None:
    """List the seed that the plans of the season need and the tin will not have alive in time.

    Seeds are of fresh bought seed, enough to be sure of the plants that are missing; grams are
    reckoned by thousand-seed weight. Count packets that nobody counted before you order.
    """
    from seedbox.cli.described import refuse_undescribed
    from seedbox.season.sowing.buying import buying, buying_rows
    from seedbox.season.sowing.desk import Desk

    refuse_nothing(pdf, "--pdf", opened=opened, sent=sent)
    _check(csv_file, pdf)
    with session.tin() as tin:
        desk = Desk(tin, session.today)
        refuse_undescribed(desk)
        found = buying(desk)
    rows = buying_rows(found)
    if csv_file is not None:
        from seedbox.cli.files import write_table

        write_table(csv_file, rows)
    pages = _print(desk, rows, pdf) if pdf is not None else 0
    if as_json:
        say_json([_facts(line) for line in found])
    else:
        say(*_page(found, planned=bool(desk.garden.plans)))
        say(*_written(len(found), csv_file, pdf, pages))
    hand_over(pdf, opened=opened, sent=sent)


def _written(lines: int, csv_file: Path | None, pdf: Path | None, pages: int) -> Iterator[str]:
    if csv_file is not None:
        yield f"Wrote {count(lines, 'line')} to {csv_file}."
    if pdf is not None:
        yield f"Wrote {count(lines, 'line')} on {count(pages, 'page')} to {pdf}."


def _check(csv_file: Path | None, pdf: Path | None) -> None:
    """Before anything is reckoned: a file that cannot be written stops it."""
    if csv_file is not None:
        from seedbox.cli.files import refuse_table_target

        refuse_table_target(csv_file, _CSV_HEAD)
    if pdf is not None:
        from seedbox.printing.labels import check_target

        check_target(pdf)


def _page(found: Sequence[BuyLine], *, planned: bool) -> Iterator[str]:
    if not planned:
        yield "Nothing is planned, so nothing is missing."
        yield "Plan with: seedbox plan add CROP --plants 12"
        return
    if not found:
        yield "Nothing to buy: the tin is sure of all that is planned this season."
        return
    yield from table(_COLUMNS, [_row(line) for line in found], room())
    yield ""
    for line in found:
        named = f"{line.crop} {line.variety}".strip()
        yield from wrapped(f"{named}: {line.reason}.", "", "  ")
    uncounted = [code for line in found for code in line.uncounted]
    if uncounted:
        yield ""
        codes = ", ".join(shown(code) for code in dict.fromkeys(uncounted))
        yield from wrapped(f"Nobody counted {codes}: seedbox recount CODE AMOUNT")


def _row(line: BuyLine) -> tuple[str, ...]:
    return (
        line.crop,
        line.variety,
        str(line.plants),
        str(line.sowings),
        str(line.sure),
        str(line.seeds),
        "" if line.grams is None else number(line.grams),
        day_of_month(line.by) if line.by else "",
    )


def _print(desk: Desk, rows: Sequence[tuple[str, ...]], pdf: Path) -> int:
    from seedbox.printing.list_page import ListColumn, ListSheet, print_list

    widths = ((0, 28.0, False), (1, 24.0, False), (4, 12.0, True), (5, 12.0, True),
              (6, 24.0, False), (7, 62.0, False))  # fmt: skip
    name = desk.garden.name
    sheet = ListSheet(
        f"Seed to buy{f', {name}' if name else ''}",
        f"{day(desk.today)}. Seeds and grams of fresh seed, for the plants that are missing.",
        tuple(ListColumn(rows[0][at], width, right) for at, width, right in widths),
        tuple(tuple(row[at] for at, _, _ in widths) for row in rows[1:]),
    )
    return print_list(sheet, pdf, page=desk.settings.page)


def _facts(line: BuyLine) -> dict[str, Any]:
    return {
        "crop": line.crop,
        "crop_id": line.plan.crop_id,
        "variety": line.variety,
        "plants": line.plants,
        "sowings": line.sowings,
        "sure": line.sure,
        "seeds": line.seeds,
        "grams": line.grams,
        "by": line.by,
        "reason": line.reason,
        "uncounted": line.uncounted,
    }
