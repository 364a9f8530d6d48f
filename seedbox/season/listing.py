"""The tin as lines to read: one packet a line, filtered and sorted, with its forecast.

Reading the tin is quick and forecasting is not, so a line is made without its forecast and
`Listing.forecast` fills that in when a screen or a command wants it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from seedbox.errors import NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.forecast import Advice, Forecast, Forecaster
from seedbox.season.searching import search_key
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.frozen import record
from seedbox.tin.records import Dossier, Packet
from seedbox.tin.text import amount_text

if TYPE_CHECKING:
    from seedbox.science.emergence_factor import EmergenceFactor


@record
class PacketLine:
    """One packet as a list shows it. `search` is all that a filter looks through, folded."""

    dossier: Dossier
    crop: str
    year: str
    search: str
    forecast: Forecast | None = None

    @property
    def packet(self) -> Packet:
        return self.dossier.packet

    @property
    def code(self) -> str:
        return shown(self.packet.code)

    @property
    def left(self) -> str:
        return left_text(self.dossier)

    @property
    def store(self) -> str:
        return self.dossier.store.name if self.dossier.store else ""

    @property
    def is_empty(self) -> bool:
        return self.dossier.left == 0

    @property
    def advice(self) -> str:
        return self.forecast.advice.value if self.forecast and self.forecast.advice else ""


class Sort(StrEnum):
    """What a list is ordered by; ties fall back on crop, variety, code."""

    CROP = "crop"
    YEAR = "year"
    GERMINATION = "germination"
    ADVICE = "advice"
    GOOD_UNTIL = "good until"
    STORE = "store"
    LEFT = "left"


@record
class Filter:
    """Which lines to keep; every part that is set must hold. Words of `text` may stand anywhere."""

    text: str = ""
    crop_id: str = ""
    store: str = ""
    advice: str = ""
    tag: str = ""
    origin: str = ""
    codes: frozenset[str] = frozenset()
    with_empty: bool = False


def keep(lines: Iterable[PacketLine], wanted: Filter) -> list[PacketLine]:
    """The lines that `wanted` lets through. An advice is found only on lines with a forecast."""
    words = search_key(wanted.text).split()
    return [
        line
        for line in lines
        if _fits(line, wanted) and all(word in f"{line.search} {line.advice}" for word in words)
    ]


def _without_advice(text: str) -> str:
    """The words of a filter's text that no advice could answer."""
    advised = " ".join(Advice)
    return " ".join(word for word in text.split() if search_key(word) not in advised)


def _fits(line: PacketLine, wanted: Filter) -> bool:
    packet = line.packet
    return (
        (not wanted.codes or packet.code in wanted.codes)
        and (wanted.with_empty or bool(wanted.codes) or not line.is_empty)
        and (not wanted.crop_id or packet.crop_id == wanted.crop_id)
        and (not wanted.store or line.store.casefold() == wanted.store.casefold())
        and (not wanted.origin or packet.origin == wanted.origin)
        and (not wanted.tag or wanted.tag.casefold() in map(str.casefold, packet.tags))
        and (not wanted.advice or line.advice == wanted.advice)
    )


