"""A swap list as CSV, as JSON and as words for a printed sheet."""

from __future__ import annotations

import csv
import json
from collections.abc import Mapping
from datetime import date
from io import StringIO
from pathlib import Path
from typing import Any

from seedbox.season.swapping.list_fields import OFFER, PARTED, WANT, Col
from seedbox.season.swapping.records import Germination, Offer, SwapList, Wish
from seedbox.tin.exchange.neutral import guarded
from seedbox.tin.exchange.shapes import percent_text
from seedbox.tin.wants import WORTHS
from seedbox.units import per_cent, per_cent_range

FORMAT, VERSION = "seedbox-swap-list", 1
HEADER = tuple(column.value for column in Col)


def csv_text(listed: SwapList) -> str:
    """One table (RFC 4180), an offer or a want a row. No cell runs as a formula."""
    text = StringIO()
    writer = csv.writer(text)
    noted = any(offer.note for offer in listed.offers)
    columns = [column for column in Col if noted or column is not Col.NOTE]
    writer.writerow(columns)
    for row in rows(listed):
        writer.writerow([guarded(row.get(column, "")) for column in columns])
    return text.getvalue()


def json_text(listed: SwapList) -> str:
    """One document by `swap_list.schema.json`."""
    return json.dumps(document(listed), ensure_ascii=False, indent=1) + "\n"


def schema_text() -> str:
    """The JSON Schema (draft 2020-12) that says what a list in JSON may hold."""
    return Path(__file__).with_name("swap_list.schema.json").read_text(encoding="utf-8")


def document(listed: SwapList) -> dict[str, Any]:
    """The list as JSON holds it. What is not known is null."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "grower": listed.name,
        "town": listed.town,
        "made_on": _iso(listed.made_on) or None,
        "offers": [offer_document(offer) for offer in listed.offers],
        "wants": [
            {
                "crop": wish.crop,
                "crop_id": wish.crop_id,
                "variety": wish.variety,
                "portions": wish.portions,
                "worth": wish.worth,
            }
            for wish in listed.wishes
        ],
    }


def offer_document(offer: Offer) -> dict[str, Any]:
    """One offer as JSON holds it."""
    known = offer.germination
    return {
        "code": offer.code,
        "crop": offer.crop,
        "crop_id": offer.crop_id,
        "variety": offer.variety,
        "portions": offer.portions,
        "seeds_per_portion": offer.seeds_per_portion,
        "germination": {
            "mean": known.mean,
            "low": known.low,
            "high": known.high,
            "tested_on": _iso(known.tested_on) or None,
            "tested_seeds": known.tested_seeds,
            "germinated": known.germinated,
            "printed": known.printed,
            "printed_on": _iso(known.printed_on) or None,
        },
        "harvest_year": offer.harvest_year,
        "packed_year": offer.packed_year,
        "treatment": offer.treatment.value,
        "hybrid": offer.hybrid,
        "cautions": list(offer.cautions),
        **({"note": offer.note} if offer.note else {}),
    }


def rows(listed: SwapList) -> list[Mapping[Col, str]]:
    """Every offer, then every want, as cells of text."""
    common = {Col.GROWER: listed.name, Col.TOWN: listed.town, Col.MADE_ON: _iso(listed.made_on)}
    offers = [_offer_row(offer) | common for offer in listed.offers]
    return [*offers, *(_wish_row(wish) | common for wish in listed.wishes)]


def _offer_row(offer: Offer) -> dict[Col, str]:
    known = offer.germination
    return {
        Col.WHAT: OFFER,
        Col.CODE: offer.code,
        Col.CROP: offer.crop,
        Col.CROP_ID: offer.crop_id,
        Col.VARIETY: offer.variety,
        Col.PORTIONS: str(offer.portions),
        Col.SEEDS: _text(offer.seeds_per_portion),
        Col.MEAN: percent_text(known.mean),
        Col.LOW: percent_text(known.low),
        Col.HIGH: percent_text(known.high),
        Col.TESTED_ON: _iso(known.tested_on),
        Col.TESTED_SEEDS: _text(known.tested_seeds),
        Col.GERMINATED: _text(known.germinated),
        Col.PRINTED: percent_text(known.printed),
        Col.PRINTED_ON: _iso(known.printed_on),
        Col.HARVEST: _text(offer.harvest_year),
        Col.PACKED: _text(offer.packed_year),
        Col.TREATMENT: offer.treatment.value,
        Col.HYBRID: "yes" if offer.hybrid else "no",
        Col.CAUTIONS: PARTED.join(offer.cautions),
        Col.NOTE: offer.note,
    }


def _wish_row(wish: Wish) -> dict[Col, str]:
    return {
        Col.WHAT: WANT,
        Col.CROP: wish.crop,
        Col.CROP_ID: wish.crop_id,
        Col.VARIETY: wish.variety,
        Col.PORTIONS: str(wish.portions),
        Col.WORTH: str(wish.worth),
    }


def germination_words(known: Germination) -> str:
    """`78 % (53 to 96 %), tested 2027-02-06: 9 of 20`; `untested` where nobody did."""
    share = ""
    if known.mean is not None:
        share = f"about {per_cent(known.mean)}"
        if known.low is not None and known.high is not None:
            share += f" ({per_cent_range(known.low, known.high)})"
    return ", ".join(filter(None, (share, tested_words(known))))


def tested_words(known: Germination) -> str:
    """When it was tested and with what result; a figure printed on the packet is not a test."""
    if known.tested_on is not None:
        counted = known.tested_seeds is not None and known.germinated is not None
        result = f": {known.germinated} of {known.tested_seeds}" if counted else ""
        return f"tested {known.tested_on}{result}"
    if known.printed is None:
        return "untested"
    on = f" {known.printed_on}" if known.printed_on else ""
    return f"untested, {per_cent(known.printed)} printed{on}"


def sheet_title(listed: SwapList) -> str:
    """The title of the printed sheet; whose it is only where the list says so."""
    whose = ", ".join(filter(None, (listed.name, listed.town)))
    return f"Seed to swap{f': {whose}' if whose else ''}"


def sheet_offer(offer: Offer) -> dict[str, Any]:
    """An offer as `printing.swap_page.SwapRow` takes it; a hybrid says so behind its variety."""
    hybrid = offer.hybrid and "F1" not in offer.variety
    return {
        "code": offer.code,
        "crop": offer.crop,
        "variety": f"{offer.variety} F1".strip() if hybrid else offer.variety,
        "portions": offer.portions,
        "seeds": _text(offer.seeds_per_portion),
        "germination": germination_words(offer.germination),
        "year": offer.year,
        "cautions": offer.cautions,
    }


def sheet_want(wish: Wish) -> dict[str, Any]:
    """A want as `printing.swap_page.WantRow` takes it."""
    return {
        "crop": wish.crop,
        "variety": wish.variety,
        "portions": wish.portions,
        "worth": f"worth {wish.worth} of {WORTHS[-1]}",
    }


def _text(number: int | None) -> str:
    return "" if number is None else str(number)


def _iso(day: date | None) -> str:
    return "" if day is None else day.isoformat()
