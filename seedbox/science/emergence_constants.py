"""Constants of emergence, each with its unit, its source and why it has this value."""

from __future__ import annotations

from typing import Final

INTERVAL_Z: Final = 1.645  # both ends of a 90 % interval of a normal

# Spread of ln days that a grower sees at a temperature of the table [-]. Two sets of trials, the
# table of 1954 and the heat sums of Bierhuizen & Wagenvoort 1974 (from memory), differ over 18
# crops by a median of 0.19 and a root mean square of 0.48 in ln days, with long tails: turnip,
# cucumber, celery, onion (`tests/bench/emergence.py` prints it). A normal of sd 0.40 has 54 of
# those 69 comparisons inside its 90 % interval; wider would be of no use. Interpolating across
# 5 C adds little: a quarter of the 0.16 that leaving one temperature out leaves across 10 C.
TABLE_LN_SD: Final = 0.40
# The same for a heat sum: one more model between the trial and the pot. Our judgement, no source.
HEAT_SUM_LN_SD: Final = 0.45
# Figures of another crop of the same species. Our judgement, no source.
BORROWED_LN_SD: Final = 0.50

# A heat sum is never trusted where it asks for more days than this many times the slowest trial
# of the same table, or [days] where there is none. Our judgement, no source.
HEAT_SUM_TIMES: Final = 2.0
HEAT_SUM_MOST_DAYS: Final = 60.0
# Above this the rate no longer rises in a line for most vegetables, from memory.
HEAT_SUM_HOTTEST_C: Final = 25.0

# Too cold to be worth sowing: so many times slower than at its best, and more than so many days.
# Slow seed rots and is eaten. Our judgement, no source.
SLOW_TIMES: Final = 2.5
SLOW_DAYS: Final = 21.0
# Loses seedlings: fewer than this share of the most normal seedlings that the crop gave.
LOSING_SHARE: Final = 0.85
HALF_LOST: Final = 0.5

# Days of a growing page are read as days in a room. Where it is colder the upper end stretches by
# heat above a base that is usual for cool-season and for warm-season crops. Our judgement.
ROOM_C: Final = 18.0
PAGE_BASE_C: Final = 2.0
PAGE_TENDER_BASE_C: Final = 10.0