class Listing:
    """One reading of a tin for one day."""

    def __init__(self, tin: Tin, today: date) -> None:
        self.today = today
        self.settings = tin.settings()
        self.book = CropBook(self.settings, tin.own_crops())
        self.stores = {store.id: store for store in tin.stores()}
        self._forecaster = Forecaster(self.settings, tin.own_figures(), tin.own_crops())
        self._crop_search: dict[str, str] = {}
        self.lines = [self._line(dossier) for dossier in tin.dossiers()]
        sown = [line.dossier for line in self.lines if line.dossier.trays]
        if sown:
            self._forecaster.use_trays(sown, self.stores)

    def forecast(self, line: PacketLine) -> PacketLine:
        """The same line with its forecast for the day of this listing."""
        forecast = self._forecaster.forecast(line.dossier, self.today, self.stores)
        return replace(line, forecast=forecast)

    def curve(
        self, line: PacketLine, until: date, points: int = 60
    ) -> list[tuple[date, float, float, float]]:
        """Day, mean, low and high from the seed's beginning to `until`; empty for stock."""
        return self._forecaster.curve(line.dossier, self.today, self.stores, until, points)

    def masses(self, line: PacketLine, on: date | None = None) -> list[float]:
        """What is believed of a packet on the day of this listing, or another; empty for stock."""
        return self._forecaster.masses(line.dossier, on or self.today, self.stores)

    def place_factor(self, place: str) -> EmergenceFactor:
        """Share of the living seed that comes up in a place, by the trays counted there."""
        return self._forecaster.place_factor(place, self.today)

    def seeds_left(self, line: PacketLine) -> float | None:
        """Seeds in a packet, by weight where it is kept in grams; None when that is not known."""
        return self._forecaster.seeds_left(line.dossier)

    def line(self, code: str) -> PacketLine:
        """The line of one packet, by its eight characters."""
        for line in self.lines:
            if line.packet.code == code:
                return line
        raise NotFoundError(f"No packet in this tin has the code {shown(code)}.")

    def select(self, wanted: Filter, sort: Sort = Sort.CROP) -> list[PacketLine]:
        """Lines that `wanted` keeps, with forecasts, in order; its text may name an advice too.

        What an advice cannot decide is filtered first: a forecast costs more than all the rest.
        """
        first = keep(self.lines, replace(wanted, advice="", text=_without_advice(wanted.text)))
        return ordered(keep(map(self.forecast, first), wanted), sort)

    def _line(self, dossier: Dossier) -> PacketLine:
        packet = dossier.packet
        return PacketLine(
            dossier=dossier,
            crop=self.book.name(packet.crop_id),
            year=year_text(packet),
            search=self._search(dossier),
        )

    def _search(self, dossier: Dossier) -> str:
        packet = dossier.packet
        names = self._crop_search.get(packet.crop_id)
        if names is None:
            names = search_key(" ".join(self.book.all_names(packet.crop_id)))
            self._crop_search[packet.crop_id] = names
        own = (
            packet.variety,
            packet.source,
            packet.note,
            packet.ean,
            *packet.tags,
            packet.origin or "",
            dossier.store.name if dossier.store else "",
        )
        return f"{packet.code.lower()} {names} {search_key(' '.join(own))}"


def left_text(dossier: Dossier) -> str:
    """How much is left, in words: `120 seeds`, `2.5 g`, `none left` or `not counted`."""
    if dossier.left is None:
        return "not counted"
    if dossier.left == 0:
        return "none left"
    return amount_text(dossier.left, dossier.packet.unit, dossier.packet.kind)


def year_text(packet: Packet) -> str:
    """The best known year with what it is; a harvest year stands alone."""
    if packet.harvest_year:
        return str(packet.harvest_year)
    if packet.packed_year:
        return f"packed {packet.packed_year}"
    if packet.bought_year:
        return f"bought {packet.bought_year}"
    if packet.sow_by:
        return f"sow by {packet.sow_by.year}"
    return "unknown"


def best_year(packet: Packet) -> int:
    """The year by which packets are put in order; unknown ones come last."""
    by = packet.sow_by.year if packet.sow_by else None
    return packet.harvest_year or packet.packed_year or packet.bought_year or by or 9999


def ordered(lines: Iterable[PacketLine], sort: Sort) -> list[PacketLine]:
    """Lines in order of `sort`, then crop, variety and code."""
    key = _KEYS[sort]
    return sorted(lines, key=lambda line: (key(line), *_crop_key(line)))


def _crop_key(line: PacketLine) -> tuple[str, str, str]:
    return (line.crop.casefold(), line.packet.variety.casefold(), line.packet.code)


_ADVICE_ORDER = ("use up", "sow thick", "sow", "test", "spent", "")


def _germination_key(line: PacketLine) -> float:
    mean = line.forecast.mean if line.forecast else None
    return 2.0 if mean is None else mean


def _good_until_key(line: PacketLine) -> date:
    until = line.forecast.good_until if line.forecast else None
    return until or date.max


_KEYS: dict[Sort, Callable[[PacketLine], object]] = {
    Sort.CROP: lambda line: "",
    Sort.YEAR: lambda line: best_year(line.packet),
    Sort.GERMINATION: _germination_key,
    Sort.ADVICE: lambda line: _ADVICE_ORDER.index(line.advice),
    Sort.GOOD_UNTIL: _good_until_key,
    Sort.STORE: lambda line: line.store.casefold(),
    Sort.LEFT: lambda line: -1.0 if line.dossier.left is None else line.dossier.left,
}
