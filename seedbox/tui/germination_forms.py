"""Forms for germination tests: start one, count another day, give one up."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from seedbox.errors import SeedboxError
from seedbox.season.listing import PacketLine
from seedbox.season.testing.account import Account
from seedbox.season.testing.protocol import NOT_FOOD, Protocol, Wishes
from seedbox.season.testing.schedule import started
from seedbox.season.testing.starting import grams_for, protocol_of, seeds_in, start
from seedbox.tin.codes import shown
from seedbox.tin.counting import CATEGORIES
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, Packet, Substrate, Unit
from seedbox.tin.testing import TestPlan, check_plan, drop_test
from seedbox.tin.tests import refuse_stock
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.germination_counting import write_count
from seedbox.tui.germination_words import seeds_words
from seedbox.tui.units import unbroken

USUAL_SEEDS = 20
YES, NO = "yes", "no"
THROWN, BACK = "thrown away", "back into the packet"
_FIELD_OF_PROBLEM = {"temperature_c": "temperature", "night_c": "night"}


def start_plan(
    desk: Desk, line: PacketLine, seeds: int, then: Callable[[str, str], None]
) -> FormPlan:
    """Asks how a test is laid; what the almanac says stands there already.

    `then` is told the code of the new test, and a sentence.
    """
    packet = line.packet
    refuse_stock(packet)
    tin = desk.tin()
    seeds = seeds or _some_seeds(seeds_in(tin, packet, line.dossier.left))
    usual = protocol_of(tin, packet, Wishes(seeds), desk.today)

    def save(values: Values) -> str:
        wishes, reader = _wishes(values, desk, packet, usual)
        on = reader.day("on") or desk.today
        grams = reader.number("grams") if packet.unit is Unit.GRAMS else None
        reader.finish()
        begun = desk.change(
            lambda tin: start(
                tin, packet.code, wishes, today=desk.today, on=on, grams=grams,
                take_from_packet=values["taken"] == YES,
            )
        )  # fmt: skip
        first = begun.protocol.first_count
        said = (
            f"Test {shown(begun.test.code)} runs: first count on {first.day} {first:%B}. How it is"
            " done stands below; l queues the slip for the bag. u takes it back."
        )
        then(begun.test.code, said)
        return said

    name = f"{line.crop} {packet.variety}".strip()
    return FormPlan(
        title=f"Start a germination test of {name} ({line.code})",
        fields=_start_fields(packet),
        save=save,
        initial=_initial(desk, packet, usual),
        draft_key=f"start test {packet.code}",
        advice=_advice(usual),
    )


def _some_seeds(left: float | None) -> int:
    """The usual number, or half of what there is when that is less."""
    return USUAL_SEEDS if left is None else max(1, min(USUAL_SEEDS, int(left // 2)))


def _start_fields(packet: Packet) -> list[Field]:
    grams = Field("grams", "Grams", "What they weigh; empty: by the weight of a thousand seeds.")
    return [
        Field("seeds", "Seeds", "How many to lay. More seeds tell more and leave fewer to sow."),
        Field("replicates", "Replicates", "In how many parts; each is counted by itself."),
        Field(
            "substrate",
            "Laid on",
            "Left and right arrows: damp paper, sand, or seed mix.",
            tuple(each.value for each in Substrate),
        ),
        Field("temperature", "Temperature", "°C, by day when the night is cooler."),
        Field("night", "By night", "°C; empty when it is the same all day."),
        Field("on", "Laid", "Today, yesterday, or a day such as 2026-03-21."),
        *([grams] if packet.unit is Unit.GRAMS else []),
        Field("taken", "From packet", "Are the seeds taken out of this packet now?", (YES, NO)),
        Field("note", "Note", "Anything worth remembering."),
    ]


def _initial(desk: Desk, packet: Packet, usual: Protocol) -> Values:
    plan = usual.plan
    values = {
        "seeds": str(plan.seeds),
        "replicates": str(plan.replicates),
        "substrate": plan.substrate.value,
        "temperature": _celsius(plan.temperature_c),
        "night": _celsius(plan.night_c),
        "on": "today",
        "taken": YES,
    }
    if packet.unit is Unit.GRAMS:
        try:
            values["grams"] = f"{grams_for(desk.tin(), packet, plan.seeds):g}"
        except SeedboxError:  # nobody knows what its seeds weigh: the form asks
            values["grams"] = ""
    return values


def _celsius(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _advice(usual: Protocol) -> str:
    """What the almanac says, and what to heed, in a few lines."""
    plan = usual.plan
    days = f"first count on day {usual.counts[0][0]}, last on day {usual.counts[-1][0]}"
    before = f"; {plan.pretreatment}" if plan.pretreatment else ""
    said = f"By the almanac {usual.warmth.words}, {days}{before}."
    cautions = " ".join(each for each in usual.cautions if each != NOT_FOOD)
    return unbroken(f"{said} {cautions}".strip())


def _wishes(
    values: Values, desk: Desk, packet: Packet, usual: Protocol
) -> tuple[Wishes, FieldReader]:
    """What was asked for; faults go to the reader."""
    reader = FieldReader(values, desk.today)
    seeds, replicates = reader.count("seeds", needed=True), reader.count("replicates") or 1
    day_c, night_c = reader.number("temperature"), reader.number("night")
    substrate = Substrate(values["substrate"])
    laid = TestPlan(seeds, replicates, substrate, day_c, night_c, note=values["note"])
    on = reader.day("on") or desk.today
    if not reader.problems:
        for problem in check_plan(laid, on, desk.today):
            field = _FIELD_OF_PROBLEM.get(problem.field, problem.field)
            reader.fault(field, unbroken(problem.sentence))
    same = (day_c, night_c) == (usual.plan.temperature_c, usual.plan.night_c)
    warmth = (None, None) if same else (day_c, night_c)
    return Wishes(seeds, replicates, substrate, *warmth, values["note"]), reader


def count_plan(desk: Desk, test: GerminationTest, replicate: int) -> FormPlan:
    """Asks what was found on any day; the same day and replicate again corrects it."""

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        on = _count_day(reader, values, test)
        number = reader.count("replicate") or 1
        figures = {name: reader.count(name) for name in CATEGORIES}
        reader.finish()
        day = on or desk.today
        found = desk.change(
            lambda tin: write_count(tin, test, figures, on=day, today=desk.today, replicate=number)
        )
        told = ", ".join(f"{getattr(found, n)} {n}" for n in CATEGORIES if getattr(found, n))
        return f"{found.on.day} {found.on:%B}: {told or 'nothing new'}. u takes it back."

    several = test.replicates > 1
    return FormPlan(
        title=f"Count {shown(test.code)} on any day",
        fields=[
            Field("on", "Day", "5 for day 5 of the test, or today, yesterday, 2026-03-21."),
            *([Field("replicate", "Replicate", f"1 to {test.replicates}.")] if several else []),
            Field("normal", "Normal", "New since the count before; 0 says that you looked."),
            Field("abnormal", "Abnormal", "Seedlings that will make no plant."),
            Field("hard", "Hard", "Took up no water, at the last count."),
            Field("fresh", "Fresh", "Swollen, firm and asleep, at the last count."),
            Field("dead", "Dead", "Soft, mouldy or empty."),
        ],
        save=save,
        initial={"on": "today", "replicate": str(replicate)},
        draft_key=f"count {test.code}",
        advice="A day that was counted already is put right: what you write here takes its place.",
    )


def _count_day(reader: FieldReader, values: Values, test: GerminationTest) -> date | None:
    """A day of the test by its number, or a date."""
    text = values["on"].strip()
    if text.isascii() and text.isdigit() and len(text) <= 3:
        return started(test) + timedelta(days=int(text))
    return reader.day("on")


def drop_plan(desk: Desk, found: Account) -> FormPlan:
    """Gives a test up. Seeds that were never counted may go back into the packet."""
    test = found.test
    may_go_back = not found.counts and test.started_on is not None

    def save(values: Values) -> str:
        back = values.get("seeds") == BACK
        desk.change(lambda tin: _drop(tin, test, desk, back=back))
        return f"Dropped {shown(test.code)}. It tells nothing of its packet. u takes it back."

    seeds = Field("seeds", "Its seeds", "Back only when they were never wetted.", (THROWN, BACK))
    note = Field("sure", "Give it up", "Enter or Ctrl+S drops it; Esc leaves it.", (YES,))
    return FormPlan(
        title=f"Drop the test {shown(test.code)} of {seeds_words(test.seeds)}",
        fields=[seeds if may_go_back else note],
        save=save,
        advice="For a test that dried out, rotted or was mixed up. It stays on record.",
    )


def _drop(tin: Tin, test: GerminationTest, desk: Desk, *, back: bool) -> None:
    drop_test(tin, test.code, today=desk.today, return_seeds=back)
