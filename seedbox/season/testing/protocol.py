"""How one packet is tested, from wetting the paper to the last count, in plain words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.season.cautions import SHARING, packet_cautions
from seedbox.season.testing.conditions import Conditions, conditions
from seedbox.season.testing.directions import Handling, handling
from seedbox.season.testing.schedule import all_count_days
from seedbox.season.testing.seedlings import normal_seedling, other_categories
from seedbox.season.testing.warmth import Warmth, keeping_sentences
from seedbox.tin.records import Packet, Substrate, Treatment
from seedbox.tin.testing import TestPlan

# One bag is enough for a small test; more seeds are parted, so that one bad spot shows
# (official tests have four replicates, 7 CFR 201.55; the steps in between are our judgement).
_TWO_FROM, _FOUR_FROM = 40, 100
_FAR_OFF_C = 5.0

NOT_FOOD = "Seed of a test is never eaten, sprouted or not; wash your hands after each count."
GLOVES = "Wear gloves at every count, use a dish that never holds food, and bin the paper."
NO_SPROUTS = "Do not eat the sprouts of this kind, however well they grow."


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its sentences."""

    title: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Protocol:
    """A test laid out on a day. `plan` is what the tin writes down; `counts` its days and dates."""

    plan: TestPlan
    warmth: Warmth
    started_on: date
    counts: tuple[tuple[int, date], ...]
    sections: tuple[Section, ...]
    cautions: tuple[str, ...]
    basis: str

    @property
    def first_count(self) -> date:
        return self.counts[0][1]

    @property
    def final_count(self) -> date:
        return self.counts[-1][1]


@dataclass(frozen=True, slots=True)
class Wishes:
    """What a person asks of a test; what is None is as the almanac says."""

    seeds: int
    replicates: int | None = None
    substrate: Substrate = Substrate.PAPER
    temperature_c: float | None = None
    night_c: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Subject:
    """The packet to be tested and what is known of its crop by name. `own` are a person's own
    figures of the crop."""

    packet: Packet
    crop: str
    family: str
    own: Mapping[str, str]


def protocol(subject: Subject, region: str, wishes: Wishes, on: date) -> Protocol:
    """The protocol of a test that starts on a day."""
    packet = subject.packet
    found = conditions(packet.crop_id, subject.family, region, subject.own)
    coated = packet.treatment in {Treatment.DRESSED, Treatment.PELLETED, Treatment.PRIMED}
    handled = handling(packet.crop_id, found.directions, may_soak=not coated)
    warmth = _warmth(found, wishes)
    replicates = wishes.replicates or usual_replicates(wishes.seeds)
    plan = TestPlan(
        wishes.seeds,
        replicates,
        wishes.substrate,
        warmth.day_c,
        warmth.night_c,
        found.first_count_day,
        found.final_count_day,
        handled.summary,
        wishes.note,
    )
    days = all_count_days(found.first_count_day, found.final_count_day)
    counts = tuple((day, on + timedelta(days=day)) for day in days)
    layout = _Layout(subject, plan, found, handled, warmth, counts)
    cautions = test_cautions(packet, subject.crop)
    return Protocol(plan, warmth, on, counts, layout.sections(), cautions, found.basis)


def usual_replicates(seeds: int) -> int:
    """In how many parts so many seeds are laid when nobody says."""
    return 4 if seeds >= _FOUR_FROM else 2 if seeds >= _TWO_FROM else 1


def test_cautions(packet: Packet, crop: str) -> tuple[str, ...]:
    """What to heed with this seed on paper; what is only about passing it on is left out."""
    said = [each for each in packet_cautions(packet, crop) if each != SHARING]
    if packet.treatment in {Treatment.DRESSED, Treatment.PELLETED}:
        said.append(GLOVES)
    if any(each.startswith("Poison") for each in said):
        said.append(NO_SPROUTS)
    return (*said, NOT_FOOD)


test_cautions.__test__ = False  # type: ignore[attr-defined]  # its name, not its nature


def _warmth(found: Conditions, wishes: Wishes) -> Warmth:
    if wishes.temperature_c is None:
        return found.warmth[0]
    return Warmth(wishes.temperature_c, wishes.night_c)


