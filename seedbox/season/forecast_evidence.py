"""The sentences that say what a forecast rests on, and the printed figure as a test."""

from __future__ import annotations

from datetime import date

from seedbox.science.constants import PRINTED_SEEDS
from seedbox.science.likelihood import LotTest
from seedbox.season.crop_basis import CropBasis
from seedbox.season.seed_age import TimeZero
from seedbox.season.storage_history import StorageHistory
from seedbox.season.testing.evidence import counted_as
from seedbox.tin.records import Dossier, GerminationTest, TrayCount, Treatment
from seedbox.units import per_cent

_ORIGIN = {
    "bought": "Bought seed: taken to start well above the standard.",
    "saved": "Saved seed: its start is less sure than that of bought seed.",
    "swapped": "Swapped seed: its start is less sure than that of bought seed.",
    "gift": "Given seed: its start is less sure than that of bought seed.",
}
_NO_ORIGIN = "Origin not said: its start is less sure than that of bought seed."


def printed_test(fraction: float, dose: float) -> LotTest:
    """A germination figure printed on a packet, as a test of the lot at that dose."""
    return LotTest(dose, PRINTED_SEEDS, round(fraction * PRINTED_SEEDS))


def rests_on(
    dossier: Dossier, on: date, basis: CropBasis, zero: TimeZero, history: StorageHistory
) -> tuple[str, ...]:
    """What a forecast rests on, in short plain sentences, the tests first."""
    packet = dossier.packet
    said = [_test(test) for test in dossier.tests if test.on <= on]
    if packet.printed_germination is not None:
        said.append(
            f"Printed on the packet: {per_cent(packet.printed_germination)}, counted as a test of"
            f" {PRINTED_SEEDS} seeds."
        )
    if not said:
        said.append("No test yet.")
        said.append(_ORIGIN.get(packet.origin or "", _NO_ORIGIN))
    said += [_tray(tray) for tray in dossier.trays if tray.on <= on]
    said.append(zero.reason)
    said += history.rests_on
    said.append(basis.life_sentence())
    if packet.treatment is Treatment.PRIMED:
        said.append("Primed seed: taken to age faster, by one to six times.")
    if not basis.standard_known:
        said.append("No legal minimum is known for this crop, so its start is a guess.")
    return tuple(said)


def _tray(tray: TrayCount) -> str:
    day = f"{tray.on.day} {tray.on:%B %Y}"
    where = f" ({tray.place})" if tray.place else ""
    return f"Tray {day}{where}: {tray.emerged} of {tray.sown} came up, weaker than a test."


def _test(test: GerminationTest) -> str:
    seeds = "1 hard seed" if test.hard == 1 else f"{test.hard} hard seeds"
    hard = f", {seeds} counted as alive" if test.hard else ""
    day = f"{test.on.day} {test.on:%B %Y}"
    whose = f"by {test.reported_by} " if test.reported_by else ""
    early = ", stopped early" if test.stopped_early else ""
    weight = f", counted as of {_seeds(counted_as(test))}" if early or whose else ""
    return f"Tested {whose}{day}: {test.germinated} of {test.seeds}{hard}{early}{weight}."


def _seeds(number: int) -> str:
    return "1 seed" if number == 1 else f"{number} seeds"
