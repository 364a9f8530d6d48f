"""`take`: seed leaves a packet."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_and_last
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.params import DAY, WORDS
from seedbox.cli.session import Session
from seedbox.cli.words import NOT_COUNTED, amount
from seedbox.errors import BadDataError, UsageError
from seedbox.tin.records import Dossier, MovementKind, Unit

_WHY = {
    "sown": "It was sown (this is what is assumed).",
    "given": "It was given away or swapped.",
    "lost": "It was lost, spilt or thrown away.",
    "tested": "It was used up in a germination test.",
}


def _reasons(function: click.decorators.FC) -> click.decorators.FC:
    for word, help_text in reversed(_WHY.items()):
        function = click.option(f"--{word}", "kind", flag_value=word, help=help_text)(function)
    return function


@seedbox_command("take")
@click.argument(
    "what",
    nargs=-1,
    required=True,
    metavar="CODE AMOUNT",
    callback=code_and_last,
    shell_complete=completing.codes,
)
@_reasons
@click.option("--on", type=DAY, help="The day it was taken, if not today.")
@click.option("--note", type=WORDS, default="", help="Where it went, or why.")
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    what: tuple[str, str],
    kind: str | None,
    on: date | None,
    note: str,
    as_json: bool,
) -> None:
    """Take seed out of the packet CODE: a number of seeds, grams such as 2.5g, all or some.

    \b
    seedbox take P4K7QMX2 20
    seedbox take P4K7QMX2 all --given --note "swap day"
    """
    from seedbox.tin.quantity import take

    code, text = what
    with session.tin() as tin:
        dossier = tin.dossier(code)
        number, unit = _wanted(dossier, text)
        taken = take(
            tin,
            dossier.packet,
            number,
            MovementKind(kind or "sown"),
            today=session.today,
            on=on,
            note=note,
            unit=unit,
        )
        after = tin.dossier(code)
    said = "Some seed" if taken.amount is None else amount(taken.amount, after.packet.unit)
    changed(
        f"{said} {taken.kind} from {_name(after)}; {_left(after)}.",
        as_json=as_json,
        code=after.packet.code,
        taken=taken.amount,
        left=after.left,
        unit=after.packet.unit,
    )


def _left(dossier: Dossier) -> str:
    if dossier.left is None:
        return "how much is left is not known"
    if not dossier.left:
        return "the packet is empty now"
    return f"{amount(dossier.left, dossier.packet.unit)} left"


def _wanted(dossier: Dossier, text: str) -> tuple[float | None, Unit | None]:
    """What to take; None is some. All of what nobody counted has no number: that is a recount."""
    from seedbox.cli.amounts import read_amount

    if text.casefold() == "some":
        return None, None
    if text.casefold() != "all":
        number, unit = read_amount(text)
        if not number:
            raise UsageError("Taking nothing changes nothing.")
        return number, unit
    if dossier.left is None:
        raise BadDataError(
            f"This packet was {NOT_COUNTED}, so “all” has no number.",
            hint="Say that it is empty with: seedbox recount CODE 0",
        )
    if not dossier.left:
        raise BadDataError("This packet is empty already.")
    return dossier.left, dossier.packet.unit


def _name(dossier: Dossier) -> str:
    from seedbox.tin.codes import shown

    return f"{shown(dossier.packet.code)} {dossier.packet.variety}".strip()
