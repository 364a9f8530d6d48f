"""The Swap tab as text, compared with files. What is spare is fixed here, so that a better model
does not change what these files are about: the layout.

Write the files anew with SEEDBOX_GOLDEN=write, and read every difference before it is kept.
"""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from seedbox.season.forecast import Advice, Forecast
from seedbox.season.swapping.keeping import Kept
from seedbox.season.swapping.portions import Portion
from seedbox.season.swapping.records import Germination, Offer
from seedbox.season.swapping.spare import Spare

GOLDEN = Path(__file__).parent / "golden"
# By crop: portions offered, portions that could be, why held, tested on, cautions.
_FIXED = {
    "kale": (4, 4, "", None, ()),
    "lettuce": (0, 9, "Held back until you say otherwise: it is treated seed.", None,
                ("Treated seed: not for eating.",)),
    "tomato": (6, 6, "", date(2026, 2, 1), ("Poisonous: minor (leaves, stems): alkaloids.",)),
    "leek": (0, 0, "", None, ()),
    "pea_garden": (0, 0, "", None, ()),
}  # fmt: skip


def _forecast(crop_id: str) -> Forecast:
    mean, advice = (0.03, Advice.SPENT) if crop_id == "leek" else (0.86, Advice.SOW)
    return Forecast(
        mean=mean, low=max(mean - 0.2, 0), high=mean + 0.1, p_standard=0.9, p_floor=0.9,
        standard=0.75, standard_basis="EU minimum for sale", advice=advice, thick_factor=None,
        good_until=date(2029, 3, 1), supported=True, warnings=(), test_seeds=20, rests_on=(),
    )  # fmt: skip


def _spare(season, tin) -> tuple[Spare, ...]:
    """Answers the same for ever."""
    found = []
    for line in season.listing.lines:
        packet = line.packet
        offered, could, held, tested, cautions = _FIXED[packet.crop_id]
        forecast = _forecast(packet.crop_id)
        known = Germination(forecast.mean, forecast.low, forecast.high, tested,
                            20 if tested else None, 19 if tested else None)  # fmt: skip
        offer = Offer(packet.code, line.crop, packet.crop_id, packet.variety, offered, 40, known,
                      packet.harvest_year, packet.treatment, cautions=cautions)  # fmt: skip
        why = f"{int(line.dossier.left)} seeds, good until 2029; kept back 40 for this season."
        one = Spare(replace(line, forecast=forecast), offer, 400, 40, Portion(40, 20, ""), could,
                    held, f"{why} {held}".strip(), 0.12, None, Kept())  # fmt: skip
        found.append(one)
    return tuple(sorted(found, key=lambda one: one.line.crop))


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_the_tab_looks_as_it_did(
    open_swap, swap_path: Path, size, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr("seedbox.tui.swap_reading.spare", _spare)
    async with open_swap(swap_path, size) as screen:
        await screen.press("j", "j")
        seen = "\n".join(screen.lines) + "\n"
        file = GOLDEN / f"swap_{size[0]}x{size[1]}.txt"
        if os.environ.get("SEEDBOX_GOLDEN") == "write":
            file.write_text(seen, encoding="utf-8")
        assert seen == file.read_text(encoding="utf-8")
