"""`year`: for each crop the weeks of sowing, planting out and harvest."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.handing_over import hand_over, handing_over_options, refuse_nothing
from seedbox.cli.output import say, say_json
from seedbox.cli.params import WORDS, YEAR
from seedbox.cli.session import Session
from seedbox.cli.words import count, day_of_month
from seedbox.errors import NotFoundError

if TYPE_CHECKING:
    from seedbox.printing.year_page import YearSheet
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.tin_year import TinYear


@seedbox_command("year")
@click.option("--year", "wanted", type=YEAR, help="Another year than this one.")
@click.option("--crop", type=WORDS, shell_complete=completing.crops, help="Only this crop.")
@click.option("--planned", is_flag=True, help="Only crops that are planned.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write a page for the shed door.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    pdf: Path | None,
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Show for each crop in the tin the weeks in which it is sown, planted out and harvested.

    \b
    seedbox year --crop leek
    seedbox year --planned --pdf door.pdf
    """
    from seedbox.cli.described import refuse_undescribed
    from seedbox.season.sowing.desk import Desk

    refuse_nothing(pdf, "--pdf", opened=opened, sent=sent)
    with session.tin() as tin:
        desk = Desk(tin, session.today)
        refuse_undescribed(desk)
        found = _year(desk, given["wanted"] or session.today.year, given["crop"], given["planned"])
    if pdf is not None:
        from seedbox.printing.year_page import print_year

        pages = print_year(_sheet(desk, found), pdf, page=desk.settings.page)
        if as_json:
            say_json({"path": str(pdf), "crops": len(found.crops), "pages": pages})
        else:
            crops = count(len(found.crops), "crop")
            say(f"Wrote the year of {crops} on {count(pages, 'page')} to {pdf}.")
        hand_over(pdf, opened=opened, sent=sent)
        return
    from seedbox.cli.year_strip import facts, lines

    say_json(facts(found)) if as_json else say(*lines(found, session.today))


def _year(desk: Desk, year: int, crop: str | None, planned: bool) -> TinYear:
    from dataclasses import replace

    from seedbox.season.sowing.tin_year import tin_year

    crop_id = desk.listing.book.crop_id(crop) if crop else ""
    found = tin_year(desk, year, crop_id=crop_id)
    if planned:
        ids = {need.plan.crop_id for need in desk.needs}
        found = replace(found, crops=tuple(one for one in found.crops if one.crop_id in ids))
    if not found.crops:
        raise NotFoundError(
            "No crop in the tin has a year to show that fits.",
            hint="What is in the tin: seedbox list. What is planned: seedbox plan list",
        )
    return found


def _sheet(desk: Desk, year: TinYear) -> YearSheet:
    from seedbox.printing.year_page import YearBar, YearRow, YearSheet
    from seedbox.season.sowing.tin_year import LETTERS

    name = desk.garden.name or "The garden"
    rows = tuple(
        YearRow(
            crop.crop,
            tuple(
                YearBar(LETTERS[one.activity], one.first, one.last, one.later)
                for one in crop.stretches
            ),
        )
        for crop in year.crops
    )
    legend = tuple((letter, activity.value) for activity, letter in LETTERS.items())
    frosts = _frosts(desk, year.year)
    note = f"latitude {desk.garden.climate.latitude:g}°" if desk.garden.climate else ""
    return YearSheet(f"{name}, {year.year}", year.year, note, legend, rows, frosts)


def _frosts(desk: Desk, year: int) -> tuple[Any, ...]:
    climate = desk.garden.climate
    if climate is None or climate.last_spring_frost is None or climate.first_autumn_frost is None:
        return ()
    last, first = climate.last_spring_frost.in_year(year), climate.first_autumn_frost.in_year(year)
    return (
        (last, f"last frost, {day_of_month(last)}"),
        (first, f"first frost, {day_of_month(first)}"),
    )
