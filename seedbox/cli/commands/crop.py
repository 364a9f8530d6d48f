"""`crop`: all that is known of a crop, with sources, and a garden's own figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_book, plain_crop_book, refuse_no_name
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from seedbox.almanac import Figure
    from seedbox.season.crops import CropBook
    from seedbox.tin.records import OwnFigure

Own = tuple[str, str, str]


@seedbox_command("crop")
@click.argument("name", nargs=-1, metavar="[NAME]", shell_complete=completing.crops)
@click.option("--set", "sets", multiple=True, help="Your own figure: depth_mm=20. May be repeated.")
@click.option("--note", type=WORDS, default="", help="Why, kept with the figures that are set.")
@click.option("--clear", "clears", multiple=True, help="Go back to the figure of the tables.")
@click.option("--remove", is_flag=True, help="Remove a crop of your own that no packet is of.")
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    name: tuple[str, ...],
    sets: tuple[str, ...],
    note: str,
    clears: tuple[str, ...],
    remove: bool,
    as_json: bool,
) -> None:
    """Show all that is known of the crop NAME, under any of its names, with sources and marks.

    Without NAME all crops are listed. Your own figures are kept in your tin and used before
    those of the tables.

    \b
    seedbox crop leek --set depth_mm=20 --note "heavy clay here"
    """
    if (sets or clears or remove) and not name:
        raise UsageError("Say for which crop.")
    if remove:
        _remove(session, " ".join(name), as_json)
        return
    if sets or clears:
        _change(session, " ".join(name), sets, clears, note, as_json=as_json)
        return
    book, own = _known(session)
    if not name:
        _list_all(as_json)
        return
    refuse_no_name(" ".join(name))
    crop_id = book.crop_id(" ".join(name))
    _show(book, crop_id, [each for each in own if each.crop_id == crop_id], as_json)


def _known(session: Session) -> tuple[CropBook, list[OwnFigure]]:
    if not session.tin_path.exists():
        return plain_crop_book(), []
    with session.tin() as tin:
        return crop_book(tin), tin.own_figures()


def _show(book: CropBook, crop_id: str, own: Iterable[OwnFigure], as_json: bool) -> None:
    from seedbox import almanac
    from seedbox.cli.crop_page import page

    name = book.name(crop_id)
    triples: list[Own] = [(each.figure, each.value, each.note) for each in own]
    figures = almanac.figures(crop_id, triples, name=name, family=book.family(crop_id))
    if as_json:
        say_json(
            {
                "crop": name,
                "crop_id": crop_id,
                "botanical_name": book.botanical_name(crop_id) or None,
                "family": book.family(crop_id) or None,
                "figures": [_facts(figure) for figure in figures],
            }
        )
    else:
        say(*page(name, figures))


def _facts(figure: Figure) -> dict[str, str | None]:
    return {
        "section": figure.section,
        "name": figure.name,
        "value": figure.value,
        "unit": figure.unit or None,
        "note": figure.note or None,
        "source": figure.source,
        "mark": figure.mark,
        "key": figure.key or None,
    }


def _list_all(as_json: bool) -> None:
    from seedbox import almanac
    from seedbox.cli.tables import Column, room, table

    known = almanac.crops()
    if as_json:
        say_json(
            [
                {"crop_id": crop.id, "name": crop.name_gb, "american_name": crop.name_us,
                 "botanical_name": crop.botanical_name, "family": crop.family}
                for crop in known
            ]
        )  # fmt: skip
        return
    columns = (Column("crop", least=12), Column("American", least=12),
               Column("botanical name", least=16), Column("family", least=10))  # fmt: skip
    rows = [
        (crop.name_gb, crop.name_us if crop.name_us != crop.name_gb else "",
         crop.botanical_name, crop.family)
        for crop in sorted(known, key=lambda crop: crop.name_gb.casefold())
    ]  # fmt: skip
    say(*table(columns, rows, room()))


def _change(
    session: Session,
    text: str,
    sets: Iterable[str],
    clears: Iterable[str],
    note: str,
    *,
    as_json: bool,
) -> None:
    """Set and clear own figures, as one change."""
    from seedbox.tin.own import clear_own_figure, set_own_figure

    wanted = [_figure_and_value(each) for each in sets]
    gone = [_figure(each) for each in clears]
    with session.tin(create=True) as tin:
        book = crop_book(tin)
        crop_id = book.crop_id(text)
        name = book.name(crop_id)
        told = [f"{figure} {value}" for figure, value in wanted] + [
            f"{figure} as in the tables" for figure in gone
        ]
        sentence = f"{name}: {', '.join(told)}"
        with tin.change(f"Own figures of {sentence}"):
            for figure, value in wanted:
                set_own_figure(tin, crop_id, figure, value, note=note)
            for figure in gone:
                clear_own_figure(tin, crop_id, figure)
    changed(f"For your garden, {sentence}.", as_json=as_json, crop_id=crop_id)


def _remove(session: Session, text: str, as_json: bool) -> None:
    from seedbox.tin.own import remove_own_crop

    with session.tin() as tin:
        book = crop_book(tin)
        crop_id = book.crop_id(text)
        name = book.name(crop_id)
        with tin.change(f"Remove crop {name}"):
            remove_own_crop(tin, crop_id)
    changed(f"Removed your own crop {name}.", as_json=as_json, crop_id=crop_id)


def _figure_and_value(text: str) -> tuple[str, str]:
    from seedbox.almanac import parse_override

    name, equals, value = text.partition("=")
    if not equals or not value.strip():
        raise UsageError(f"“{text}” sets nothing.", hint="Write it as in --set depth_mm=20.")
    figure = _figure(name)
    parse_override(figure, value)
    return figure, value.strip()


def _figure(name: str) -> str:
    from seedbox.almanac import OVERRIDABLE

    figure = name.strip().casefold().replace("-", "_").replace(" ", "_")
    if figure not in OVERRIDABLE:
        raise UsageError(
            f"“{name}” is no figure that you can set.", hint=f"There are: {', '.join(OVERRIDABLE)}."
        )
    return figure
