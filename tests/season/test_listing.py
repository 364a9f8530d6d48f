"""The tin as lines: words, filters, order. Figures of the forecast are tested on their own."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from seedbox.errors import NotFoundError
from seedbox.season.listing import Filter, Listing, PacketLine, Sort, keep, ordered
from seedbox.tin.file import Tin
from seedbox.tin.packets import edit_packet


@pytest.fixture
def listing(stocked: Tin, today: date) -> Listing:
    return Listing(stocked, today)


def _line(listing: Listing, variety: str) -> PacketLine:
    (line,) = (line for line in listing.lines if line.packet.variety == variety)
    return line


def _varieties(lines: list[PacketLine]) -> list[str]:
    return [line.packet.variety for line in lines]


def test_a_line_says_what_is_left_and_how_old_it_is(listing: Listing) -> None:
    tomato, parsnip, pea, bean = (
        _line(listing, name) for name in ("Früher Zwerg", "Tollgate Long", "Dray Horse", "Old Weir")
    )
    assert [line.left for line in (tomato, parsnip, pea, bean)] == [
        "40 seeds",
        "2.5 g",
        "not counted",
        "none left",
    ]
    assert [line.year for line in (tomato, pea)] == ["2026", "packed 2026"]
    assert tomato.store == "kitchen drawer"


def test_an_empty_packet_shows_only_when_asked_for(listing: Listing) -> None:
    bean = _line(listing, "Old Weir")
    assert bean not in keep(listing.lines, Filter())
    assert bean in keep(listing.lines, Filter(with_empty=True))
    assert bean in keep(listing.lines, Filter(codes=frozenset({bean.packet.code})))


@pytest.mark.parametrize(
    ("wanted", "varieties"),
    [
        (Filter(text="fruher"), ["Früher Zwerg"]),
        (Filter(text="DRAWER tomato"), ["Früher Zwerg"]),
        (Filter(text="Pastinaca"), ["Tollgate Long"]),
        (Filter(text="no such thing"), []),
        (Filter(crop_id="parsnip"), ["Tollgate Long"]),
        (Filter(tag="EARLY"), ["Früher Zwerg"]),
        (Filter(origin="saved"), ["Tollgate Long"]),
        (Filter(store="Kitchen Drawer", origin="bought"), ["Dray Horse", "Früher Zwerg"]),
    ],
)
def test_filters(listing: Listing, wanted: Filter, varieties: list[str]) -> None:
    assert sorted(_varieties(keep(listing.lines, wanted))) == varieties


def test_a_filter_by_advice_asks_the_forecast(listing: Listing) -> None:
    chosen = listing.select(Filter())
    for advice in {line.advice for line in chosen}:
        expected = [line for line in chosen if line.advice == advice]
        assert listing.select(Filter(advice=advice)) == expected


def test_text_may_hold_words_of_an_advice(listing: Listing) -> None:
    for line in listing.select(Filter()):
        found = listing.select(Filter(text=f"{line.packet.variety} {line.advice}".upper()))
        assert line.packet.code in {each.packet.code for each in found}
    assert listing.select(Filter(text="sow spent")) == []


def test_the_number_under_a_bar_code_finds_its_packet(stocked: Tin, today: date) -> None:
    # Invented; its check digit is right by the rule of EAN-13 (ISO/IEC 15420).
    number = "2000000000015"
    code = _line(Listing(stocked, today), "Früher Zwerg").packet.code
    edit_packet(stocked, code, today=today, ean=number)
    assert _varieties(Listing(stocked, today).select(Filter(text=number))) == ["Früher Zwerg"]


def test_old_parsnip_is_worse_than_fresh_tomato(listing: Listing) -> None:
    tomato, parsnip = (
        listing.forecast(_line(listing, name)) for name in ("Früher Zwerg", "Tollgate Long")
    )
    assert tomato.forecast and parsnip.forecast
    assert tomato.forecast.mean is not None and parsnip.forecast.mean is not None
    assert tomato.forecast.mean > 0.7
    assert parsnip.forecast.mean < 0.3
    assert tomato.advice in {"sow", "use up"}
    assert parsnip.advice in {"spent", "test"}


def test_every_order_keeps_every_line(listing: Listing) -> None:
    lines = [listing.forecast(line) for line in listing.lines]
    for sort in Sort:
        assert sorted(_varieties(ordered(lines, sort))) == sorted(_varieties(lines))
    by_year = [line.year for line in ordered(lines, Sort.YEAR)]
    assert by_year[0] == "2017"
    worst_first = [line.forecast.mean for line in ordered(lines, Sort.GERMINATION) if line.forecast]
    assert worst_first == sorted(worst_first, key=lambda mean: 2.0 if mean is None else mean)


def test_a_code_that_is_not_here_is_said(listing: Listing) -> None:
    with pytest.raises(NotFoundError):
        listing.line("P0000000")


def test_lines_are_made_without_forecasts(listing: Listing) -> None:
    assert all(line.forecast is None for line in listing.lines)
    line = listing.forecast(listing.lines[0])
    assert replace(line, forecast=None) == listing.lines[0]
