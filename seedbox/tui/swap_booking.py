"""Forms of a proposal: keep it in a file, open one that was kept, book it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.printing.paper import write_whole
from seedbox.season.crops import CropBook
from seedbox.season.swapping.booking import Booked, Given, book
from seedbox.season.swapping.proposal_file import (
    FORMAT,
    MyPart,
    my_part,
    proposal_text,
    read_proposal,
)
from seedbox.season.swapping.records import Proposal
from seedbox.season.swapping.words import named
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.label_queue import MOST_COPIES, queue_labels
from seedbox.tin.records import Packet
from seedbox.tin.text import amount_text
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_text_page import SwapTextPage, law_lines
from seedbox.tui.swap_words import LAW
from seedbox.tui.tabs import tab
from seedbox.tui.text_lines import Line, heading, item, paragraph
from seedbox.tui.written_files import FileNames, refuse_other_file

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp

SHARING = "sharing"
NOWHERE = "no store"
BOTH, GIVEN_ONLY, NONE = "given and new packets", "only what is given", "none"
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
        name = my_part(proposal, mine, reader.text("name")).name
        app.call_later(show, proposal, proposal.names.index(name))
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


def book_plan(app: SeedboxApp, proposal: Proposal, me: int) -> FormPlan:
    """Asks where new packets lie and which labels are wanted, and books my part."""
    desk = app.desk
    part = my_part(proposal, me)
    stores = tuple(store.name for store in desk.tin().stores())

    def save(values: Values) -> str:
        store = "" if values["store"] == NOWHERE else values["store"]
        booked = desk.change(lambda tin: _book(tin, part, store, values["labels"], desk))
        book_of_names = CropBook(desk.tin().settings(), desk.tin().own_crops())
        law, labels = desk.tin().settings().swap_law, values["labels"]
        page = SwapTextPage(
            "Booked", lambda width: booked_lines(booked, book_of_names, labels, law, width)
        )
        app.call_later(app.push_screen, page)
        return "Booked. u takes all of it back."

    return FormPlan(
        title="Book your part of the swap",
        fields=[
            Field("store", "New ones lie", "Left and right arrows choose.", (*stores, NOWHERE)),
            Field("labels", "Labels wait", "Which labels wait to be printed on the Labels tab.",
                  (BOTH, GIVEN_ONLY, NONE)),
        ],
        save=save,
        advice=f"{_part_words(part)} One undo takes all of it back. {LAW}",
    )  # fmt: skip


def _part_words(part: MyPart) -> str:
    given = sum(one.portions for one in part.gives)
    got = sum(one.portions for one in part.receives)
    return f"You give {counted(given, 'portion')} and get {got}."


def _book(tin: Tin, part: MyPart, store: str, labels: str, desk: Desk) -> Booked:
    """The booking and its waiting labels, as one change."""
    given = sum(one.portions for one in part.gives)
    got = sum(one.portions for one in part.receives)
    with tin.change(f"Swap: {counted(given, 'portion')} given, {got} received"):
        booked = book(tin, part.gives, part.receives, today=desk.today, store=store, mark=part.mark)
        if labels != NONE:
            _queue_sharing(tin, booked.given)
        if labels == BOTH and booked.received:
            queue_labels(tin, [packet.code for packet in booked.received])
    return booked


def _queue_sharing(tin: Tin, given: Sequence[Given]) -> None:
    """A sharing label for each portion, besides those that wait already."""
    copies = Counter({one.code: one.copies for one in tin.label_queue() if one.design == SHARING})
    for one in given:
        copies[one.packet.code] += one.portions
    for code in dict.fromkeys(one.packet.code for one in given):
        queue_labels(tin, [code], SHARING, min(copies[code], MOST_COPIES))


def booked_lines(
    booked: Booked, book_of_names: CropBook, labels: str, law: str, width: int
) -> list[Line]:
    """What was booked, and how to print what goes with it."""

    def what(packet: Packet) -> str:
        name = named(book_of_names.name(packet.crop_id), packet.variety)
        return f"{name} ({shown(packet.code)})"

    lines = paragraph("The swap is booked, as one change: u takes all of it back.", width, "bold")
    if booked.given:
        lines += heading("Given")
        for one in booked.given:
            to = f" to {one.to}" if one.to else ""
            gift = f"{counted(one.portions, 'portion')} of {what(one.packet)}{to}"
            lines += item(f"{gift}; {_left(one)}", width)
    if booked.received:
        lines += heading("New packets")
        for packet in booked.received:
            giver = f" from {packet.source}" if packet.source else ""
            lines += item(f"{what(packet)}{giver}", width)
    if booked.wants_met:
        lines += heading("No longer wanted")
        for want in booked.wants_met:
            lines += item(want, width)
    return [*lines, *_printing_lines(booked, labels, width), *law_lines(law, width)]


def _left(one: Given) -> str:
    if one.left is None:
        return "nobody knows what is left"
    return f"{amount_text(one.left, one.packet.unit, one.packet.kind)} left"


def _printing_lines(booked: Booked, labels: str, width: int) -> list[Line]:
    lines = heading("Labels and packets to fold")
    if labels == NONE:
        lines += paragraph("No label waits. For a portion: seedbox labels sharing.pdf CODE"
                           f" --design {SHARING}", width)  # fmt: skip
    else:
        opens = f"which {tab('Labels').key} opens"
        lines += paragraph(f"Labels wait on the Labels tab, {opens}: print them there.", width)
    for one in booked.given:
        fold = f"seedbox fold packets.pdf {one.packet.code} --copies {one.portions}"
        lines += item(f"{fold} --seeds {one.seeds_per_portion}", width)
    return lines