@dataclass(frozen=True, slots=True)
class _Layout:
    """All that the sentences of a protocol are made from."""

    subject: Subject
    plan: TestPlan
    found: Conditions
    handled: Handling
    warmth: Warmth
    counts: tuple[tuple[int, date], ...]

    def sections(self) -> tuple[Section, ...]:
        sections = (
            Section("Before", self.handled.before),
            Section("Lay", _laying(self.plan, self.handled.light)),
            Section("Keep", self._keeping()),
            Section("Count", _counting(self.counts)),
            Section("Germinated", normal_seedling(self.subject.packet.crop_id)),
            Section("Apart", other_categories(self.subject.family)),
            Section("Stop", _stopping(self.counts)),
            Section("Rests on", (self.found.basis,)),
        )
        return tuple(section for section in sections if section.sentences)

    def _keeping(self) -> tuple[str, ...]:
        if self.warmth == self.found.warmth[0]:
            kept = keeping_sentences(self.warmth, self.found.warmth[1:])
        else:
            kept = (*keeping_sentences(self.warmth), _other_warmth(self.found, self.warmth))
        return (*kept, *self.handled.during)


def _other_warmth(found: Conditions, warmth: Warmth) -> str:
    usual = found.warmth[0]
    off = warmth.mean_c - usual.mean_c
    if abs(off) < _FAR_OFF_C:
        return f"The usual is {usual.words}."
    how = "later, and some not at all" if off < 0 else "badly in such warmth"
    usually = f"The usual is {usual.words}"
    return f"{usually}: at {warmth.words} it may come {how}, so a low count says less."


_WET = "Wet two sheets of kitchen paper and let them drip: damp, with no water standing."
_SLIP = "Put a slip with the code on it."
_PAPER_DARK = (
    _WET,
    "Lay the seeds apart on one half, fold the other half over them and roll it up loosely.",
    "Put the roll in a bag or box with a little air.",
)
_PAPER_LIGHT = (
    _WET,
    "Lay the seeds apart on top of the paper, and nothing over them.",
    "Put it in a clear box or bag with a little air, in daylight but not in the sun.",
)
_SAND = ("Fill a dish with washed sand, wet it and let it drip.",)
_MIX = ("Fill a tray with moist seed mix.",)
_COVERED = "Press the seeds in, apart, and cover them as deep as you would for plants."
_BARE = "Press the seeds into the surface, apart, and do not cover them; keep it in daylight."
_HIDDEN = "Count what stands above the surface; the rest can only be guessed until the end."


def _holding(substrate: Substrate, light: bool | None) -> tuple[str, ...]:
    """How the seeds are bedded: in the fold, or open to the light where they need it."""
    if substrate is Substrate.PAPER:
        bedded = _PAPER_LIGHT if light else _PAPER_DARK
        dark = ("It wants the dark: keep it in a drawer or cupboard.",) if light is False else ()
        return (*bedded, *dark, _SLIP)
    filled = _SAND if substrate is Substrate.SAND else _MIX
    return (*filled, _BARE if light else _COVERED, _HIDDEN, _SLIP)


def _laying(plan: TestPlan, light: bool | None) -> tuple[str, ...]:
    seeds = "1 seed" if plan.seeds == 1 else f"{plan.seeds} seeds"
    take = f"Take {seeds} as they come, without choosing the best."
    if plan.replicates == 1:
        return (take, *_holding(plan.substrate, light))
    each, over = divmod(plan.seeds, plan.replicates)
    parts = f"{each}" if not over else f"{each} or {each + 1}"
    return (
        take,
        f"Part them into {plan.replicates} replicates of {parts}; lay and number each by itself.",
        *_holding(plan.substrate, light),
    )


def _counting(counts: tuple[tuple[int, date], ...]) -> tuple[str, ...]:
    first, final = counts[0], counts[-1]
    said = [f"First count on day {first[0]}, {_date(first[1])}."]
    if len(counts) > 2:
        between = ", ".join(_date(on) for _, on in counts[1:-1])
        said.append(f"Then on {between}.")
    said.append(f"Last count on day {final[0]}, {_date(final[1])}.")
    said.append(
        "At each count take out the normal seedlings and what rots, write down how many, and keep"
        " the rest damp. A day missed does no harm: count when you can."
    )
    return tuple(said)


def _stopping(counts: tuple[tuple[int, date], ...]) -> tuple[str, ...]:
    return (
        f"Stop on {_date(counts[-1][1])}, or earlier when the count says that it is decided.",
        "If many swollen seeds are still firm by then, wait some days more before you finish.",
    )


def _date(day: date) -> str:
    return f"{day.day} {day:%B}"
