"""The form for a new packet and for changing one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from seedbox.errors import NotFoundError
from seedbox.season.crops import CropBook
from seedbox.tin.codes import shown
from seedbox.tin.drafts import PacketDraft, check_draft, cleaned
from seedbox.tin.file import Tin
from seedbox.tin.own import add_own_crop
from seedbox.tin.packets import add_packet, edit_packet
from seedbox.tin.records import Kind, Origin, Packet, Store, Treatment
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

NOT_SAID = "not said"
OWN_CROP = "keep as a crop of my own"
KNOWN_CROP = "one that Seedbox knows"
NEW_LINE = " / "
ADVICE = "Only the crop is needed; leave what you do not know. Enter or Tab goes on."
_FIELD_OF_PROBLEM = {"crop_id": "crop", "store_id": "store"}


def add_plan(desk: Desk, added: Callable[[str], None]) -> FormPlan:
    """A form for a new packet; `added` is told its code."""
    tin = desk.tin(create=True)
    book = CropBook(tin.settings(), tin.own_crops())
    stores = tin.stores()

    def save(values: Values) -> str:
        packet = desk.change(lambda tin: _add(tin, values, stores, desk.today))
        added(packet.code)
        name = CropBook(tin.settings(), tin.own_crops()).name(packet.crop_id)
        what = " ".join(part for part in (name, packet.variety) if part)
        return f"Added {what}, code {shown(packet.code)}. u takes it back."

    return FormPlan(
        title="Add a packet",
        fields=[*_head_fields(book), *_amount_fields(stores), *_tail_fields()],
        save=save,
        initial={"origin": NOT_SAID, "store": stores[0].name if len(stores) == 1 else NOT_SAID},
        draft_key="add",
        advice=ADVICE,
    )


def edit_plan(desk: Desk, packet: Packet) -> FormPlan:
    """A form over what is known of a packet. Its quantity and store have actions of their own."""
    tin = desk.tin()
    book = CropBook(tin.settings(), tin.own_crops())

    def save(values: Values) -> str:
        desk.change(lambda tin: _edit(tin, packet, values, desk.today))
        return f"Changed {shown(packet.code)}. u takes it back."

    return FormPlan(
        title=f"Change packet {shown(packet.code)}",
        fields=[*_head_fields(book), *_tail_fields()],
        save=save,
        initial=values_of(packet, book),
        draft_key=f"edit {packet.code}",
        advice="Quantity and store are changed with t, r and m. Ctrl+S saves.",
    )


def values_of(packet: Packet, book: CropBook) -> Values:
    """A packet as the texts of the form."""
    printed = packet.printed_germination
    return {
        "crop": book.name(packet.crop_id),
        "own": KNOWN_CROP,
        "variety": packet.variety,
        "harvest_year": _text(packet.harvest_year),
        "packed_year": _text(packet.packed_year),
        "bought_year": _text(packet.bought_year),
        "sow_by": _text(packet.sow_by),
        "origin": packet.origin or NOT_SAID,
        "source": packet.source,
        "treatment": packet.treatment,
        "printed_germination": "" if printed is None else f"{printed * 100:g} %",
        "printed_on": _text(packet.printed_on),
        "kind": packet.kind,
        "ean": packet.ean,
        "tags": ", ".join(packet.tags),
        "note": packet.note.replace("\n", NEW_LINE),
    }


def _text(value: object) -> str:
    return "" if value is None else str(value)


def _head_fields(book: CropBook) -> list[Field]:
    def names(typed: str) -> list[tuple[str, str]]:
        offers = []
        for name, crop_id in book.complete(typed, 8):
            usual = book.name(crop_id)
            offers.append((name, "" if name == usual else usual))
        return offers

    return [
        Field(
            "crop",
            "Crop",
            "Any common name, British or American: aubergine, eggplant.",
            suggest=names,
        ),
        Field(
            "own",
            "If unknown",
            "For a crop that no name fits. Left and right arrows choose.",
            (KNOWN_CROP, OWN_CROP),
        ),
        Field("variety", "Variety", "As written on the packet."),
        Field(
            "harvest_year",
            "Harvested",
            "The year it was harvested. The forecast uses the best of these four.",
        ),
        Field("packed_year", "Packed", "The year it was packed."),
        Field("bought_year", "Bought", "The year you bought it or were given it."),
        Field("sow_by", "Sow by", "The date on the packet: 2027, 12/2027 or 2027-12-31."),
    ]


def _amount_fields(stores: list[Store]) -> list[Field]:
    names = (NOT_SAID, *(store.name for store in stores))
    hint = "Left and right arrows choose." if stores else "No store yet: S on the list adds one."
    return [
        Field("amount", "How much", "40, or 2.5 g. Leave it empty when you have not counted."),
        Field("store", "Store", hint, names),
    ]


def _tail_fields() -> list[Field]:
    return [
        Field(
            "origin",
            "Origin",
            "Left and right arrows, or a first letter.",
            (NOT_SAID, *(origin.value for origin in Origin)),
        ),
        Field("source", "From", "The firm, friend or garden it came from."),
        Field(
            "treatment",
            "Treatment",
            "Dressed: with a chemical. Pelleted: in clay. Primed: pre-soaked.",
            tuple(treatment.value for treatment in Treatment),
        ),
        Field("printed_germination", "Printed %", "Germination printed on the packet: 85 or 85 %."),
        Field("printed_on", "Tested on", "When that was tested: 2025-03 or 2025-03-20."),
        Field(
            "kind",
            "Kind",
            "Sets, cloves and tubers are planting stock: no forecast, a shelf date.",
            tuple(k.value for k in Kind),
        ),
        Field("ean", "Bar code", "The trade number under the bars: 13, 12 or 8 digits."),
        Field("tags", "Tags", "Words of your own, with commas between."),
        Field("note", "Note", f"Anything. {NEW_LINE.strip()} between spaces starts a new line."),
    ]


def _add(tin: Tin, values: Values, stores: list[Store], today: date) -> Packet:
    reader = FieldReader(values, today)
    amount = reader.amount("amount")
    crop_id, new_name = crop_of(tin, values, reader)
    draft = PacketDraft(crop_id or "own:unknown", **fields_of(values, reader))
    store = next((s for s in stores if s.name == values.get("store")), None)
    draft = replace(
        draft, amount=amount.value, unit=amount.unit, store_id=store.id if store else None
    )
    _finish(reader, draft, today)
    if not new_name:
        return add_packet(tin, draft, today=today)
    with tin.change(f"Add {new_name} {draft.variety}".rstrip()):
        own = add_own_crop(tin, new_name)
        return add_packet(tin, replace(draft, crop_id=own.id), today=today)


def _edit(tin: Tin, packet: Packet, values: Values, today: date) -> None:
    reader = FieldReader(values, today)
    crop_id, new_name = crop_of(tin, values, reader)
    fields = fields_of(values, reader)
    if values.get("note") == packet.note.replace("\n", NEW_LINE):
        fields["note"] = packet.note
    _finish(reader, PacketDraft(crop_id or packet.crop_id, **fields), today)
    with tin.change(f"Edit {shown(packet.code)}"):
        if new_name:
            crop_id = add_own_crop(tin, new_name).id
        edit_packet(tin, packet.code, today=today, crop_id=crop_id, **fields)


def fields_of(values: Mapping[str, str], reader: FieldReader) -> dict[str, Any]:
    """The fields of a packet that both forms ask for; faults go to the reader."""
    origin = values.get("origin", NOT_SAID)
    return {
        "variety": reader.text("variety"),
        "kind": Kind(values.get("kind") or Kind.SEED),
        "origin": None if origin in ("", NOT_SAID) else Origin(origin),
        "source": reader.text("source"),
        "harvest_year": reader.year("harvest_year"),
        "packed_year": reader.year("packed_year"),
        "bought_year": reader.year("bought_year"),
        "sow_by": reader.last_day("sow_by"),
        "printed_germination": reader.share("printed_germination"),
        "printed_on": reader.day("printed_on"),
        "treatment": Treatment(values.get("treatment") or Treatment.NONE),
        "ean": reader.text("ean"),
        "note": reader.text("note").replace(NEW_LINE, "\n"),
        "tags": tuple(part.strip() for part in reader.text("tags").split(",") if part.strip()),
    }


def crop_of(tin: Tin, values: Mapping[str, str], reader: FieldReader) -> tuple[str, str]:
    """Id of the crop named, or the name of a crop that is to be kept as one's own."""
    name = reader.text("crop")
    if not name:
        reader.fault("crop", "Say which crop it is: type the first letters and choose.")
        return "", ""
    book = CropBook(tin.settings(), tin.own_crops())
    try:
        return book.crop_id(name), ""
    except NotFoundError as error:
        if values.get("own") == OWN_CROP and not book.answer(name).clashes:
            return "", name
        way_out = "" if "several" in error.sentence else " Or keep it as your own, one line below."
        sentence = f"{error.sentence} {error.hint}{way_out}".replace("  ", " ")
        reader.fault("crop", sentence)
        return "", ""


def _finish(reader: FieldReader, draft: PacketDraft, today: date) -> None:
    for problem in check_draft(cleaned(draft), today):
        reader.fault(_FIELD_OF_PROBLEM.get(problem.field, problem.field), problem.sentence)
    reader.finish()
