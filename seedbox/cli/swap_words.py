"""Words that the commands of the swap share: offers, cautions by law, what is said at the end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from seedbox.cli.tables import Column, wrapped
from seedbox.cli.words import count, germination
from seedbox.tin.codes import looks_like_code, shown

if TYPE_CHECKING:
    from seedbox.season.swapping.records import Germination, Offer
    from seedbox.season.swapping.spare import Spare

OFFER_COLUMNS = (
    Column("code"),
    Column("crop", least=6),
    Column("variety", least=7),
    Column("portions", right=True),
    Column("seeds each", right=True),
    Column("germination"),
    Column("known by", least=6),
    Column("year", least=4),
)


def offer_row(offer: Offer) -> tuple[str, ...]:
    """One offer in a table; a hybrid says so behind its variety."""
    from seedbox.season.swapping.list_writing import tested_words

    known = offer.germination
    return (
        shown_code(offer.code),
        offer.crop,
        f"{offer.variety} (F1)" if offer.hybrid and "F1" not in offer.variety else offer.variety,
        str(offer.portions),
        "" if offer.seeds_per_portion is None else str(offer.seeds_per_portion),
        germination(known.mean, known.low, known.high),
        tested_words(known),
        offer.year,
    )


def shown_code(code: str) -> str:
    """A code of ours as it is printed; another person's number as it is."""
    return shown(code) if looks_like_code(code) else code


def caution_lines(offers: Iterable[Offer]) -> Iterator[str]:
    """Cautions that go with offered seed, each said once with what it concerns."""
    concerned: dict[str, list[str]] = {}
    for offer in offers:
        for caution in offer.cautions:
            named = f"{offer.crop} {offer.variety}".strip()
            concerned.setdefault(caution, []).append(named)
    if concerned:
        yield ""
        yield "Cautions that go with the seed"
    for caution, names in concerned.items():
        who = ", ".join(dict.fromkeys(names))
        yield from wrapped(f"{who}: {caution}", "  - ", "    ")


def note_lines(offers: Iterable[Offer]) -> Iterator[str]:
    """What the owners of offered seed wrote down about it, where they let it out."""
    noted = [offer for offer in offers if offer.note]
    if noted:
        yield ""
        yield "Notes of those who give it"
    for offer in noted:
        said = " ".join(f"{offer.crop} {offer.variety}".split())
        yield from wrapped(f"{said}: {' '.join(offer.note.split())}", "  - ", "    ")


def law_lines(law: str) -> Iterator[str]:
    """What the law may ask; never advice."""
    from seedbox.season.swapping.cautions import law_cautions

    yield ""
    yield "Before you pass seed on"
    for caution in law_cautions(law):
        yield from wrapped(caution, "  - ", "    ")


def spare_facts(one: Spare) -> dict[str, Any]:
    """One packet for programs. Shares are fractions of 1, `kept_back` is in seeds."""
    offer = one.offer
    return {
        "code": offer.code,
        "crop": offer.crop,
        "variety": offer.variety,
        "portions": offer.portions,
        "seeds_per_portion": offer.seeds_per_portion,
        "germination": germination_facts(offer.germination),
        "cautions": offer.cautions,
        "kept_back": one.kept_back,
        "why": one.why,
    }


def germination_facts(known: Germination) -> dict[str, float | None]:
    """Mean, low and high as fractions."""
    return {"mean": known.mean, "low": known.low, "high": known.high}


def portions(number: int) -> str:
    """`2 portions`."""
    return count(number, "portion")
