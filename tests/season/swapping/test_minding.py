"""What is said of gifts that go against the reckoning; the packets are invented."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from seedbox.season.swapping.booking import Give
from seedbox.season.swapping.minding import minding
from seedbox.season.swapping.spare import Spare, spare_of
from seedbox.tin.file import Tin
from seedbox.tin.records import Origin, Treatment

TODAY = date(2027, 2, 20)
Planted = Callable[..., Tin]


def _one(tin: Tin) -> Spare:
    (one,) = spare_of(tin, TODAY)
    return one


def test_spare_seed_is_given_without_a_word(planted: Planted) -> None:
    one = _one(planted({"crop_id": "leek", "variety": "Grey Mast"}))
    assert one.portion is not None and one.portions > 0
    found = minding([one], [Give(one.code, one.portions, one.portion.seeds)])
    assert (found.remarks, found.offers) == ((), (one.offer,))


def test_one_seed_more_than_is_spare_is_said_with_its_reason(planted: Planted) -> None:
    one = _one(planted({"crop_id": "leek", "variety": "Grey Mast"}))
    assert one.seeds is not None and one.kept_back
    free = one.seeds - one.kept_back
    assert minding([one], [Give(one.code, 1, free)]).remarks == ()
    # Two gifts of one packet count together.
    (said,) = minding([one], [Give(one.code, 1, free), Give(one.code, 1, 1, "Ida")]).remarks
    assert "leek, Grey Mast: this takes 1 seed that would be kept back" in said
    assert one.why in said


def test_the_last_seed_of_what_nobody_sells(planted: Planted) -> None:
    one = _one(planted({"crop_id": "leek", "amount": 12.0, "origin": Origin.SAVED}))
    (said,) = minding([one], [Give(one.code, 1, 12)]).remarks
    assert "12 seeds" in said and "never spare" in said


def test_what_is_held_back_says_why(planted: Planted) -> None:
    one = _one(planted({"crop_id": "leek", "treatment": Treatment.DRESSED}))
    (said,) = minding([one], [Give(one.code, 1, 1)]).remarks
    assert said.endswith("Held back: it is treated seed.")


def test_spent_seed_says_so(planted: Planted) -> None:
    one = _one(planted({"crop_id": "onion", "harvest_year": 2009}))
    (said,) = minding([one], [Give(one.code, 1, 5)]).remarks
    assert "Seed like this is given to nobody" in said
    assert minding([one], [Give("P4K7QMX2", 1, 5)]).remarks == ()  # not this packet
