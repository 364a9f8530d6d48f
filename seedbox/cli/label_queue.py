"""The queue of labels for the commands: what they print of it, which entries are meant, the job."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from seedbox.cli.output import say
from seedbox.cli.params import WORDS, Choice, Whole
from seedbox.cli.proof_options import proof_options
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import count
from seedbox.errors import NotFoundError
from seedbox.tin.codes import parse, shown

if TYPE_CHECKING:
    from seedbox.printing.content import LabelContent, Printed
    from seedbox.season.waiting_labels import LabelQueue, LabelWords, Waiting
    from seedbox.tin.file import Tin
    from seedbox.tin.list_records import QueuedLabel

F = TypeVar("F", bound=Callable[..., Any])
NOTHING = "No label waits. Queue one with: seedbox labels queue add CODE"
_COLUMNS = (
    Column("code"),
    Column("crop", least=8),
    Column("variety", least=8),
    Column("design", least=6),
    Column("copies", right=True),
    Column("labels", right=True),
)
_WRITING = (
    click.option("--sheet", type=WORDS, help="Which label sheet, instead of the one in use."),
    click.option("--start", type=Whole("number", 1), help="First free label, 1 is top left."),
    click.option(
        "--outlines/--no-outlines", default=None, help="Draw lines to cut along, or do not."
    ),
    click.option(
        "--code",
        type=Choice("code", ("once", "twice", "rugged")),
        help="The code once, twice, or rugged: QR with Code 128, else QR twice.",
    ),
    click.option("--line", type=WORDS, help="An extra line of your own, for this time."),
    proof_options,
)


def each_option(function: F) -> F:
    """Whether a sowing has a label for each tray or each cell."""
    option = click.option(
        "--each",
        type=Choice("each", ("tray", "cell")),
        default="tray",
        help="Of a sowing: one label a tray, or a cell.",
    )
    return option(function)


def writing_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """How the queue is printed."""
    for option in reversed(_WRITING):
        function = option(function)
    return each_option(function)


def show(queue: LabelQueue) -> None:
    """The queue as a table."""
    if not queue.waiting:
        say(NOTHING)
        return
    rows = [
        (one.code, one.crop, one.variety, one.design, str(one.entry.copies), str(one.labels))
        for one in queue.waiting
    ]
    say(*table(_COLUMNS, rows, room()), f"{count(total(queue), 'label')} to print.")


def total(queue: LabelQueue) -> int:
    return sum(one.labels for one in queue.waiting)


def facts(one: Waiting) -> dict[str, Any]:
    """An entry for programs; `labels` is how many will be printed of it."""
    return {
        "code": one.entry.code,
        "kind": one.kind,
        "crop": one.crop,
        "variety": one.variety,
        "design": one.design,
        "copies": one.entry.copies,
        "labels": one.labels,
    }


def entries_named(tin: Tin, codes: Sequence[str], design: str | None) -> list[QueuedLabel]:
    """The entries that codes name, in that design where one is named, else in any."""
    waiting, found = tin.label_queue(), []
    for code in map(parse, codes):
        named = [one for one in waiting if one.code == code and design in (None, one.design)]
        if not named:
            where = f" in the design “{design}”" if design else ""
            raise NotFoundError(f"No label of {shown(code)} waits{where}.", hint=NOTHING)
        found += named
    return found


def write(queue: LabelQueue, words: LabelWords, file: Path, given: dict[str, Any]) -> Printed:
    """Print the whole queue, each label in its own design."""
    from seedbox.cli.label_jobs import printed_labels

    items = _items(queue, words, given["code"])
    given = {**given, "design": queue.waiting[0].design, "code": None}
    return printed_labels(queue.settings, file, items, given)


def when_printed(queue: LabelQueue, each: str, given: dict[str, Any]) -> str:
    """The command that says so. Labels from another place than the first free one of the sheet in
    use, or on another sheet, move its first free label otherwise.
    """
    from seedbox.printing.sheets import sheet
    from seedbox.season.waiting_labels import next_free, sheet_in_use

    words = ["seedbox labels queue printed"]
    words += ["--each", each] if each != "tray" else []
    in_use = sheet_in_use(queue.settings)
    if (given["sheet"] or in_use) != in_use:
        words += ["--next", str(queue.settings.label_start)]
    elif given["start"]:
        after = next_free(given["start"], total(queue), sheet(in_use).count)
        words += ["--next", str(after)]
    return " ".join(words)


def _items(queue: LabelQueue, words: LabelWords, code: str | None) -> Sequence[LabelContent]:
    from seedbox.printing.content import Contents, LabelContent
    from seedbox.printing.designs import design
    from seedbox.printing.layout import with_code

    known = {one.design: design(one.design) for one in queue.waiting}
    if code:
        known = {name: with_code(found, code) for name, found in known.items()}
    things = [
        (one, number)
        for one in queue.waiting
        for number in range(one.apiece)
        for _ in range(one.entry.copies)
    ]

    def content(thing: tuple[Waiting, int]) -> LabelContent:
        one, number = thing
        fields = words.of(one.entry.code, one.design)[number]
        return LabelContent(one.entry.code, fields, known[one.design])

    return Contents(things, content)
