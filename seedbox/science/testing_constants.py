"""Constants of germination tests, trays and what a test is worth: unit, source, reason."""

from __future__ import annotations

from typing import Final

# --- Time course ------------------------------------------------------------------------------
# The rules set the first count for when seedlings of a good lot can mostly be judged, and the
# final count for when all that will come have come. We read the first count as the middle of the
# likely median day, and let 99 in 100 of the seeds that come do so by the final count. Our
# reading, no source.
MEDIAN_SPREAD: Final = (
    0.35  # sd of ln median day: lots and windowsills differ, half as long to twice
)
COME_BY_FINAL_Z: Final = 2.326  # probit(0.99)
SPREAD_SPREAD: Final = 0.4  # sd of ln of the spread: a factor of two either way, our judgement
NARROWEST_COURSE: Final = 0.08  # sd of ln day; no lot comes up all in one hour
# Where the rules give no first count: their median ratio of first to final day lies near a third.
FIRST_OF_FINAL: Final = 1.0 / 3.0
# What "still may come" means to a decision: not passed in 99 courses of 100. In 1,500 simulated
# tests of 20 seeds at 80 %, nine looks each, 0.95 called 28 lots poor that the final count would
# not have, 0.99 one, and saved nearly as many days (final count on day 14: stopped on day 10.3
# and 10.5 in the mean).
SURE_OF_COURSE: Final = 0.99

# --- Replicates -------------------------------------------------------------------------------
# Replicates as unlike as these come about by chance less often than this: 1 test in 40, the level
# of the printed tolerances (from memory).
UNLIKE_BELOW: Final = 0.025
TABLE_SEEDS: Final = 100  # 7 CFR 201.55(a) speaks of replicates of 100 seeds

# --- What a test is worth, in plants: 1 is the loss of one plant that was wanted ---------------
MISSING_PLANT: Final = 1.0
# A seed sown or tested in vain: the new packet below, shared out over some 250 seeds. Sowing twice
# as thick is then cheaper than a gap in the row. Our judgement, no source.
WASTED_SEED: Final = 0.02
# Paper, a bag, a warm place and four short looks: less than it takes to raise one plant.
WORK_OF_TEST: Final = 0.5
# A new packet with its postage and the wait costs about as much as five or six plants from a
# nursery. A variety that nobody sells must be regrown: callers then put in more.
NEW_PACKET: Final = 5.0
# A fresh packet germinates at the usual standard and a little above it.
FRESH_GERMINATION: Final = 0.85
# The answer of a test serves until the packet is used up or has aged past it. Most vegetable seed
# is listed at two to six years, so an answer older than three says little: our judgement. In the
# simulated decade (a crop and ten years) 3 and 4 cost the same within 0.6 plants; 1 costs 0.3 less
# where lots are as believed or better, 5 to 8 more where they are worse or far more unlike. At 1.5
# seeds to a plant, seed just above the usual standard of 65 % gives the plants wanted.
SEEDS_PER_PLANT: Final = 1.5
MOST_SOWINGS_SERVED: Final = 3.0
# Sowing rates weighed, as multiples of the plants wanted.
SOWING_RATES: Final = (1.0, 1.1, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 6.0, 9.0)

# --- Emergence factor of a place: share of germinable seed that comes up in trays there ---------
# In the field the mean share was 82 % for radish and cabbage but 45 % for carrot and lettuce, and
# ran from 5 to 99 % over years (Bralewski & Holubowicz 2008, Notulae Botanicae Horti Agrobotanici
# 36). Trays indoors are watered, warm, fine on top, safe from crusting and slugs: we start at the
# field's better crops, 0.85. Strength 8 puts nine tenths of the belief between 0.61 and 0.99, so
# that two or three counted trays outweigh it. Our judgement.
EMERGENCE_MEAN: Final = 0.85
EMERGENCE_STRENGTH: Final = 8.0
# Trays of one place scatter more than paper tests of one lot (icc 0.04): watering, depth and
# damping off add to it. The field's ranges for radish and cabbage, taken as three sd, give 0.06 to
# 0.07; with the lot's own scatter we take 0.10. A tray never weighs more than ten seeds on paper.
TRAY_ICC: Final = 0.10
