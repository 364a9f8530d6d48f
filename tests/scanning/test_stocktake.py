"""Comparing a store with what was seen: every code in one class, nothing destroyed unasked."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from seedbox.season.stocktake import Stocktake, compare, write
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.quantity import left
from seedbox.tin.records import Dossier, Packet, Store
from tests.scanning.conftest import CODES

TODAY = date(2027, 2, 20)
STORES = (None, *(Store(number, f"store {number}", 10, 10) for number in (1, 2, 3)))
codes = st.text("PST0123456789", min_size=1, max_size=3)


@st.composite
def tins(draw: st.DrawFn) -> list[Dossier]:
    names = draw(st.lists(st.text("0123456789", min_size=1, max_size=2), unique=True))
    return [
        Dossier(
            Packet(number, f"P{name}", "leek"),
            draw(st.sampled_from((None, 0.0, 12.0))),
            store=draw(st.sampled_from(STORES)),
        )
        for number, name in enumerate(names)
    ]


def classes(stock: Stocktake) -> list[list[str]]:
    packets = (stock.found, stock.misplaced, stock.missing, stock.spent)
    return [*([one.packet.code for one in kind] for kind in packets),
            list(stock.strangers), list(stock.others)]  # fmt: skip


@given(tins(), st.sampled_from(STORES[1:]), st.lists(codes))
def test_every_code_is_in_exactly_one_class(
    tin: list[Dossier], store: Store, seen: list[str]
) -> None:
    stock = compare(tin, store, seen)
    told = [code for kind in classes(stock) for code in kind]
    of_store = {one.packet.code for one in tin if one.store == store}
    assert sorted(told) == sorted(set(seen) | of_store)
    found, misplaced, missing, spent, strangers, others = map(set, classes(stock))
    assert found | misplaced | strangers | others == set(seen)
    assert found | missing | spent == of_store
    assert not strangers & {one.packet.code for one in tin}


@given(tins(), st.sampled_from(STORES[1:]), st.lists(codes))
def test_order_and_repeats_of_what_was_seen_do_not_matter(
    tin: list[Dossier], store: Store, seen: list[str]
) -> None:
    once = classes(compare(tin, store, seen))
    again = classes(compare(tin, store, [*reversed(seen), *seen]))
    assert list(map(sorted, once)) == list(map(sorted, again))


def lying_in(tin: Tin, name: str) -> set[str]:
    return {one.packet.code for one in tin.dossiers() if one.store and one.store.name == name}


def test_writing_moves_what_is_here_as_one_change(tin: Tin) -> None:
    drawer = tin.store("drawer")
    before = lying_in(tin, "drawer")
    stock = compare(tin.dossiers(), drawer, [*CODES[2:9], CODES[11]])
    assert write(tin, stock, today=TODAY) == (3, 0)
    assert lying_in(tin, "drawer") == {*CODES[:9], CODES[9]}
    assert left(tin, tin.packet(CODES[0])) == 40
    assert undo(tin) == "Stocktake of drawer"
    assert lying_in(tin, "drawer") == before


def test_missing_packets_are_emptied_only_when_asked(tin: Tin) -> None:
    stock = compare(tin.dossiers(), tin.store("drawer"), CODES[2:6])
    assert [one.packet.code for one in stock.missing] == CODES[:2]
    assert [one.packet.code for one in stock.spent] == [CODES[9]]
    changes = len(tin.history())
    assert write(tin, stock, today=TODAY) == (0, 0)
    assert len(tin.history()) == changes
    assert write(tin, stock, today=TODAY, missing_are_gone=True) == (0, 2)
    assert [left(tin, tin.packet(code)) for code in CODES[:3]] == [0, 0, 40]
    undo(tin)
    assert [left(tin, tin.packet(code)) for code in CODES[:3]] == [40, 40, 40]
