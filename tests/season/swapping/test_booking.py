"""Booking: portions leave, packets come, all of it in one change that is made only once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.booking import Give, Receive, amount_of, book
from seedbox.season.swapping.explaining import told as told_to
from seedbox.season.swapping.portion_labels import portion_labels
from seedbox.season.swapping.proposal_file import (
    my_part,
    proposal_text,
    read_proposal,
)
from seedbox.season.swapping.records import (
    Balance,
    Germination,
    Offer,
    Proposal,
    Return,
    Transfer,
    Wish,
)
from seedbox.tin.drafts import LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.list_records import SwapWord
from seedbox.tin.preferences import Settings
from seedbox.tin.records import MovementKind, Origin, Treatment, Unit
from seedbox.tin.swap_choices import choice_of, set_swap_choice
from seedbox.tin.wants import add_want

TODAY = date(2027, 2, 20)
Planted = Callable[..., Tin]
OFFER = Offer(
    code="P1G1D22F",
    crop="courgette",
    crop_id="courgette",
    variety="Striped Awning",
    portions=3,
    seeds_per_portion=12,
    germination=Germination(
        0.86, 0.6, 0.98, date(2027, 1, 30), 25, 22, printed=0.9, printed_on=date(2025, 8, 1)
    ),
    harvest_year=2025,
    treatment=Treatment.PELLETED,
    cautions=("Use it up this season.",),
)


def _proposal(tin: Tin, portions: int = 2) -> Proposal:
    mine = tin.packets()[0]
    leek = Offer(mine.code, "leek", "leek", mine.variety, 4, 40)
    return Proposal(
        names=("Maud", "Iestyn"),
        transfers=(
            Transfer(0, 1, leek, Wish("leek", "leek", "", 2, 3), portions, 3.0 * portions),
            Transfer(1, 0, OFFER, Wish("courgette", "courgette", "", 2, 4), 2, 8.0, "because"),
        ),
        balances=(Balance("Maud", portions, 2, 8, 8), Balance("Iestyn", 2, portions, 6, 6)),
        worth=14,
        bound=14,
        method="by hand",
        tolerance=1,
        made_on=TODAY,
    )


def test_all_of_it_is_one_change_that_one_undo_takes_back(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "amount": 200.0})
    add_want(tin, "courgette", portions=3)
    before = (tin.packets(), tin.movements(), tin.wants(), tin.tests())
    changes = len(tin.history())
    part = my_part(_proposal(tin), 0)
    done = book(tin, part.gives, part.receives, today=TODAY, store="jar", mark=part.mark)
    assert [(one.portions, one.amount, one.left) for one in done.given] == [(2, 80.0, 120.0)]
    (packet,) = done.received
    assert (packet.crop_id, packet.variety) == ("courgette", "Striped Awning")
    assert (packet.origin, packet.source, packet.parent_id) == (Origin.SWAPPED, "Iestyn", None)
    assert (packet.harvest_year, packet.treatment) == (2025, Treatment.PELLETED)
    assert (packet.printed_germination, packet.printed_on) == (0.9, date(2025, 8, 1))
    dossier = tin.dossier(packet.code)
    assert (dossier.left, packet.unit) == (24, Unit.SEEDS)
    assert dossier.store is not None and dossier.store.name == "Jar"
    assert [want.portions for want in tin.wants()] == [1]
    assert len(tin.history()) == changes + 1
    undo(tin)
    assert (tin.packets(), tin.movements(), tin.wants(), tin.tests()) == before


def test_what_left_is_written_down_as_given_to_whom(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "amount": 200.0})
    part = my_part(_proposal(tin), 0)
    book(tin, part.gives, part.receives, today=TODAY, mark=part.mark)
    last = tin.movements(tin.packets()[0].id)[-1]
    assert (last.kind, last.amount) == (MovementKind.GIVEN, 80)
    assert last.note == f"Swap {part.mark}: 2 portions to Iestyn"


def test_their_test_counts_and_says_whose_it_was(planted: Planted) -> None:
    tin = planted({"crop_id": "leek"})
    done = book(tin, (), (Receive(OFFER, 1, "Iestyn"),), today=TODAY)
    (test,) = tin.tests(done.received[0].id)
    assert (test.on, test.seeds, test.germinated) == (date(2027, 1, 30), 25, 22)
    assert test.reported_by == "Iestyn"
    assert tin.dossier(done.received[0].code).left == 12  # their seed, not ours
    assert "as told" in done.received[0].note


def test_a_note_that_came_with_the_seed_is_kept_with_it(planted: Planted) -> None:
    tin = planted({"crop_id": "leek"})
    noted = replace(OFFER, note="Likes a wall.\nSow late.")
    done = book(tin, (), (Receive(noted, 1, "Iestyn"), Receive(OFFER, 1)), today=TODAY)
    assert done.received[0].note.endswith("Note of Iestyn: Likes a wall.\nSow late.")
    assert "Note of" not in done.received[1].note
    long = replace(OFFER, note="x" * LONGEST_NOTE)  # what finds no room is cut, and it is booked
    (packet,) = book(tin, (), (Receive(long, 1),), today=TODAY).received
    assert len(packet.note) == LONGEST_NOTE and "as told" in packet.note


def test_the_same_swap_is_booked_only_once_and_again_after_undo(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "amount": 200.0})
    part = my_part(_proposal(tin), 0)
    book(tin, part.gives, part.receives, today=TODAY, mark=part.mark)
    after = tin.movements()
    with pytest.raises(BadDataError, match="booked already"):
        book(tin, part.gives, part.receives, today=TODAY, mark=part.mark)
    assert tin.movements() == after
    undo(tin)
    book(tin, part.gives, part.receives, today=TODAY, mark=part.mark)
    other = my_part(_proposal(tin, portions=1), 0)
    assert other.mark != part.mark
    book(tin, other.gives, (), today=TODAY, mark=other.mark)


def test_too_little_in_the_packet_refuses_all_of_it(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "amount": 70.0})
    before = (tin.packets(), tin.movements())
    part = my_part(_proposal(tin), 0)
    with pytest.raises(BadDataError, match="has only 70 seeds left"):
        book(tin, part.gives, part.receives, today=TODAY, mark=part.mark)
    assert (tin.packets(), tin.movements()) == before


def test_a_packet_in_grams_gives_by_weight(planted: Planted) -> None:
    tin = planted({"crop_id": "pea_garden", "amount": 100.0, "unit": Unit.GRAMS})
    packet = tin.packets()[0]
    done = book(tin, (Give(packet.code, 2, 30, "Maud"),), (), today=TODAY)
    assert done.given[0].amount == amount_of(tin, packet, 60)
    assert done.given[0].left == pytest.approx(100 - done.given[0].amount)
    unweighed = planted({"crop_id": "thyme", "amount": 5.0, "unit": Unit.GRAMS})
    with pytest.raises(BadDataError, match="nobody knows what a seed of it weighs"):
        book(unweighed, (Give(unweighed.packets()[0].code, 1, 30),), (), today=TODAY)


def test_a_few_fine_seeds_still_leave_the_packet(planted: Planted) -> None:
    """Foxglove has about ten seeds to a milligram: five of them are not nothing."""
    tin = planted({"crop_id": "foxglove", "amount": 0.3, "unit": Unit.GRAMS})
    (packet,) = tin.packets()
    (given,) = book(tin, [Give(packet.code, 1, 5, "Ida")], (), today=TODAY).given
    assert (given.amount, given.left) == (0.001, 0.299)


def test_a_crop_that_nobody_knows_becomes_one_of_ones_own_once(planted: Planted) -> None:
    tin = planted({"crop_id": "leek"})
    kale = replace(OFFER, crop="Sea kale", crop_id="", germination=Germination())
    done = book(tin, (), (Receive(kale, 1, "Maud"), Receive(kale, 1, "Ida")), today=TODAY)
    assert len({packet.crop_id for packet in done.received}) == 1
    assert [crop.name for crop in tin.own_crops()] == ["Sea kale"]
    assert not tin.tests(done.received[0].id)


def test_uncounted_seed_stays_uncounted(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "amount": None, "unit": None})
    unknown = replace(OFFER, seeds_per_portion=None)
    gift = Give(tin.packets()[0].code, 1, 40, "Ida")
    done = book(tin, (gift,), (Receive(unknown, 2),), today=TODAY)
    assert done.given[0].left is None
    assert tin.dossier(done.received[0].code).left is None


def test_at_most_three_is_less_after_two_were_given(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "amount": 500.0})
    packet = tin.packets()[0]
    set_swap_choice(tin, packet, SwapWord.OFFER, portions=3)
    book(tin, (Give(packet.code, 2, 40),), (), today=TODAY)
    choice = choice_of(tin, packet)
    assert choice is not None and choice.portions == 1
    book(tin, (Give(packet.code, 1, 40),), (), today=TODAY)
    choice = choice_of(tin, packet)
    assert choice is not None and choice.choice is SwapWord.KEEP


def test_wants_of_the_variety_go_before_wants_of_any(planted: Planted) -> None:
    tin = planted({"crop_id": "leek"})
    add_want(tin, "courgette", portions=2)
    add_want(tin, "courgette", variety="striped awning", portions=1)
    done = book(tin, (), (Receive(OFFER, 2),), today=TODAY)
    assert done.wants_met == ("courgette striped awning",)
    assert [(want.variety, want.portions) for want in tin.wants()] == [("", 1)]


def test_a_proposal_comes_back_from_its_file(planted: Planted, tmp_path: Path) -> None:
    proposal = _proposal(planted({"crop_id": "leek", "variety": "Grey Mast"}))
    path = tmp_path / "swap.json"
    path.write_text(proposal_text(proposal, 0), encoding="utf-8")
    assert read_proposal(path, CropBook(Settings()), TODAY) == (proposal, 0)
    # A reason by names is told to whoever reads it; a file of before keeps the words it has.
    back = (Return(1, ("courgette Striped Awning",)),)
    known = replace(proposal.transfers[0], returns=back, why="Maud gives leek")
    path.write_text(
        proposal_text(replace(proposal, transfers=(known, proposal.transfers[1])), 0),
        encoding="utf-8",
    )
    first, second = read_proposal(path, CropBook(Settings()), TODAY)[0].transfers
    names = proposal.names
    assert (first, second) == (known, proposal.transfers[1])
    assert told_to(first, names, 1).startswith(
        "Maud gives leek Grey Mast to you and gets courgette"
    )
    assert told_to(first, names, 0).startswith(
        "You give leek Grey Mast to Iestyn and get courgette"
    )
    assert told_to(second, names, 0) == told_to(second, names, 1) == "because"
    assert my_part(proposal, 0).mark != my_part(proposal, None, "iestyn").mark
    assert my_part(proposal, 0, "IESTYN").receives[0].giver == "Maud"
    with pytest.raises(NotFoundError, match="which of the people"):
        my_part(proposal, None)
    with pytest.raises(NotFoundError, match="Nobody in the proposal"):
        my_part(proposal, 0, "Ida")


def test_who_did_not_say_who_they_are_is_no_source(planted: Planted) -> None:
    """“you” is the keeper of the proposal alone; to the others it is nobody's name."""
    tin = planted({"crop_id": "leek", "amount": 200.0})
    shared = replace(_proposal(tin), names=("you", "Iestyn"))
    assert [one.giver for one in my_part(shared, 0).receives] == ["Iestyn"]
    theirs = my_part(shared, 0, "Iestyn")
    assert [one.giver for one in theirs.receives] == [""]
    assert [one.to for one in theirs.gives] == [""]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"people"', '"folk"', "it has no “people”"),
        ('"to": "Iestyn"', '"to": "Ida"', "names somebody who is not among"),
        ('"portions": 2,', '"portions": -2,', "has no number of portions"),
        ('"tolerance": 1', '"tolerance": "1"', "“1” is no number"),
        ('"made_on": "2027-02-20"', '"made_on": "soon"', "no whole proposal"),
        ('"seeds_per_portion": 40', '"seeds_per_portion": "many"', "no whole number of seeds"),
        ('"Maud",', '"Iestyn",', "two people have the same name"),
        ('"version": 1', '"version": 9', "newer Seedbox"),
        ('"returns": null', '"returns": 5', "of another kind"),
        ('"returns": null', '"returns": [{"from": "Ida", "kinds": []}]', "not among the people"),
        ('"transfers": [', '"transfers": 5, "more": [', "is no list"),
        ('"transfers": [', '"transfers": [7, ', "of another kind"),
        ('"people": [', '"people": 5, "folk": [', "of another kind"),
        ("{", "", "is no JSON"),
    ],
)
def test_a_file_that_is_no_proposal_is_refused_with_a_sentence(
    planted: Planted, tmp_path: Path, old: str, new: str, words: str
) -> None:
    text = proposal_text(_proposal(planted({"crop_id": "leek"})), 0)
    assert old in text
    path = tmp_path / "swap.json"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadDataError) as told:
        read_proposal(path, CropBook(Settings()), TODAY)
    assert words in told.value.sentence


