"""Forecasts for single packets, without reading the whole tin."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from seedbox.season.crops import CropBook
from seedbox.season.forecast import Forecaster
from seedbox.season.listing import PacketLine, year_text
from seedbox.tin.file import Tin
from seedbox.tin.records import Dossier
from seedbox.tui.curve import Point

CURVE_POINTS = 60


class Answers:
    """What one tin and one day need for a forecast, read once."""

    def __init__(self, tin: Tin, today: date) -> None:
        self.today = today
        self.settings = tin.settings()
        own_crops = tin.own_crops()
        self.book = CropBook(self.settings, own_crops)
        self.stores = {store.id: store for store in tin.stores()}
        self._forecaster = Forecaster(self.settings, tin.own_figures(), own_crops)
        sown = with_trays(tin)
        if sown:
            self._forecaster.use_trays(sown, self.stores)

    def line(self, dossier: Dossier) -> PacketLine:
        """A packet with its forecast."""
        forecast = self._forecaster.forecast(dossier, self.today, self.stores)
        name = self.book.name(dossier.packet.crop_id)
        return PacketLine(dossier, name, year_text(dossier.packet), "", forecast)

    def forecast(self, line: PacketLine) -> PacketLine:
        """The same line, with its forecast if it had none."""
        if line.forecast is not None:
            return line
        return replace(line, forecast=self.line(line.dossier).forecast)

    def curve(self, dossier: Dossier, until: date) -> list[Point]:
        """The forecast day by day from the seed's beginning; empty for planting stock."""
        found = self._forecaster.curve(dossier, self.today, self.stores, until, CURVE_POINTS)
        return [Point(*point) for point in found]


def with_trays(tin: Tin) -> list[Dossier]:
    """Packets of which trays were counted: what came up teaches the places of all others."""
    ids = {tray.packet_id for tray in tin.tray_counts()}
    if not ids:
        return []
    codes = [
        code
        for row_id, code in tin.database.rows("SELECT id, code FROM packet ORDER BY id")
        if row_id in ids
    ]
    return [tin.dossier(code) for code in codes]
