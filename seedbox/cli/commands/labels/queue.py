"""`labels queue`: labels that wait, the same that the Labels tab shows, and writing them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from seedbox.cli import completing, label_queue
from seedbox.cli.codes import many_codes
from seedbox.cli.command import group, json_option
from seedbox.cli.filters import Chosen, filter_options
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.words import count
from seedbox.errors import NotFoundError, UsageError

_CODES = click.argument(
    "codes",
    nargs=-1,
    metavar="[CODE]...",
    callback=many_codes,
    shell_complete=completing.packets_and_sowings,
)
_COPIES = Whole("number", 1, 1000)


@group("queue", short_help="Labels that wait to be printed: add, change, write them.")
def command() -> None:
    """Labels that wait to be printed, as in the Labels tab: packets, sowings, slips of tests.

    \b
    seedbox labels queue add --advice "use up"
    seedbox labels queue write labels.pdf --open
    seedbox labels queue printed
    """


@command.command("list", short_help="List the labels that wait, in the order of printing.")
@label_queue.each_option
@json_option
@click.pass_obj
def list_queue(session: Session, each: str, as_json: bool) -> None:
    """List the labels that wait, with the design and the number of each."""
    from seedbox.season.waiting_labels import read_queue

    with session.tin() as tin:
        queue = read_queue(tin, each)
    if as_json:
        say_json([label_queue.facts(one) for one in queue.waiting])
    else:
        label_queue.show(queue)


@command.command("add", short_help="Queue labels of packets, sowings or tests.")
@_CODES
@click.option("--design", type=WORDS, default="", help="Which design, instead of the usual one.")
@click.option("--copies", type=_COPIES, default=1, help="How many of each label.")
@click.option("--text", type=WORDS, default="", help="Only packets that hold these words.")
@filter_options
@json_option
@click.pass_obj
def add(
    session: Session,
    /,
    *,
    codes: list[str],
    design: str,
    copies: int,
    text: str,
    chosen: Chosen,
    as_json: bool,
) -> None:
    """Queue a label of each CODE, or of the packets that the filters let through.

    What waits already in that design gets the new number of copies.
    """
    from seedbox.season.listing import Listing
    from seedbox.tin.label_queue import queue_labels

    if bool(codes) == bool(chosen.any or text):
        raise UsageError(
            "Name codes, or filters that choose packets: one of the two.",
            hint='Such as: seedbox labels queue add --advice "use up"',
        )
    _refuse_unknown_design(design)
    with session.tin() as tin:
        if not codes:
            listing = Listing(tin, session.today)
            lines = listing.select(chosen.filter(listing, text=text))
            codes = [line.packet.code for line in lines]
        if not codes:
            raise NotFoundError("No packet fits, so no label was queued.")
        queued = queue_labels(tin, codes, design, copies)
        waiting = len(tin.label_queue())
    sentence = f"Queued {count(len(queued), 'label')}; the queue has {waiting:,} now."
    changed(sentence, as_json=as_json, codes=[one.code for one in queued])


@command.command("change", short_help="Give waiting labels another design or number.")
@_CODES
@click.option("--to-design", type=WORDS, help="The design they get; “usual” is that of its kind.")
@click.option("--copies", type=_COPIES, help="How many of each label.")
@click.option("--design", type=WORDS, help="Only the labels in this design.")
@json_option
@click.pass_obj
def change(
    session: Session,
    /,
    *,
    codes: list[str],
    to_design: str | None,
    copies: int | None,
    design: str | None,
    as_json: bool,
) -> None:
    """Give the waiting labels of each CODE another design, another number of copies, or both."""
    from seedbox.tin.label_changes import change_queued

    if not codes or (to_design is None and copies is None):
        raise UsageError(
            "Say which labels to change, and into what.",
            hint="Such as: seedbox labels queue change P4K7QMX2 --copies 3",
        )
    wanted = "" if to_design == "usual" else to_design
    _refuse_unknown_design(wanted)
    with session.tin() as tin:
        entries = label_queue.entries_named(tin, codes, design)
        change_queued(tin, [one.id for one in entries], design=wanted, copies=copies)
    sentence = f"Changed {count(len(entries), 'label')} in the queue."
    changed(sentence, as_json=as_json, codes=[one.code for one in entries])


@command.command("remove", short_help="Take labels out of the queue.")
@_CODES
@click.option("--design", type=WORDS, help="Only the labels in this design.")
@json_option
@click.pass_obj
def remove(session: Session, codes: list[str], design: str | None, as_json: bool) -> None:
    """Take the labels of each CODE out of the queue."""
    from seedbox.tin.label_queue import unqueue

    if not codes:
        raise UsageError(
            "Name the codes of the labels.", hint="All of them: seedbox labels queue clear"
        )
    with session.tin() as tin:
        entries = label_queue.entries_named(tin, codes, design)
        unqueue(tin, [one.id for one in entries])
    sentence = f"Took {count(len(entries), 'label')} out of the queue."
    changed(sentence, as_json=as_json, codes=[one.code for one in entries])


@command.command("clear", short_help="Take every label out of the queue.")
@json_option
@click.pass_obj
def clear(session: Session, as_json: bool) -> None:
    """Take every label out of the queue, printed or not."""
    from seedbox.tin.label_queue import clear_queue

    with session.tin() as tin:
        number = clear_queue(tin)
    changed(f"Took {count(number, 'label')} out of the queue.", as_json=as_json, labels=number)


@command.command("write", short_help="Write the queue to FILE as a PDF, read back.")
@click.argument("file", type=click.Path(path_type=Path))
@label_queue.writing_options
@handing_over_options
@json_option
@click.pass_obj
def write(
    session: Session,
    /,
    *,
    file: Path,
    each: str,
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write all that waits to FILE, each label in its own design, and read every code back.

    The queue stays as it is: once the labels are on paper, `seedbox labels queue printed` says so.
    """
    from seedbox.cli.label_report import report
    from seedbox.season.waiting_labels import LabelWords, read_queue

    with session.tin() as tin:
        queue = read_queue(tin, each)
        if not queue.waiting:
            raise NotFoundError("No label waits.", hint=label_queue.NOTHING.partition(". ")[2])
        words = LabelWords(tin, session.today, each, line=given["line"])
    report(label_queue.write(queue, words, file, given), as_json)
    if not as_json:
        say(f"When they are on paper: {label_queue.when_printed(queue, each, given)}")
    hand_over(file, opened=opened, sent=sent)