@pytest.mark.parametrize(
    ("bare", "words"),
    [
        ({"code": ""}, "your list had no code"),
        ({"seeds_per_portion": None}, "how many seeds a portion of leek"),
    ],
)
def test_what_a_proposal_does_not_say_is_given_by_hand(
    planted: Planted, bare: dict[str, None], words: str
) -> None:
    whole = _proposal(planted({"crop_id": "leek"}))
    first = replace(whole.transfers[0], offer=replace(whole.transfers[0].offer, **bare))
    with pytest.raises(BadDataError) as told:
        my_part(replace(whole, transfers=(first, *whole.transfers[1:])), 0)
    assert words in told.value.sentence and "seedbox swap give" in told.value.hint


def test_each_portion_gets_a_label_with_its_own_seeds(planted: Planted) -> None:
    tin = planted({"crop_id": "cabbage", "variety": "Slate", "note": "F1", "amount": 300.0})
    done = book(tin, (Give(tin.packets()[0].code, 3, 60, "Ida"),), (), today=TODAY)
    labels = portion_labels(tin, done.given, TODAY)
    assert len(labels) == 3 and len({code for code, _ in labels}) == 1
    fields = labels[0][1]
    assert fields["left"] == "60 seeds"
    assert fields["variety"] == "Slate F1 hybrid"
