"""`swap match`: a proposal for an exchange among any number of lists."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.params import Whole
from seedbox.cli.session import Session
from seedbox.cli.swap_words import caution_lines, law_lines, note_lines, portions
from seedbox.cli.tables import Column, room, table, wrapped
from seedbox.cli.words import count, number
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.season.swapping.records import Proposal, SwapList
    from seedbox.tin.file import Tin

TIN = "tin"
_FIRST = 0  # the list that is yours
_MOST_PROBLEMS = 12
_COLUMNS = (
    Column("person", least=10),
    Column("gives", right=True),
    Column("gets", right=True),
    Column("worth to them", right=True),
    Column("by pairs", right=True),
)


@seedbox_command("match", short_help="Propose who gives what to whom, among any lists.")
@click.argument("lists", nargs=-1, required=True, metavar="[MINE] OTHERS...")
@click.option(
    "--tolerance",
    type=Whole("portions", 0, 20),
    help="By how many portions giving and getting may differ; else the setting swap_tolerance.",
)
@click.option("--mine", is_flag=True, help="Show only the lines in which you give or get.")
@click.option("--save", type=click.Path(path_type=Path), help="Keep the proposal in this file.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    lists: tuple[str, ...],
    tolerance: int | None,
    mine: bool,
    save: Path | None,
    as_json: bool,
) -> None:
    """Propose an exchange among lists: who gives what to whom, and why.

    The first list is yours: a file, or the word tin for this tin. With a single file, that is the
    other person's and your tin is yours. Everyone gets about as much as they give, no one is
    worse off than by exchanges between two, and the worth of it all is the greatest.

    \b
    seedbox swap match from-iestyn.csv
    seedbox swap match tin from-iestyn.csv from-renee.json --save swap.json
    seedbox swap match mine.csv from-iestyn.csv from-renee.json
    """
    from seedbox.season.swapping.matching import match
    from seedbox.season.swapping.records import UNNAMED

    _refuse_target(save)
    found, settings = _read_all(session, lists)
    wanted = settings.swap_tolerance if tolerance is None else tolerance
    proposal = match(found, round(wanted), session.today)
    if save is not None:
        from seedbox.season.swapping.proposal_file import proposal_text
        from seedbox.whole_file import write_whole

        write_whole(save, proposal_text(proposal, _FIRST).encode("utf-8"))
    if as_json:
        say_json(_facts(proposal, only_yours=mine))
        return
    say(*_page(proposal, only_yours=mine), *law_lines(settings.swap_law))
    if save is not None:
        say("", f"Kept in {save}. When the swap is done: seedbox swap book {save}")
        if proposal.names[_FIRST] == UNNAMED:
            say("Others can book from it too, once it says who you are: the setting grower_name.")


def _refuse_target(save: Path | None) -> None:
    if save is None:
        return
    from seedbox.cli.files import refuse_document_target
    from seedbox.season.swapping.proposal_file import FORMAT

    refuse_document_target(save, FORMAT)


def _read_all(session: Session, words: Sequence[str]) -> tuple[list[SwapList], Any]:
    """Your list first, and the settings of the tin where there is one."""
    from seedbox.tin.preferences import Settings

    if len(words) == 1 and words[0] == TIN:
        raise UsageError("Name the lists of the others too.")
    own = words[0] == TIN or len(words) == 1
    others = words[1:] if words[0] == TIN else words
    if own or session.tin_path.exists():
        with session.tin() as tin:
            settings = tin.settings()
            read = _Reading(session, tin)
            mine = [read.own()] if own else []
            found = [*mine, *(read.list_of(Path(word)) for word in others)]
            if not own:
                _say_whose(tin, words, found[0])
            return found, settings
    read = _Reading(session, None)
    return [read.list_of(Path(word)) for word in others], Settings()


def _say_whose(tin: Tin, words: Sequence[str], first: SwapList) -> None:
    """The first list is taken for one's own; where nothing of it is in the tin, that is said."""
    codes = {packet.code for packet in tin.packets()}
    if not any(offer.code in codes for offer in first.offers):
        warn(
            f"{words[0]} is taken for your own list. To swap from this tin, write:",
            f"  seedbox swap match tin {' '.join(words)}",
        )


class _Reading:
    """Reads lists with the crop names of the tin; says on stderr what had to be left out."""

    def __init__(self, session: Session, tin: Tin | None) -> None:
        from seedbox.cli.lookup import crop_book, plain_crop_book

        self._session, self._tin = session, tin
        self._book = plain_crop_book() if tin is None else crop_book(tin)
        self._month_first = tin is not None and tin.settings().dates == "month first"

    def own(self) -> SwapList:
        from seedbox.season.swapping.own_list import own_list
        from seedbox.season.swapping.records import UNNAMED

        assert self._tin is not None
        name = self._tin.settings().grower_name or UNNAMED
        return own_list(self._tin, self._session.today, name=name)

    def list_of(self, path: Path) -> SwapList:
        from seedbox.season.swapping.list_reading import read_list

        read = read_list(path, self._book, self._session.today, month_first=self._month_first)
        for note in read.notes:
            warn(f"{path.name}: {note}")
        if read.problems:
            warn(f"{path.name}: {count(len(read.problems), 'fault')}; those rows are left out.")
            warn(*(f"  {problem}" for problem in read.problems[:_MOST_PROBLEMS]))
            if len(read.problems) > _MOST_PROBLEMS:
                warn(f"  and {len(read.problems) - _MOST_PROBLEMS} more.")
        return read.swap_list


def _page(proposal: Proposal, *, only_yours: bool) -> Iterator[str]:
    if not proposal.transfers:
        yield f"Nothing in these {len(proposal.names)} lists goes together."
        yield "Offers and wants meet by crop and variety."
        return
    from seedbox.season.swapping.explaining import told

    shown = [
        one for one in proposal.transfers if not only_yours or _FIRST in (one.giver, one.receiver)
    ]
    for line, one in enumerate(shown, 1):
        said = f"{portions(one.portions)}: {told(one, proposal.names, _FIRST)}"
        yield from wrapped(said, f"{line}. ", "   ")
    if not shown:
        yield "You neither give nor get anything in it."
    yield ""
    rows = [
        (one.name, str(one.gives), str(one.receives), number(one.worth), number(one.by_pairs))
        for one in proposal.balances
    ]
    yield from table(_COLUMNS, rows, room())
    yield ""
    yield f"Worth in all {number(proposal.worth)}, of at most {number(proposal.bound)}."
    yield from wrapped(f"Found by {proposal.method}.")
    yield from caution_lines(one.offer for one in shown)
    yield from note_lines(one.offer for one in shown)


def _facts(proposal: Proposal, *, only_yours: bool) -> dict[str, Any]:
    from seedbox.season.swapping.proposal_file import balance_documents, transfer_facts

    return {
        "transfers": [
            transfer_facts(one, proposal)
            for one in proposal.transfers
            if not only_yours or _FIRST in (one.giver, one.receiver)
        ],
        "balance": balance_documents(proposal),
        "worth": proposal.worth,
        "bound": proposal.bound,
    }
