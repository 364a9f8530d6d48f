"""How much of the living seed comes up in the trays of a place, learnt from the trays counted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from seedbox.science.emergence_factor import (
    EmergenceFactor,
    Tray,
    TrayTest,
    learn,
    prior_factor,
)
from seedbox.science.lattice import POINTS
from seedbox.tin.records import Dossier, TrayCount

# Places change, and each tray costs a few milliseconds: the latest ones tell enough.
_LATEST = 40

Believed = Callable[[Dossier, date], Sequence[float]]


def folded(place: str) -> str:
    """Under this a place is known, however its name is written."""
    return " ".join(place.casefold().split())


class PlaceFactors:
    """Emergence factors of a tin's places, each worked out when first asked for.

    `believed` says what was believed of a packet on a day by its tests alone, on the probit
    lattice.
    """

    def __init__(self, dossiers: Iterable[Dossier], believed: Believed) -> None:
        self._believed = believed
        self._trays: dict[str, list[tuple[TrayCount, Dossier]]] = {}
        for dossier in dossiers:
            for tray in dossier.trays:
                self._trays.setdefault(folded(tray.place), []).append((tray, dossier))
        for trays in self._trays.values():
            trays.sort(key=lambda pair: (pair[0].on, pair[0].id))
        self._ratios: dict[int, tuple[float, ...]] = {}
        self._prior = prior_factor()

    def factor(self, place: str, until: date, without_packet: int | None = None) -> EmergenceFactor:
        """What the trays of a place counted up to a day say of it; the prior where there are none.

        `without_packet` leaves the trays of that packet out, lest they are used twice.
        """
        known = [
            (tray, dossier)
            for tray, dossier in self._trays.get(folded(place), ())
            if tray.on <= until and tray.packet_id != without_packet
        ]
        weights = list(self._prior.weights)
        for tray, dossier in known[-_LATEST:]:
            weights = [
                w * ratio for w, ratio in zip(weights, self._told(tray, dossier), strict=True)
            ]
            total = sum(weights)
            weights = [w / total for w in weights]
        return EmergenceFactor(tuple(weights))

    def evidence(self, tray: TrayCount, dose: float, until: date) -> TrayTest:
        """A counted tray as evidence on its own packet, at its ageing dose [probits]."""
        factor = self.factor(tray.place, until, without_packet=tray.packet_id)
        return TrayTest(dose, tray.sown, tray.emerged, factor)

    def _told(self, tray: TrayCount, dossier: Dossier) -> tuple[float, ...]:
        """Likelihood of one tray at each factor, up to a constant; kept, since it never changes."""
        if tray.id not in self._ratios:
            masses = _thinned(self._believed(dossier, tray.on))
            alone = learn(self._prior, [Tray(tray.sown, tray.emerged, masses)])
            self._ratios[tray.id] = tuple(
                after / before if before > 0.0 else 0.0
                for after, before in zip(alone.weights, self._prior.weights, strict=True)
            )
        return self._ratios[tray.id]


def _thinned(masses: Sequence[float]) -> list[float]:
    """The same belief on every second lattice point: a tray does not see finer than that."""
    thin = [0.0] * POINTS
    for i, mass in enumerate(masses):
        if i % 2 == 0:
            thin[i] += mass
        else:
            thin[i - 1] += 0.5 * mass
            thin[i + 1] += 0.5 * mass
    return [max(mass, 0.0) for mass in thin]
