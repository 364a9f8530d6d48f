"""Small forms for what is done to packets: take, recount, move, record a test."""

from __future__ import annotations

from collections.abc import Sequence

from seedbox.errors import NotFoundError
from seedbox.tin.codes import shown
from seedbox.tin.drafts import moisture_problem
from seedbox.tin.packets import move, recount, take
from seedbox.tin.records import Dossier, MovementKind, Packet, Unit
from seedbox.tin.tests import check_test, record_test
from seedbox.tin.text import amount_text
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

REASONS = {
    "sown": MovementKind.SOWN,
    "given away": MovementKind.GIVEN,
    "lost or spoilt": MovementKind.LOST,
}
YES, NO = "yes", "no"
AS_STORE, SEALED, OPEN = "as the store", "sealed", "open"
WHEN = Field("on", "When", "Today, yesterday, or a day such as 2026-03-21.")
NOTE = Field("note", "Note", "Anything worth remembering.")


def take_plan(desk: Desk, dossier: Dossier, name: str) -> FormPlan:
    """Seed leaves the packet: sown, given away or lost."""
    packet = dossier.packet

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        amount = reader.amount("amount", packet.unit)
        on = reader.day("on")
        reader.finish()
        desk.change(
            lambda tin: take(
                tin, packet, amount.value, REASONS[values["reason"]],
                today=desk.today, on=on, note=values["note"], unit=amount.unit,
            )
        )  # fmt: skip
        some = "some" if amount.value is None else amount_text(amount.value, amount.unit)
        return f"Took {some} from {name}: {values['reason']}. u takes it back."

    return FormPlan(
        title=f"Take from {name}",
        fields=[
            Field("amount", "How much", _amount_hint(dossier)),
            Field("reason", "Why", "Left and right arrows choose.", tuple(REASONS)),
            WHEN,
            NOTE,
        ],
        save=save,
        initial={"on": "today"},
        draft_key=f"take {packet.code}",
        advice=f"{_left_words(dossier)} Leave the amount empty when you did not count.",
    )


def recount_plan(desk: Desk, dossier: Dossier, name: str) -> FormPlan:
    """States what is in the packet, whatever the journal says."""
    packet = dossier.packet

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        amount = reader.amount("amount", packet.unit)
        if amount.value is None:
            reader.fault("amount", "Say how much is there now: 40, 2.5 g or 0.")
        on = reader.day("on")
        reader.finish()
        there = amount.value or 0.0
        desk.change(
            lambda tin: recount(
                tin, packet, there, today=desk.today, on=on, note=values["note"], unit=amount.unit
            )
        )
        return f"{name} now holds {amount_text(there, amount.unit)}. u takes it back."

    return FormPlan(
        title=f"Recount {name}",
        fields=[Field("amount", "There now", "40, or 2.5 g; 0 when it is empty."), WHEN, NOTE],
        save=save,
        initial={"on": "today"},
        draft_key=f"recount {packet.code}",
        advice=_left_words(dossier),
    )


def move_plan(desk: Desk, packets: Sequence[Packet], name: str) -> FormPlan:
    """Packets go to another store from a day on; what lay before stays as it was."""
    stores = desk.tin().stores()
    if not stores:
        raise NotFoundError(
            "There is no store to move to yet.", hint="S shows the stores: add one."
        )

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        on, moisture = reader.day("on"), reader.number("moisture")
        sealed = {SEALED: True, OPEN: False}.get(values["sealed"])
        store = next(s for s in stores if s.name == values["store"])
        if moisture is not None:
            problem = moisture_problem(moisture)
            if not problem and not (store.sealed if sealed is None else sealed):
                problem = "Only sealed seed keeps its moisture: choose sealed, or leave it empty."
            if problem:
                reader.fault("moisture", problem)
        reader.finish()
        moved = desk.change(
            lambda tin: move(
                tin, packets, store, today=desk.today, on=on, sealed=sealed, moisture=moisture
            )
        )
        what = name if len(packets) == 1 else f"{moved} of {len(packets)} packets"
        return f"Moved {what} to {store.name}. u takes it back."

    return FormPlan(
        title=f"Move {name} to another store",
        fields=[
            Field(
                "store",
                "Store",
                "Left and right arrows, or a first letter.",
                tuple(s.name for s in stores),
            ),
            Field("sealed", "Packed", "Sealed: in a closed jar or foil.", (AS_STORE, SEALED, OPEN)),
            Field("moisture", "Moisture %", "Of sealed seed, when you know it."),
            WHEN,
        ],
        save=save,
        initial={"on": "today"},
        advice="Where it lay until that day stays in its history.",
    )


def test_plan(desk: Desk, dossier: Dossier, name: str) -> FormPlan:
    """A germination test that is finished."""
    packet = dossier.packet
    in_grams = packet.unit is Unit.GRAMS

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        on = reader.day("on") or desk.today
        seeds = reader.count("seeds", needed=True)
        germinated = reader.count("germinated", needed=True)
        hard = reader.count("hard")
        by = reader.text("by")
        taken = values["taken"] == YES and not by  # another's seed was never in this packet
        grams = reader.number("grams") if in_grams else None
        if taken and in_grams and grams is None:
            reader.fault("grams", "This packet is kept in grams: say how many the test took.")
        if not reader.problems:
            for problem in check_test(
                on, seeds, germinated, hard,
                note=values["note"], today=desk.today, reported_by=by,
            ):  # fmt: skip
                reader.fault(problem.field, problem.sentence)
        reader.finish()
        test = desk.change(
            lambda tin: record_test(
                tin, packet, on, seeds, germinated, hard, values["note"],
                today=desk.today, take_from_packet=taken, grams_taken=grams, reported_by=by,
            )
        )  # fmt: skip
        return (
            f"Test {shown(test.code)}: {germinated} of {seeds} germinated. The forecast of"
            f" {name} has learnt from it. u takes it back."
        )

    grams_field = [Field("grams", "Grams taken", "What the test took out of the packet.")]
    return FormPlan(
        title=f"Record a finished germination test of {name}",
        fields=[
            Field("seeds", "Seeds laid", "How many were laid."),
            Field("germinated", "Germinated", "Normal seedlings at the final count."),
            Field("hard", "Hard seeds", "Still hard at the end, as in some beans and peas."),
            Field("on", "Final count", "Today, or a day such as 2026-03-21."),
            Field("taken", "From packet", "Were the seeds taken out of this packet?", (YES, NO)),
            *(grams_field if in_grams else []),
            Field("by", "Whose test", "Empty: your own. Another's counts less and takes no seed."),
            NOTE,
        ],
        save=save,
        initial={"on": "today"},
        draft_key=f"test {packet.code}",
        advice=_left_words(dossier),
    )


def _left_words(dossier: Dossier) -> str:
    if dossier.left is None:
        return "How much is left was never counted."
    return f"Left by the journal: {amount_text(dossier.left, dossier.packet.unit)}."


def _amount_hint(dossier: Dossier) -> str:
    return "Grams, such as 0.5." if dossier.packet.unit is Unit.GRAMS else "Seeds, such as 12."
