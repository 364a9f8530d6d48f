"""Booking a swap: portions leave their packets, new packets come in, all as one change."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from seedbox.errors import BadDataError
from seedbox.season.crops import CropBook
from seedbox.season.sowing.crop_facts import CropFacts
from seedbox.season.sowing.garden import own_figures_by_crop
from seedbox.season.swapping.cautions import HYBRID, passing
from seedbox.season.swapping.list_writing import germination_words
from seedbox.season.swapping.records import Germination, Offer
from seedbox.season.swapping.words import crop_key, known_id, variety_key
from seedbox.tin.codes import shown
from seedbox.tin.drafts import LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapWord
from seedbox.tin.own import add_own_crop
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.quantity import take
from seedbox.tin.records import Kind, MovementKind, Origin, Packet, Unit
from seedbox.tin.swap_choices import choice_of, set_swap_choice
from seedbox.tin.tests import record_test
from seedbox.tin.wants import change_want, remove_want

_DECIMALS, _LEAST_GRAMS = 3, 0.001  # what a kitchen's finest scales show


@dataclass(frozen=True, slots=True)
class Give:
    """So many portions of one packet go to a person."""

    code: str
    portions: int
    seeds_per_portion: int
    to: str = ""


@dataclass(frozen=True, slots=True)
class Receive:
    """So many portions of an offer come from a person."""

    offer: Offer
    portions: int
    giver: str = ""


@dataclass(frozen=True, slots=True)
class Given:
    """What left a packet: `amount` in its own unit, `left` after that (None: nobody knows)."""

    packet: Packet
    portions: int
    seeds_per_portion: int
    amount: float
    left: float | None
    to: str


@dataclass(frozen=True, slots=True)
class Booked:
    """All that one booking did."""

    given: tuple[Given, ...] = ()
    received: tuple[Packet, ...] = ()
    wants_met: tuple[str, ...] = ()


def book(
    tin: Tin,
    gives: Sequence[Give],
    receives: Sequence[Receive],
    *,
    today: date,
    store: str = "",
    mark: str = "",
) -> Booked:
    """Books it all, or nothing: one change that one undo takes back.

    `store` is where the new packets lie. `mark` tells this swap from others in notes; one that the
    tin knows already is refused. Raises BadDataError also where a packet holds too little.
    """
    if mark and is_booked(tin, mark):
        raise BadDataError(
            "This swap is booked already, so nothing was done.",
            hint="Take it back with seedbox undo before you book it again.",
        )
    book_of_names = CropBook(tin.settings(), tin.own_crops())
    with tin.change(_label(gives, receives)):
        given = tuple(_give(tin, one, today, mark) for one in gives)
        arrival = _Arrival(book_of_names, today, tin.store(store).id if store else None, mark)
        received = tuple(_receive(tin, one, arrival) for one in receives)
        met = tuple(_met_wants(tin, receives, book_of_names))
    return Booked(given, received, met)


def is_booked(tin: Tin, mark: str) -> bool:
    """Whether the tin holds what a swap with this mark brought or took."""
    told = _told(mark)
    notes = [movement.note for movement in tin.movements()]
    return any(told in note for note in (*notes, *(packet.note for packet in tin.packets())))


def amount_of(tin: Tin, packet: Packet, seeds: int) -> float:
    """So many seeds in the unit of a packet, fine seed at least a milligram.

    Raises BadDataError where nobody knows the weight.
    """
    if packet.unit is not Unit.GRAMS:
        return float(seeds)
    grams = CropFacts(own_figures_by_crop(tin)).grams(packet.crop_id, seeds)
    if grams is None:
        raise BadDataError(
            f"{shown(packet.code)} is kept in grams, and nobody knows what a seed of it weighs.",
            hint="Weigh 100 seeds and say so: seedbox crop NAME --set thousand_seed_weight_g=GRAMS",
        )
    return max(round(grams, _DECIMALS), _LEAST_GRAMS)


def _give(tin: Tin, one: Give, today: date, mark: str) -> Given:
    packet = tin.packet(one.code)
    if packet.kind is Kind.STOCK:
        raise BadDataError(
            f"{shown(packet.code)} is planting stock: take pieces out with seedbox take --given."
        )
    amount = amount_of(tin, packet, one.portions * one.seeds_per_portion)
    to = f" to {one.to}" if one.to else ""
    note = f"{_told(mark)}: {_portions(one.portions)}{to}"
    take(tin, packet, amount, MovementKind.GIVEN, today=today, note=note)
    _lower_choice(tin, packet, one.portions)
    after = tin.dossier(packet.code)
    return Given(after.packet, one.portions, one.seeds_per_portion, amount, after.left, one.to)


def _lower_choice(tin: Tin, packet: Packet, portions: int) -> None:
    """“At most three” is less by what was given of them."""
    choice = choice_of(tin, packet)
    if choice is None or not choice.portions:
        return
    left = choice.portions - portions
    if left > 0:
        set_swap_choice(tin, packet, SwapWord.OFFER, portions=left)
    else:
        set_swap_choice(tin, packet, SwapWord.KEEP)


@dataclass(frozen=True, slots=True)
class _Arrival:
    """What all that comes in shares."""

    book: CropBook
    today: date
    store_id: int | None
    mark: str


def _receive(tin: Tin, one: Receive, arrival: _Arrival) -> Packet:
    offer, known, today = one.offer, one.offer.germination, arrival.today
    seeds = None if offer.seeds_per_portion is None else one.portions * offer.seeds_per_portion
    draft = PacketDraft(
        _crop_id(tin, offer, arrival.book),
        offer.variety,
        origin=Origin.SWAPPED,
        source=one.giver,
        harvest_year=offer.harvest_year,
        packed_year=_packed_year(offer),
        treatment=offer.treatment,
        printed_germination=known.printed,
        printed_on=_printed_on(known, today),
        unit=None if seeds is None else Unit.SEEDS,
        amount=seeds,
        received_on=today,
        store_id=arrival.store_id,
    )
    draft = replace(draft, note=_note(draft, one, arrival))
    packet = add_packet(tin, draft, today=today)
    if known.tested_on and known.tested_seeds and known.germinated is not None:
        record_test(
            tin,
            packet,
            min(known.tested_on, today),
            known.tested_seeds,
            known.germinated,
            today=today,
            take_from_packet=False,
            reported_by=one.giver or "whoever gave it",
        )
    return packet


def _packed_year(offer: Offer) -> int | None:
    """Not before its harvest: another person's list may contradict itself."""
    if offer.harvest_year is None or offer.packed_year is None:
        return offer.packed_year
    return offer.packed_year if offer.packed_year >= offer.harvest_year else None