@command.command("printed", short_help="Say that the queue is on paper.")
@label_queue.each_option
@click.option("--next", "next_label", type=_COPIES, help="The next free label of the sheet.")
@json_option
@click.pass_obj
def printed(session: Session, each: str, next_label: int | None, as_json: bool) -> None:
    """Say that the queue is on paper: it is emptied, and the first free label of the sheet in use
    moves on.
    """
    from seedbox.printing.sheets import sheet
    from seedbox.season.waiting_labels import first_free, next_free, read_queue, sheet_in_use
    from seedbox.tin.label_changes import labels_printed

    with session.tin() as tin:
        queue = read_queue(tin, each)
        if not queue.waiting:
            raise NotFoundError("No label waits, so none was printed.")
        labels, on_a_sheet = label_queue.total(queue), sheet(sheet_in_use(queue.settings)).count
        start = first_free(queue.settings, on_a_sheet)
        after = next_label or next_free(start, labels, on_a_sheet)
        labels_printed(tin, [one.entry.id for one in queue.waiting], after)
    sentence = f"Printed {count(labels, 'label')}. Label {after} of the sheet is the next free one."
    changed(sentence, as_json=as_json, labels=labels, next=after)


def _refuse_unknown_design(name: str | None) -> None:
    """Before anything is queued: what cannot be printed need not wait."""
    from seedbox.printing.designs import design

    if name:
        design(name)
