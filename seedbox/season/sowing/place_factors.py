"""How much of the living seed comes up in each place, learnt from the grower's own trays."""

from __future__ import annotations

from dataclasses import replace

from seedbox.science.emergence_factor import EmergenceFactor, Tray, learn, prior_factor
from seedbox.season.listing import Listing, PacketLine
from seedbox.season.searching import search_key
from seedbox.tin.records import TrayCount


class PlaceFactors:
    """Beliefs in the factors of places, by name. A place without trays has the usual one."""

    def __init__(self, listing: Listing) -> None:
        self._listing = listing
        self._known: dict[str, EmergenceFactor] = {}
        self._trays: dict[str, list[tuple[PacketLine, TrayCount]]] = {}
        for line in listing.lines:
            for tray in line.dossier.trays:
                if tray.on <= listing.today:
                    self._trays.setdefault(search_key(tray.place), []).append((line, tray))

    def factor(self, place: str) -> EmergenceFactor:
        """What is believed of a place after all trays that were counted there."""
        key = search_key(place)
        if key not in self._known:
            self._known[key] = learn(prior_factor(), map(self._evidence, self._trays.get(key, [])))
        return self._known[key]

    def trays(self, place: str) -> int:
        """How many trays were counted there."""
        return len(self._trays.get(search_key(place), []))

    def _evidence(self, counted: tuple[PacketLine, TrayCount]) -> Tray:
        """A tray with what was believed of its lot by then, from all but its own trays."""
        line, tray = counted
        alone = replace(line, dossier=replace(line.dossier, trays=()))
        return Tray(tray.sown, tray.emerged, self._listing.masses(alone, tray.on))
