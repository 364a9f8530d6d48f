"""`edit`: what is written down about a packet is put right."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_book
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.packet_options import fields_of, packet_options
from seedbox.cli.params import WORDS, Choice
from seedbox.cli.session import Session
from seedbox.errors import UsageError
from seedbox.tin.records import Kind, Packet, Treatment

_CLEARED: dict[str, tuple[str, Any]] = {
    "variety": ("variety", ""),
    "harvest": ("harvest_year", None),
    "packed": ("packed_year", None),
    "bought": ("bought_year", None),
    "sow by": ("sow_by", None),
    "origin": ("origin", None),
    "from": ("source", ""),
    "treated": ("treatment", Treatment.NONE),
    "germination": ("printed_germination", None),
    "tested on": ("printed_on", None),
    "ean": ("ean", ""),
    "note": ("note", ""),
    "tags": ("tags", ()),
    "parent": ("parent_id", None),
    "received": ("received_on", None),
}


@seedbox_command("edit")
@code_argument(completing.codes)
@click.option("--crop", type=WORDS, help="Another crop, by any of its names.")
@click.option("--variety", type=WORDS, help="Another variety name.")
@packet_options
@click.option("--untag", type=WORDS, multiple=True, help="Take a tag off; may be repeated.")
@click.option("--stock/--seed", default=None, help="Planting stock, or true seed.")
@click.option(
    "--clear",
    type=Choice("field", tuple(_CLEARED)),
    multiple=True,
    help="Forget a field: " + ", ".join(_CLEARED).replace(" ", "-").replace(",-", ", ") + ".",
)
@json_option
@click.pass_obj
def command(session: Session, /, code: str, as_json: bool, **given: Any) -> None:
    """Put right what is written down about the packet CODE.

    The quantity has commands of its own (take, recount), and so has the store (move).
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.packets import edit_packet

    with session.tin() as tin:
        before = tin.packet(code)
        wanted = fields_of(tin, given) | _more(before, given)
        if given["crop"]:
            wanted["crop_id"] = crop_book(tin).crop_id(given["crop"])
        if not wanted:
            raise UsageError("Say what to change.", hint="Read more with: seedbox edit --help")
        after = edit_packet(tin, code, today=session.today, **wanted)
    names = _differing(before, after)
    if names:
        said = f"{shown(after.code)}: {', '.join(names)} changed."
        changed(said, as_json=as_json, code=after.code, changed=names)
    elif as_json:
        say_json({"done": "Nothing was different.", "code": after.code, "changed": []})
    else:
        say("Nothing was different, so nothing was changed.")


def _more(before: Packet, given: dict[str, Any]) -> dict[str, Any]:
    """Fields that only an edit can touch, and tags put beside the old ones."""
    wanted = dict(_CLEARED[name] for name in given["clear"])
    if given["variety"] is not None:
        wanted["variety"] = given["variety"]
    if given["stock"] is not None:
        wanted["kind"] = Kind.STOCK if given["stock"] else Kind.SEED
    if given["tags"] or given["untag"]:
        gone = {tag.casefold() for tag in given["untag"]}
        kept = [tag for tag in before.tags if tag.casefold() not in gone]
        wanted["tags"] = (*kept, *given["tags"])
    return wanted


def _differing(before: Packet, after: Packet) -> list[str]:
    return [
        field.name.removesuffix("_id").replace("_", " ")
        for field in fields(Packet)
        if getattr(before, field.name) != getattr(after, field.name)
    ]
