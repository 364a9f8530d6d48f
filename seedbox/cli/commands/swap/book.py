"""`swap book`: your part of a proposal, as one change of the tin."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, warn
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.swap_words import portions, shown_code
from seedbox.errors import BadDataError, UsageError

if TYPE_CHECKING:
    from seedbox.season.swapping.proposal_file import MyPart

SOMEBODY = "somebody who did not say who they are"


@seedbox_command("book", short_help="Book your part of a proposal, as one change.")
@click.argument("file", type=click.Path(path_type=Path), metavar="PROPOSAL.json")
@click.option("--as", "name", type=WORDS, default="", help="Which of the people you are.")
@click.option("--store", type=WORDS, shell_complete=completing.stores, help="Where it all lies.")
@click.option("--labels", type=click.Path(path_type=Path), help="Write sharing labels here.")
@click.option("--dry-run", is_flag=True, help="Only say what would be booked.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path,
    name: str,
    store: str | None,
    labels: Path | None,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Book what you give and get by a proposal that `seedbox swap match --save` kept.

    Portions leave their packets, and what you get becomes new packets with their giver as source
    and their test as told. It is one change: one undo takes all of it back. The same swap is
    booked only once.
    """
    from seedbox.cli.lookup import crop_book, store_among
    from seedbox.cli.portion_labels import refuse_place
    from seedbox.cli.swap_booking import report
    from seedbox.season.swapping.booking import book
    from seedbox.season.swapping.minding import minding
    from seedbox.season.swapping.proposal_file import my_part, read_proposal
    from seedbox.season.swapping.spare import spare_of

    refuse_place(labels)
    if dry_run and as_json:
        raise UsageError("--dry-run is told in words: leave --json out.")
    with session.tin(create=True) as tin:
        proposal, mine = read_proposal(file, crop_book(tin), session.today)
        part = my_part(proposal, mine, name)
        if not (part.gives or part.receives):
            raise BadDataError(f"{part.name} neither gives nor gets anything in this proposal.")
        minded = minding(spare_of(tin, session.today) if part.gives else (), part.gives)
        if dry_run:
            warn(*minded.remarks)
            say(*_would(part))
            return
        place = store_among(tin.stores(), store).name if store else ""
        booked = book(
            tin, part.gives, part.receives, today=session.today, store=place, mark=part.mark
        )
        report(session, tin, booked, labels=labels, as_json=as_json, minded=minded)


def _would(part: MyPart) -> Iterator[str]:
    from seedbox.season.swapping.records import UNNAMED

    name = UNNAMED.capitalize() if part.name == UNNAMED else part.name
    yield f"{name} would book:"
    for give in part.gives:
        yield f"  {portions(give.portions)} of {shown_code(give.code)} to {give.to or SOMEBODY}"
    for one in part.receives:
        what = f"{one.offer.crop} {one.offer.variety}".strip()
        yield f"  {portions(one.portions)} of {what} from {one.giver or SOMEBODY}"
    yield "Nothing was booked: leave --dry-run out to book it."
