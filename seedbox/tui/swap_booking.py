"""Forms of a proposal: keep it in a file, open one that was kept, book it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.season.crops import CropBook
from seedbox.season.swapping.booking import Booked, book
from seedbox.season.swapping.minding import Minding, minding
from seedbox.season.swapping.proposal_file import (
    FORMAT,
    MyPart,
    my_part,
    person_of,
    proposal_text,
    read_proposal,
)
from seedbox.season.swapping.records import Proposal
from seedbox.season.swapping.spare import Spare, spare_of
from seedbox.tin.file import Tin
from seedbox.tin.label_queue import queue_labels
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_booked import booked_lines, refuse_label_file, sharing_words
from seedbox.tui.swap_text_page import SwapTextPage
from seedbox.tui.swap_words import LAW
from seedbox.tui.written_files import FileNames, refuse_other_file
from seedbox.whole_file import write_whole

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp

NOWHERE = "no store"
WAIT, NONE = "wait to be printed", "not wanted"
_SIGN = f'"format": "{FORMAT}"'.encode()


def keep_plan(desk: Desk, proposal: Proposal, me: int) -> FormPlan:
    """Asks where the proposal is kept."""

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        path = reader.path()
        if path.name and path.suffix.lower() != ".json":
            reader.fault("file", "End it in .json.")
        reader.finish()
        refuse_other_file(path, _SIGN)
        write_whole(path, proposal_text(proposal, me).encode())
        return f"Kept in {path}. After the swap: B on the Swap tab, or seedbox swap book."

    return FormPlan(
        title="Keep the proposal",
        fields=[Field("file", "File", "Others can be sent it: it holds what each gives and gets.")],
        save=save,
        initial={"file": str(Path.cwd() / "swap.json")},
        draft_key="keep proposal",
        advice=f"It names all who take part, and their offers in full. {LAW}",
    )


def kept_plan(app: SeedboxApp, show: Callable[[Proposal, int], object]) -> FormPlan:
    """Asks for the file of a proposal, and which of its people one is."""
    desk = app.desk

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        path = reader.path()
        reader.finish()
        tin = desk.tin(create=True)
        book_of_names = CropBook(tin.settings(), tin.own_crops())
        proposal, mine = read_proposal(path, book_of_names, desk.today)
        app.call_later(show, proposal, person_of(proposal, mine, reader.text("name")))
        return ""

    return FormPlan(
        title="Open a proposal that was kept",
        fields=[
            Field("file", "File", "As s keeps it beside a proposal.", suggest=FileNames([".json"])),
            Field("name", "You are", "As it stands in the file; empty: whoever kept the file."),
        ],
        save=save,
        initial={"file": str(Path.cwd() / "swap.json")},
        draft_key="kept proposal",
        advice="Shown first; B then books your part.",
    )


def book_plan(
    app: SeedboxApp, proposal: Proposal, me: int, found: Sequence[Spare] | None = None
) -> FormPlan:
    """Asks where new packets lie and which labels are wanted, and books my part.

    `found` is what is spare now; None where that is not reckoned yet.
    """
    desk = app.desk
    part = my_part(proposal, me)
    minded = _minded(desk, part, found)
    stores = tuple(store.name for store in desk.tin().stores())

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        path = reader.path("sharing") if reader.text("sharing") else None
        reader.finish()
        if path is not None:
            refuse_label_file(path)
        store = "" if values["store"] == NOWHERE else values["store"]
        booked = desk.change(lambda tin: _book(tin, part, store, values["labels"] == WAIT, desk))
        labels = sharing_words(desk, booked.given, path)
        tin = desk.tin()
        book_of_names, law = CropBook(tin.settings(), tin.own_crops()), tin.settings().swap_law
        page = SwapTextPage(
            "Booked",
            lambda width: booked_lines(booked, minded, book_of_names, labels, law=law, width=width),
        )
        app.call_later(app.push_screen, page)
        return "Booked. u takes all of it back."

    sharing = Field("sharing", "Sharing PDF", "A label for each portion given; empty: none.")
    return FormPlan(
        title="Book your part of the swap",
        fields=[
            Field("store", "New ones lie", "Left and right arrows choose.", (NOWHERE, *stores)),
            Field("labels", "Their labels", "Wait on the Labels tab, or are not wanted.",
                  (WAIT, NONE)),
            *([sharing] if part.gives else []),
        ],
        save=save,
        initial={"sharing": str(Path.cwd() / "sharing.pdf")},
        advice=" ".join((_part_words(part), *_mind_words(minded), "One undo takes all of it back.",
                         LAW)),
    )  # fmt: skip


def _minded(desk: Desk, part: MyPart, found: Sequence[Spare] | None) -> Minding:
    """What to mind of my gifts, reckoned before they are booked."""
    if not part.gives or not desk.exists:
        return Minding()
    return minding(spare_of(desk.tin(), desk.today) if found is None else found, part.gives)


def _mind_words(minded: Minding) -> list[str]:
    """The first remark in full: the form has little room, and the page after it tells all."""
    more = len(minded.remarks) - 1
    told = [f"Mind: {minded.remarks[0]}"] if minded.remarks else []
    return [*told, f"And {more} more of your gifts."] if more > 0 else told


def _part_words(part: MyPart) -> str:
    given = sum(one.portions for one in part.gives)
    got = sum(one.portions for one in part.receives)
    return f"You give {counted(given, 'portion')} and get {got}."


def _book(tin: Tin, part: MyPart, store: str, wait: bool, desk: Desk) -> Booked:
    """The booking and the waiting labels of what came, as one change."""
    given = sum(one.portions for one in part.gives)
    got = sum(one.portions for one in part.receives)
    with tin.change(f"Swap: {counted(given, 'portion')} given, {got} received"):
        booked = book(tin, part.gives, part.receives, today=desk.today, store=store, mark=part.mark)
        if wait and booked.received:
            queue_labels(tin, [packet.code for packet in booked.received])
    return booked
