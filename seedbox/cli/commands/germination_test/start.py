"""`test start`: seeds go onto paper, the test gets its code, and its protocol is printed."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.commands.germination_test.record import came_later
from seedbox.cli.germination_words import protocol_lines, title
from seedbox.cli.output import changed, say, warn
from seedbox.cli.params import DAY, WORDS, Choice, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped
from seedbox.cli.words import amount, count
from seedbox.errors import UsageError
from seedbox.tin.records import Substrate, TestState

if TYPE_CHECKING:
    from seedbox.season.testing.protocol import Protocol, Wishes
    from seedbox.season.testing.starting import Started
    from seedbox.tin.file import Tin
    from seedbox.tin.records import Packet


class _Bed(Choice):
    """What the seeds lie on. Elsewhere `--on` is a day, so a day is shown its own option."""

    def read(self, text: str, ctx: click.Context | None) -> str:
        try:
            return super().read(text, ctx)
        except ValueError as error:
            hint = " The day goes after --laid." if any(map(str.isdecimal, text)) else ""
            raise ValueError(f"{error}{hint}") from None


_BED = _Bed("bed", tuple(each.value for each in Substrate))
_ALL_THE_SAME = "Test it all the same with --seeds NUMBER."
_DEGREES = Number("degrees C", 0, 45)
_MANY = 4  # replicates that a line has room for


@seedbox_command("start", short_help="Start a test and print how it is done.")
@code_argument(completing.codes)
@click.option("--seeds", type=Whole("number", 1), help="How many, if not as many as planned.")
@click.option("--replicates", type=Whole("number", 1), help="In how many parts they are laid.")
@click.option("--on", type=_BED, default="paper", help="On paper (as usual), sand or mix.")
@click.option("--temperature", type=_DEGREES, help="Temperature, °C, if not the crop's usual one.")
@click.option("--night", type=_DEGREES, help="Temperature by night, °C, if it is cooler.")
@click.option("--laid", type=DAY, help="The day on which it was laid, if not today.")
@click.option("--grams", type=Number("grams", 0), help="What they weigh, for packets in grams.")
@click.option("--keep", is_flag=True, help="Do not take the seeds from the packet.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@click.option("--slip", type=click.Path(path_type=Path), help="Also write a slip for the bag, PDF.")
@click.option("--dry-run", is_flag=True, help="Only show how it is done; start nothing.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, as_json: bool, **given: Any) -> None:
    """Start a germination test of the packet CODE and print how it is done.

    Temperature, count days and special treatment come from the almanac. The seeds leave the packet.

    \b
    seedbox test start P4K7QMX2 --seeds 20 --slip slip.pdf
    """
    from seedbox.season.testing.starting import protocol_of, start

    _refuse_lone_night(given)
    slip: Path | None = given["slip"]
    if slip is not None:
        from seedbox.cli.slips import refuse_place

        refuse_place(slip)
    with session.tin() as tin:
        packet = tin.packet(code)
        wishes = _wishes(tin, packet, session.today, given)
        if given["dry_run"]:
            _show(packet, protocol_of(tin, packet, wishes, given["laid"] or session.today), as_json)
            return
        earlier = came_later(tin, packet, given["laid"] or session.today)
        started = start(
            tin,
            code,
            wishes,
            today=session.today,
            on=given["laid"],
            grams=given["grams"],
            take_from_packet=not (given["keep"] or earlier),
        )
        if earlier:
            warn("No seed was taken off: the packet came into the tin after that day.")
        if as_json:
            _report_json(tin, packet, started, slip)
        else:
            _report(tin, packet, started, slip)


def _refuse_lone_night(given: dict[str, Any]) -> None:
    if given["night"] is not None and given["temperature"] is None:
        raise UsageError("--night needs the temperature by day too: give --temperature.")


def _wishes(tin: Tin, packet: Packet, today: date, given: dict[str, Any]) -> Wishes:
    from seedbox.season.testing.protocol import Wishes

    return Wishes(
        given["seeds"] or _planned_seeds(tin, packet, today),
        given["replicates"],
        Substrate(given["on"]),
        given["temperature"],
        given["night"],
        given["note"],
    )


def _planned_seeds(tin: Tin, packet: Packet, today: date) -> int:
    """As many seeds as the plan says; a packet that it leaves out wants a number of its own."""
    from seedbox.season.testing.plan import testing_plan
    from seedbox.tin.tests import refuse_stock

    refuse_stock(packet)
    if any(test.packet_id == packet.id for test in tin.tests(state=TestState.RUNNING)):
        raise UsageError("A test of this packet is running already.", hint=_ALL_THE_SAME)
    plan = testing_plan(tin, today)
    for each in (*plan.tests, *plan.not_worth):
        if each.line.packet.id == packet.id:
            if each.seeds:
                return each.seeds
            raise UsageError(each.why, hint=_ALL_THE_SAME)
    raise UsageError(
        "The plan sees no need to test this packet: enough is known of it.", hint=_ALL_THE_SAME
    )


def _show(packet: Packet, laid_out: Protocol, as_json: bool) -> None:
    if as_json:
        from seedbox.cli.output import say_json

        say_json({"packet": packet.code, **_protocol_facts(laid_out)})
    else:
        say(*protocol_lines(laid_out))


def _report(tin: Tin, packet: Packet, started: Started, slip: Path | None) -> None:
    from seedbox.cli.slips import print_slips, report_slips

    code = started.test.code
    say(*wrapped(_sentence(tin, packet, started)), "", *protocol_lines(started.protocol), "")
    replicates = started.test.replicates
    numbers = ",".join(["NUMBER"] * replicates) if replicates <= _MANY else "NUMBER,NUMBER,…"
    say(f"Count it with: seedbox test count {code} --normal {numbers}")
    if slip is None:
        say(f"Slip for the bag: seedbox test slip {code} slip.pdf")
    say("Undo with: seedbox undo")
    if slip is not None:
        report_slips(print_slips(tin, [started.test], slip, {}), as_json=False)


def _report_json(tin: Tin, packet: Packet, started: Started, slip: Path | None) -> None:
    """One document, also when the slip could not be written: the test runs by then."""
    from seedbox.cli.slips import print_slips, slip_facts

    facts: dict[str, Any] = {"code": started.test.code, "packet": packet.code}
    facts |= {"grams": started.grams, "slip": None, **_protocol_facts(started.protocol)}
    sentence = _sentence(tin, packet, started)
    try:
        if slip is not None:
            facts["slip"] = slip_facts(print_slips(tin, [started.test], slip, {}))
    finally:
        changed(sentence, as_json=True, **facts)


def _sentence(tin: Tin, packet: Packet, started: Started) -> str:
    from seedbox.cli.lookup import crop_book
    from seedbox.tin.codes import shown

    test, left = started.test, tin.dossier(packet.code).left
    what = title(packet, crop_book(tin).name(packet.crop_id))
    took = "" if started.grams is None else f" ({amount(started.grams, packet.unit)})"
    now = f"{amount(left, packet.unit)}{'' if left is None else ' left'}"
    now = "the packet is empty now" if left == 0 else now
    return f"Test {shown(test.code)}: {count(test.seeds, 'seed')}{took} of {what}; {now}."


def _protocol_facts(laid_out: Protocol) -> dict[str, Any]:
    plan = laid_out.plan
    return {
        "seeds": plan.seeds,
        "replicates": plan.replicates,
        "substrate": plan.substrate,
        "temperature_c": plan.temperature_c,
        "night_c": plan.night_c,
        "pretreatment": plan.pretreatment or None,
        "started_on": laid_out.started_on,
        "first_count": laid_out.first_count,
        "final_count": laid_out.final_count,
        "count_days": [{"day": day, "on": on} for day, on in laid_out.counts],
        "cautions": list(laid_out.cautions),
        "protocol": {section.title: list(section.sentences) for section in laid_out.sections},
    }
