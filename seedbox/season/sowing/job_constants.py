"""Constants of the jobs that a sowing makes. All are common practice, no source, unless said."""

from __future__ import annotations

from typing import Final

from seedbox.season.sowing.figures import Hardiness, Span

# Least mean soil temperature [C] into which plants are set, and seed is sown whose own least
# temperature is in no table.
LEAST_SOIL_C: Final = {
    Hardiness.HARDY: 4.0,
    Hardiness.HALF_HARDY: 7.0,
    Hardiness.TENDER: 12.0,
    Hardiness.VERY_TENDER: 15.0,
}
# Fewest days of hardening off, where a garden takes longer; it ends on the day of planting out.
LEAST_HARDENING: Final = 7.0
# Days from emergence to the first true leaf, when cells and rows are thinned.
THIN: Final = Span(7.0, 14.0)
# Deeper pots than the crop needs keep it longer, up to so many times.
MOST_ROOM: Final = 1.5
# In a pot too shallow a deep root has no way out: its time shrinks with the depth. Fibrous roots
# fill the width first: their time shrinks with the square root of the depth.
FIBROUS_POWER: Final = 0.5
# Least days in a pot after emergence: nothing is potted on before it has a true leaf.
LEAST_DAYS_IN_POT: Final = 10.0
# Plants that may not be set out yet are potted on when they would wait longer than this.
WAITING_DAYS: Final = 7.0
# Weeks to transplanting where none are known.
UNKNOWN_WEEKS: Final = Span(4.0, 6.0)
# Days that a job may wait before it counts as late. Deep roots are past help soonest.
POT_ON_WAITS: Final = 7
POT_ON_WAITS_DEEP: Final = 3
PLANT_OUT_WAITS: Final = 14
SOW_AGAIN_WAITS: Final = 7
RESOW_WAITS: Final = 7
# Week from the last frost in which plants may go out where no table says.
SET_OUT_WEEK: Final = {
    Hardiness.HARDY: -4.0,
    Hardiness.HALF_HARDY: 0.0,
    Hardiness.TENDER: 1.0,
    Hardiness.VERY_TENDER: 2.0,
}
# So long planting out is put off for cold soil; beyond it the calendar decides [days].
MOST_SOIL_WAIT: Final = 60
