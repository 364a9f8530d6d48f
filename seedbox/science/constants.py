"""Every constant of the seed-life model, with its unit, its source and why it has this value."""

from __future__ import annotations

from typing import Final

DAYS_PER_YEAR: Final = 365.25

# --- Viability equation, used for ratios only -------------------------------------------------
# Temperature terms common to eight species from -13 to 90 C: Dickie, Ellis, Kraak, Ryder &
# Tompsett 1990, Annals of Botany 65:197-204.
CH: Final = 0.0329
CQ: Final = 0.000478
# Moisture term [probits of log10 days per tenfold moisture]. Published species values run from
# about 3.5 to 6 (chickpea 4.847 in a genebank course); 4.5 is a middle value, our choice.
CW: Final = 4.5

# --- Where the model holds --------------------------------------------------------------------
LOWEST_C: Final = -20.0  # genebank freezers; nothing colder is in the storage-life evidence
HIGHEST_C: Final = 45.0  # hotter is accelerated ageing, not storage
HIGHEST_RH: Final = 0.70  # observed ageing above it is far from the equation (see accuracy report)
# Ellis, Hong & Roberts 1989, Annals of Botany 63:601-611: below equilibrium with 10.6 % RH
# drying brings no longer life in 10 of 12 species.
LOWEST_USEFUL_RH: Final = 0.106
LOWEST_USEFUL_RH_AT_C: Final = 20.0  # temperature of that equilibrium: from memory

# --- Isotherm, Cromarty, Ellis & Roberts 1982 -------------------------------------------------
ISOTHERM_INTERCEPT: Final = 1.1
ISOTHERM_C_PER_UNIT: Final = 90.0
ISOTHERM_SCALE: Final = 440.0

# --- Reference store of the storage-life tables -----------------------------------------------
# The tables say "cool, dry"; measured half-lives were at 20.3 C and 50.5 % RH (Nagel & Boerner
# 2010, Seed Science Research 20:1-12), so a living room stands for both.
REFERENCE_C: Final = 20.0
REFERENCE_RH: Final = 0.50
# A table's years are read as the fall from 90 % to 60 %: probit(0.90) - probit(0.60) = 1.03.
FALL_PROBITS: Final = 1.03

# --- The lot's own ageing rate theta, log-normal around 1 -------------------------------------
# Initial viability and drying alone spread the half-viability period threefold (Carta 2025,
# abstract); 0.5 spans 0.44 to 2.3 in nine lots of ten. Table disagreement is added in quadrature.
LOT_SPREAD: Final = 0.5
CROP_SPREAD_MOST: Final = 0.8  # cap where a crop has its own figure
FAMILY_SPREAD: Final = 0.8  # only the family's figure: crops of one family differ that much
UNKNOWN_SPREAD: Final = 0.9  # neither crop nor family: our judgement, no source
# Primed seed ages up to about six times faster (Tarquis & Bradford 1992: up to 84 % of life
# lost, 1 / 0.16 = 6). We place the middle at the geometric mean of 1 and 6, and let 1 to 6
# be the middle nine tenths: ln 6 / (2 x 1.645).
PRIMED_RATE: Final = 2.449
PRIMED_SPREAD: Final = 0.545

# --- Initial viability K [probits above probit(minimum standard)] -----------------------------
# Sellers must sell above the standard, and mostly sell well above it.
BOUGHT_ABOVE: Final = 0.65
BOUGHT_SPREAD: Final = 0.40
# Nobody tests home-saved seed before it goes into the tin; ripeness and drying vary. Our
# judgement, no source: lower by a third of a probit, nearly twice as wide.
SAVED_ABOVE: Final = 0.30
SAVED_SPREAD: Final = 0.70
# Swapped and given seed is mostly saved seed with an unknown past. Our judgement, no source.
SWAPPED_ABOVE: Final = 0.25
SWAPPED_SPREAD: Final = 0.75
# Origin not said: between bought and saved, and as wide as both together.
UNKNOWN_ABOVE: Final = 0.45
UNKNOWN_ORIGIN_SPREAD: Final = 0.65
# No standard is known for the crop: the fallback is a guess and widens K in quadrature.
NO_STANDARD_SPREAD: Final = 0.30

# --- Germination tests ------------------------------------------------------------------------
# Repeat tests of lots at 80 % ran from 63 to 97 % (van Hintum & van Treuren 2012, Plant Genetic
# Resources 10:134-136): a beta-binomial with intraclass correlation near 0.04.
TEST_ICC: Final = 0.04
BETA_SIZE: Final = 1.0 / TEST_ICC - 1.0
# A test that somebody else made and told of: nobody here knows what was counted as a seedling,
# how the seed lay since, or whether it was of this very lot. At 0.10 even a large one weighs no
# more than 10 independent seeds, where one's own weighs up to 25. Our judgement, no source.
REPORTED_ICC: Final = 0.10
# A figure printed on a packet is rounded, and stands for a lot, not for this packet. Official
# tests use 400 seeds, retests often 200; we take the smaller. With ICC 0.04 both weigh about
# the same (22 and 24 independent seeds).
PRINTED_SEEDS: Final = 200

# --- Regeneration -----------------------------------------------------------------------------
# Rao et al. 2006, Manual of Seed Handling in Genebanks, Handbooks for Genebanks 8, Table 8.2.
REGENERATE_AT: Final = 0.85

# --- Advice -----------------------------------------------------------------------------------
SPENT_AT: Final = 0.10  # P(germination >= floor) at or below which a packet is spent
TEST_SIZES: Final = (10, 20, 25, 50)
TEST_SHARE: Final = 0.25  # never test more than a quarter of the packet
FEWEST_TO_TEST: Final = 5  # fewer seeds answer nothing (common practice, no source)
# A smaller test will do when it settles the advice at most so much less often than 50 seeds: with
# ICC 0.04 more seeds add little (50 seeds weigh as 17, 25 as 13, 10 as 7). Our judgement.
UNDECIDED_MORE: Final = 0.05
