"""`swap list`: one's own list for the others, as a table, a document or a sheet of paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.swap_words import (
    OFFER_COLUMNS,
    caution_lines,
    law_lines,
    note_lines,
    offer_row,
    portions,
)
from seedbox.cli.tables import Column, room, table, wrapped
from seedbox.cli.words import count, day
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.season.swapping.records import SwapList
    from seedbox.tin.preferences import Settings

_SETTING = "\0"  # the option without a value: as the settings say
_WANTS = (
    Column("wanted", least=10),
    Column("variety", least=8),
    Column("portions", right=True),
    Column("worth", right=True),
)


@seedbox_command("list", short_help="Write your list of offers and wants for the others.")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option(
    "--name",
    is_flag=False,
    flag_value=_SETTING,
    help="Say whose list it is: this name, or the setting grower_name.",
)
@click.option(
    "--town",
    is_flag=False,
    flag_value=_SETTING,
    help="Say where you live: this town, or the setting grower_town.",
)
@click.option(
    "--without",
    type=WORDS,
    multiple=True,
    shell_complete=completing.codes,
    help="Leave this packet out; may be repeated.",
)
@click.option("--notes", is_flag=True, help="Add your note on each packet that is offered.")
@click.option("--columns", is_flag=True, help="Say what the columns mean, and write nothing.")
@click.option("--schema", is_flag=True, help="Print the JSON Schema of a list, and write nothing.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path | None,
    name: str | None,
    town: str | None,
    without: tuple[str, ...],
    notes: bool,
    columns: bool,
    schema: bool,
    as_json: bool,
) -> None:
    """Write what you give away and look for to FILE: .csv, .json, or .pdf to print.

    Without FILE it is shown. Nothing private is in it: no price, source, store or tag; your notes
    on packets only with --notes, your name and town only with --name and --town.

    \b
    seedbox swap list my-list.csv --name "Maud" --town "Hobbin Beck"
    """
    if columns:
        _say_columns(as_json)
        return
    if schema:
        from seedbox.season.swapping.list_writing import schema_text

        say(schema_text().rstrip())
        return
    _refuse_swallowed(file, name, town)
    kind = _kind(file)
    if notes and kind == "pdf":
        raise UsageError("The printed list has no room for notes: leave --notes out.")
    from seedbox.season.swapping import own_list

    with session.tin() as tin:
        settings = tin.settings()
        codes = [tin.packet(code).code for code in without]
        listed = own_list.own_list(
            tin,
            session.today,
            name=_said(name, settings.grower_name, "--name", "grower_name"),
            town=_said(town, settings.grower_town, "--town", "grower_town"),
            notes=notes,
        )
    listed = own_list.without(listed, codes)
    if file is None:
        _show(listed, settings.swap_law, as_json)
        return
    _write(file, kind, listed, settings)
    sentence = f"Wrote {_size(listed)} to {file}."
    if as_json:
        say_json({"done": sentence, "file": str(file), **_counts(listed)})
        return
    say(sentence, *law_lines(settings.swap_law))


def _refuse_swallowed(file: Path | None, *given: str | None) -> None:
    """`--name list.csv` has taken the file for a name."""
    for text in given:
        if file is None and text and text.lower().endswith((".csv", ".json", ".pdf")):
            raise UsageError(
                f"“{text}” was taken for a name: write the file before --name and --town."
            )


def _kind(file: Path | None) -> str:
    """csv, json or pdf, by the end of the name; refused before anything is reckoned."""
    if file is None:
        return ""
    from seedbox.season.swapping.list_writing import FORMAT, HEADER

    kind = file.suffix.lower().removeprefix(".")
    if kind == "csv":
        from seedbox.cli.files import refuse_table_target

        refuse_table_target(file, ",".join(HEADER[:3]))
    elif kind == "json":
        from seedbox.cli.files import refuse_document_target

        refuse_document_target(file, FORMAT)
    elif kind == "pdf":
        from seedbox.printing.labels import check_target

        check_target(file)
    else:
        raise UsageError(
            f"{file.name} does not end in .csv, .json or .pdf.",
            hint="CSV for spreadsheets, JSON for programs, PDF to print.",
        )
    return kind


def _said(given: str | None, setting: str, option: str, name: str) -> str:
    if given is None:
        return ""
    if given != _SETTING:
        from seedbox.cli.params import read_words

        return read_words(given)[:80]
    if not setting:
        raise UsageError(
            f"{option} needs what to say: {option} “…”, or the setting {name}.",
            hint=f"Set it with: seedbox settings {name} …",
        )
    return setting


def _write(file: Path, kind: str, listed: SwapList, settings: Settings) -> None:
    from seedbox.season.swapping.list_writing import csv_text, json_text
    from seedbox.whole_file import write_whole

    if kind == "csv":
        write_whole(file, csv_text(listed).encode("utf-8-sig"))
    elif kind == "json":
        write_whole(file, json_text(listed).encode("utf-8"))
    else:
        _print(file, listed, settings)


def _print(file: Path, listed: SwapList, settings: Settings) -> None:
    from seedbox.cli.label_report import refuse_unreadable, warn_of
    from seedbox.printing.measuring import correction_of
    from seedbox.printing.swap_page import SwapRow, WantRow, draw_swap_list
    from seedbox.season.swapping.list_writing import sheet_offer, sheet_title, sheet_want

    printed = draw_swap_list(
        file,
        sheet_title(listed),
        [SwapRow(**sheet_offer(offer)) for offer in listed.offers],
        settings.page,
        day(listed.made_on) if listed.made_on else "",
        wants=[WantRow(**sheet_want(wish)) for wish in listed.wishes],
        dpi=settings.label_dpi,
        corrected=correction_of(settings),
    )
    warn_of(printed)
    refuse_unreadable(printed)


def _show(listed: SwapList, law: str, as_json: bool) -> None:
    if as_json:
        from seedbox.season.swapping.list_writing import document

        say_json(document(listed))
        return
    say(*_page(listed), *law_lines(law))


def _page(listed: SwapList) -> Iterator[str]:
    if listed.offers:
        yield from table(OFFER_COLUMNS, [offer_row(offer) for offer in listed.offers], room())
        yield ""
    if listed.wishes:
        rows = [
            (wish.crop, wish.variety or "any", str(wish.portions), str(wish.worth))
            for wish in listed.wishes
        ]
        yield from table(_WANTS, rows, room())
        yield ""
    yield from wrapped(f"{_size(listed)}.")
    yield from caution_lines(listed.offers)
    yield from note_lines(listed.offers)


def _size(listed: SwapList) -> str:
    given = portions(sum(offer.portions for offer in listed.offers))
    offered = f"{given} of {count(len(listed.offers), 'packet')}"
    return f"{offered} and {count(len(listed.wishes), 'want')}"


def _counts(listed: SwapList) -> dict[str, int]:
    return {"offers": len(listed.offers), "wants": len(listed.wishes)}


def _say_columns(as_json: bool) -> None:
    from seedbox.season.swapping.list_fields import MEANINGS

    if as_json:
        say_json({column.value: meaning for column, meaning in MEANINGS.items()})
        return
    say("A CSV list has these columns; only crop must be there, and their order is free.", "")
    for column, meaning in MEANINGS.items():
        say(*wrapped(f"{column.value}: {meaning}.", "  ", "    "))