def _printed_on(known: Germination, today: date) -> date | None:
    """The day of a printed figure; where it came from it may be tomorrow already."""
    if known.printed is None or known.printed_on is None:
        return None
    return min(known.printed_on, today)


def _crop_id(tin: Tin, offer: Offer, book: CropBook) -> str:
    """The crop here: the almanac's, one of the person's own of that name, else a new one."""
    known = known_id(offer.crop_id) or book.answer(offer.crop).crop_id
    if known:
        return known
    wanted = crop_key(offer.crop, "")
    own = next((one for one in tin.own_crops() if crop_key(one.name, "") == wanted), None)
    return own.id if own else add_own_crop(tin, offer.crop).id


def _note(draft: PacketDraft, one: Receive, arrival: _Arrival) -> str:
    """Which swap, what its giver expects of it, and cautions that its crop does not tell."""
    bare = Packet(0, "", draft.crop_id, draft.variety, treatment=draft.treatment)
    told_anyway = passing(bare, one.offer.crop, "other").cautions
    said = [f"{_told(arrival.mark)}."]
    if one.offer.germination.mean is not None:
        said.append(f"Germination as told: {germination_words(one.offer.germination)}.")
    if one.offer.hybrid:
        said.append(HYBRID)
    said += [caution for caution in one.offer.cautions if caution not in told_anyway]
    if one.offer.note:
        said.append(f"Note of {one.giver or 'whoever gave it'}: {one.offer.note}")
    return "\n".join(dict.fromkeys(said))[:LONGEST_NOTE].rstrip()


def _met_wants(tin: Tin, receives: Iterable[Receive], book: CropBook) -> Iterable[str]:
    """Wants go down by what came; those of the variety before those of any."""
    for one in receives:
        left = one.portions
        for want in sorted(tin.wants(), key=lambda want: not want.variety):
            same_crop = crop_key(book.name(want.crop_id), known_id(want.crop_id)) == crop_key(
                one.offer.crop, known_id(one.offer.crop_id)
            )
            same = not want.variety or variety_key(want.variety) == variety_key(one.offer.variety)
            if not (left and same_crop and same):
                continue
            used = min(left, want.portions)
            left -= used
            if used == want.portions:
                remove_want(tin, want.id)
                yield f"{book.name(want.crop_id)} {want.variety}".strip()
            else:
                change_want(tin, want.id, portions=want.portions - used)


def _told(mark: str) -> str:
    return f"Swap {mark}" if mark else "Swap"


def _label(gives: Sequence[Give], receives: Sequence[Receive]) -> str:
    parts = []
    if gives:
        parts.append(f"{_portions(sum(one.portions for one in gives))} given")
    if receives:
        parts.append(f"{_portions(sum(one.portions for one in receives))} received")
    return f"Swap: {', '.join(parts) or 'nothing'}"


def _portions(count: int) -> str:
    return f"{count} portion{'' if count == 1 else 's'}"
