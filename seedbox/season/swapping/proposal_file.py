"""A proposal kept in a file until the swap, and what of it one person books."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.booking import Give, Receive
from seedbox.season.swapping.list_json import offer_from, parsed
from seedbox.season.swapping.list_writing import offer_document
from seedbox.season.swapping.records import UNNAMED, Balance, Proposal, Return, Transfer, Wish
from seedbox.season.swapping.words import named
from seedbox.tin.codes import ALPHABET
from seedbox.tin.exchange.neutral import shown as shown_text
from seedbox.tin.text import clean_line
from seedbox.tin.wants import MOST_PORTIONS, WORTHS

FORMAT, VERSION = "seedbox-swap-proposal", 1
MOST_TRANSFERS = 10_000
_MARK_LENGTH = 8


@dataclass(frozen=True, slots=True)
class MyPart:
    """What one person of a proposal books; `mark` tells this swap from every other."""

    name: str
    gives: tuple[Give, ...]
    receives: tuple[Receive, ...]
    mark: str


def proposal_text(proposal: Proposal, mine: int | None = None) -> str:
    """The proposal as a file. `mine` is the number of the person who keeps it."""
    document = {
        "format": FORMAT,
        "version": VERSION,
        "made_on": None if proposal.made_on is None else proposal.made_on.isoformat(),
        "mine": mine,
        "people": list(proposal.names),
        "tolerance": proposal.tolerance,
        "worth": proposal.worth,
        "bound": proposal.bound,
        "method": proposal.method,
        "transfers": [_transfer_document(one, proposal) for one in proposal.transfers],
        "balance": balance_documents(proposal),
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def balance_documents(proposal: Proposal) -> list[dict[str, Any]]:
    """What each gives and gets, in portions, and its worth to them."""
    return [
        {
            "name": one.name,
            "gives": one.gives,
            "receives": one.receives,
            "worth": one.worth,
            "by_pairs": one.by_pairs,
        }
        for one in proposal.balances
    ]


def transfer_facts(one: Transfer, proposal: Proposal) -> dict[str, Any]:
    """Who gives what to whom, how much, and what that is worth to them."""
    return {
        "from": proposal.names[one.giver],
        "to": proposal.names[one.receiver],
        "crop": one.offer.crop,
        "variety": one.offer.variety,
        "portions": one.portions,
        "worth": one.worth,
    }


def _transfer_document(one: Transfer, proposal: Proposal) -> dict[str, Any]:
    wish = one.wish
    return transfer_facts(one, proposal) | {
        "why": one.why,
        "returns": None
        if one.returns is None
        else [
            {"from": proposal.names[back.giver], "kinds": list(back.kinds)} for back in one.returns
        ],
        "offer": offer_document(one.offer),
        "want": {
            "crop": wish.crop,
            "crop_id": wish.crop_id,
            "variety": wish.variety,
            "portions": wish.portions,
            "worth": wish.worth,
        },
    }


def read_proposal(path: Path, book: CropBook, today: date) -> tuple[Proposal, int | None]:
    """A proposal that was kept, and the number of the person who kept it.

    Raises NotFoundError or BadDataError with a sentence where a file is none.
    """
    document = parsed(Path(path), FORMAT, VERSION, "proposal")
    try:
        proposal = _read(document, book, today)
    except (KeyError, TypeError, ValueError, AttributeError) as fault:
        raise BadDataError(f"{Path(path).name} is no whole proposal: {_why(fault)}.") from fault
    mine = document.get("mine")
    if isinstance(mine, int) and 0 <= mine < len(proposal.names):
        return proposal, mine
    return proposal, None


def _read(document: Mapping[str, Any], book: CropBook, today: date) -> Proposal:
    names = tuple(_text(name, "people") for name in document["people"])
    if len(set(names)) != len(names):
        raise ValueError("two people have the same name")
    entries = document["transfers"]
    if not isinstance(entries, list) or len(entries) > MOST_TRANSFERS:
        raise ValueError(f"“transfers” is no list of {MOST_TRANSFERS:,} lines at most")
    transfers = tuple(
        _transfer(entry, number, names, book, today) for number, entry in enumerate(entries, 1)
    )
    return Proposal(
        names,
        transfers,
        tuple(_balance(entry) for entry in document["balance"]),
        _number(document["worth"]),
        _number(document["bound"]),
        _text(document.get("method", ""), "method"),
        int(_number(document["tolerance"])),
        None if not document.get("made_on") else date.fromisoformat(document["made_on"]),
    )


def _transfer(
    entry: Mapping[str, Any], number: int, names: tuple[str, ...], book: CropBook, today: date
) -> Transfer:
    offer, problems = offer_from(entry["offer"], book, today)
    if offer is None or problems:
        said = " ".join(problem.sentence for problem in problems).rstrip(".")
        raise ValueError(f"line {number}: {said}")
    portions = entry["portions"]
    if not isinstance(portions, int) or not 1 <= portions <= MOST_PORTIONS:
        raise ValueError(f"line {number} has no number of portions")
    want = entry["want"]
    wish = Wish(
        _text(want["crop"], "crop"),
        _text(want.get("crop_id", ""), "crop"),
        _text(want.get("variety", ""), "variety"),
        int(_number(want["portions"])),
        min(max(int(_number(want["worth"])), WORTHS[0]), WORTHS[-1]),
    )
    return Transfer(
        _index(names, entry["from"], number),
        _index(names, entry["to"], number),
        offer,
        wish,
        portions,
        _number(entry["worth"]),
        _text(entry.get("why", ""), "why"),
        _returns(entry.get("returns"), names, number),
    )


def _returns(entries: Any, names: tuple[str, ...], number: int) -> tuple[Return, ...] | None:
    """What comes back, where the file says it; without it the reason stays as it is written."""
    if entries is None:
        return None
    return tuple(
        Return(
            _index(names, entry["from"], number),
            tuple(_text(kind, "kinds") for kind in entry["kinds"]),
        )
        for entry in entries
    )


def _index(names: tuple[str, ...], name: Any, number: int) -> int:
    clean = _text(name, "from")
    if clean not in names:
        raise ValueError(f"line {number} names somebody who is not among the people")
    return names.index(clean)


def _balance(entry: Mapping[str, Any]) -> Balance:
    return Balance(
        _text(entry["name"], "name"),
        int(_number(entry["gives"])),
        int(_number(entry["receives"])),
        _number(entry["worth"]),
        _number(entry["by_pairs"]),
    )


def _text(value: Any, what: str) -> str:
    if not isinstance(value, str) or len(value) > 2_000:
        raise ValueError(f"“{what}” is no text")
    return clean_line(value)


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{shown_text(str(value))} is no number")  # noqa: TRY004 - a person's data
    return value


def _why(fault: Exception) -> str:
    if isinstance(fault, KeyError):
        return f"it has no “{fault.args[0]}”"
    return str(fault) if isinstance(fault, ValueError) else "a part of it is of another kind"


def my_part(proposal: Proposal, mine: int | None, name: str = "") -> MyPart:
    """What one person gives and gets: by `name`, else the one who kept the file.

    Somebody who did not say who they are is nobody to the others. Raises NotFoundError where
    neither tells, BadDataError for a line that cannot be given.
    """
    at = person_of(proposal, mine, name)
    names = ["" if name == UNNAMED else name for name in proposal.names]
    gives = tuple(_give(one, names[one.receiver]) for one in proposal.transfers if one.giver == at)
    receives = tuple(
        Receive(replace(one.offer, portions=one.portions), one.portions, names[one.giver])
        for one in proposal.transfers
        if one.receiver == at
    )
    return MyPart(proposal.names[at], gives, receives, mark_of(proposal, at))


def person_of(proposal: Proposal, mine: int | None, name: str = "") -> int:
    """The number of the person called `name`, else of the one who kept the file (`mine`).

    Raises NotFoundError where neither tells.
    """
    if not name and mine is not None:
        return mine
    folded = name.casefold().strip()
    found = [at for at, one in enumerate(proposal.names) if one.casefold() == folded]
    if name and found:
        return found[0]
    people = ", ".join(proposal.names)
    if name:
        raise NotFoundError(f"Nobody in the proposal is called “{name}”.", hint=f"There: {people}.")
    raise NotFoundError(
        "The proposal does not say which of the people you are.",
        hint=f"Say it with --as NAME: {people}.",
    )


def _give(one: Transfer, to: str) -> Give:
    seeds, what = one.offer.seeds_per_portion, named(one.offer.crop, one.offer.variety)
    by_hand = "Give it by hand: seedbox swap give CODE --portions N --seeds SEEDS"
    if not one.offer.code:
        raise BadDataError(
            f"The proposal does not say which packet of yours is the {what}: your list had no code"
            " for it.",
            hint=by_hand,
        )
    if seeds is None:
        raise BadDataError(
            f"The proposal does not say how many seeds a portion of {what} holds.", hint=by_hand
        )
    return Give(one.offer.code, one.portions, seeds, to)


def mark_of(proposal: Proposal, at: int) -> str:
    """Eight characters by which the same swap of the same person is known again."""
    lines = sorted(
        (one.giver, one.receiver, one.offer.code, one.offer.crop, one.offer.variety, one.portions)
        for one in proposal.transfers
        if at in (one.giver, one.receiver)
    )
    made = "" if proposal.made_on is None else proposal.made_on.isoformat()
    told = json.dumps([at, proposal.names, made, lines], ensure_ascii=False)
    digest = hashlib.sha256(told.encode("utf-8", "surrogatepass")).digest()
    return "".join(ALPHABET[byte % len(ALPHABET)] for byte in digest[:_MARK_LENGTH])
