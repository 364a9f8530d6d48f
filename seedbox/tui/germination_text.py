"""What the page of a germination test says, as lines for a given width."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.season.testing.account import Account
from seedbox.season.testing.protocol import Protocol
from seedbox.season.testing.results import TestResult
from seedbox.season.testing.schedule import all_count_days, count_days, started
from seedbox.season.testing.tally import Tally
from seedbox.tin.codes import shown
from seedbox.tin.counting import CATEGORIES
from seedbox.tin.records import TestCount, TestState
from seedbox.tui import growth_curve
from seedbox.tui.curve import LABEL_WIDTH
from seedbox.tui.germination_entry import Cell
from seedbox.tui.germination_grid import grid_lines
from seedbox.tui.germination_words import (
    decided_words,
    expected_words,
    laid_words,
    next_words,
    so_far_words,
    verdict_word,
    waiting,
)
from seedbox.tui.text_lines import Line, beside, heading, item, pair, paragraph
from seedbox.tui.units import unbroken

WIDE, GAP = 140, 3
GRID_WIDTH = 76
_CURVE_STYLE = {
    "axis": "$quiet",
    "band": "$quiet",
    "mean": "bold $primary",
    "test": "bold $accent",
    "today": "$quiet",
    "good": "$success",
    "poor": "$error",
}
VERDICT_STYLE = {"good": "$success", "poor": "$error", "not sure": "$warning"}
HOW_TO_COUNT = "Digits add to the cell in brackets, - takes one back, arrows choose a cell."
_INDICES = (
    ("Mean time", "mean_time", "days"),
    ("Half (Coolbear)", "t50_coolbear", "days"),
    ("Half (Farooq)", "t50_farooq", "days"),
    ("Speed (Maguire)", "speed", "seedlings a day"),
    ("Synchrony", "synchrony", "(0 to 1)"),
)


@dataclass(frozen=True, slots=True)
class TestFacts:
    """All that the page shows: `result` of a finished test, `chosen` cell of a running one."""

    __test__ = False  # not a test class, whatever its name starts with

    account: Account
    protocol: Protocol | None
    result: TestResult | None
    chosen: Cell | None


def test_lines(facts: TestFacts, width: int) -> list[Line]:
    """The counts and what to do first, then the curve, then how the test is done.

    On the day it is laid, how it is done comes first: nothing can be counted yet.
    """
    head, grid, curve = _head(facts, width), _grid(facts), _curve(facts, width, 8)
    standing = [*_standing(facts, width), *_result(facts, width)]
    protocol = _protocol(facts, width)
    if facts.account.progress.day == 0 and facts.protocol is not None:
        return [*head, *standing, *protocol, *grid, *curve]
    if facts.chosen is None:
        return [*head, *standing, *grid, *curve, *_counts(facts, width)]
    # The table stands where it stands, however many lines the words below it take.
    if width >= WIDE:
        curve = _curve(facts, width - GRID_WIDTH - GAP, 8)
        words = _standing(facts, GRID_WIDTH)
        middle = beside([*grid, [], *words], curve, GRID_WIDTH, GAP)
        return [*head, *middle, *_counts(facts, width), *protocol]
    return [*head, *grid, [], *standing, *curve, *_counts(facts, width), *protocol]


test_lines.__test__ = False  # type: ignore[attr-defined]  # its name, not its nature


def _head(facts: TestFacts, width: int) -> list[Line]:
    found = facts.account
    test = found.test
    state = f"running, day {found.progress.day}"
    if test.state is not TestState.RUNNING:
        state = f"{test.state} {test.on.day} {test.on:%B %Y}"
    whose = f"; reported by {test.reported_by}" if test.reported_by else ""
    about = f"{laid_words(test)}; packet {shown(found.packet.code)}{whose}"
    lines: list[Line] = [[(found.name, "bold"), (f" · {state}", "$quiet")]]
    return [*lines, *paragraph(about, width, "$quiet")]


def _standing(facts: TestFacts, width: int) -> list[Line]:
    found = facts.account.progress
    if found.test.state is not TestState.RUNNING:
        return []
    lines = pair("Next", next_words(found, waiting(facts.account)), width, "bold")
    lines += pair("So far", so_far_words(found), width)
    if found.looked_on is not None:
        words = expected_words(found)
        lines += pair("To come", words, width) if words else []
    style = VERDICT_STYLE.get(verdict_word(found), "")
    lines += pair("Decided", decided_words(found), width, style)
    if found.spread is not None:
        style = "" if found.spread.agree else "$warning"
        words = found.spread.sentence.removeprefix("Replicates: ")
        lines += pair("Replicates", unbroken(words), width, style)
    for remark in found.remarks:
        if "0 is a count" in remark:
            lines += pair("Mind", unbroken(remark), width, "$warning")
    return lines


def _result(facts: TestFacts, width: int) -> list[Line]:
    found = facts.account.progress
    if facts.result is None:
        said = found.remarks if found.test.state is TestState.DROPPED else ()
        return [line for sentence in said for line in paragraph(sentence, width)]
    lines: list[Line] = [[]]
    *others, effect = facts.result.sentences
    for sentence in others:
        lines += item(unbroken(sentence), width)
    lines += item(unbroken(effect), width, "bold")
    if facts.result.indices is not None:
        lines += heading("How fast and how evenly")
        for name, attribute, unit in _INDICES:
            value = getattr(facts.result.indices, attribute)
            if value is not None:
                lines.append([(f"{name:<18}", "$quiet"), (f"{value:.2f} {unit}", "")])
    return lines


def _grid(facts: TestFacts) -> list[Line]:
    found = facts.account
    if not found.counts and found.test.state is not TestState.RUNNING:
        return []
    today = [c for c in found.counts if c.on == found.progress.on and facts.chosen]
    replicates = found.progress.replicates or _uncounted(found)
    lines: list[Line] = [[], *grid_lines(replicates, today, facts.chosen)]
    if facts.chosen is not None:
        lines.append([(HOW_TO_COUNT, "$quiet")])
    return lines


def _uncounted(found: Account) -> tuple[Tally, ...]:
    numbers = range(1, found.test.replicates + 1)
    return tuple(Tally(number, found.test.laid(number)) for number in numbers)


def _curve(facts: TestFacts, width: int, height: int) -> list[Line]:
    found = facts.account.progress
    test, decision = found.test, found.decision
    running = test.state is TestState.RUNNING
    if test.state is TestState.DROPPED or not (running or found.counts):
        return []
    first, final = count_days(test)
    expected = found.expected if running and found.more_at_most else None
    drawn = growth_curve.draw(
        growth_curve.Growth(
            found.curve,
            test.seeds,
            final,
            found.day if running else None,
            all_count_days(first, final),
            decision.good_from,
            decision.poor_to,
            (expected.low, expected.high) if expected else None,
        ),
        width,
        height,
    )
    parts = ["line: seedlings so far", "o a count"]
    parts += ["░ likely to the end"] if expected else []
    parts += ["│ today"] if running else []
    # Spaces within a part do not break, so that a sign stays with its word.
    legend = "\u00a0\u00a0 ".join(part.replace(" ", "\u00a0") for part in parts)
    lines = heading("Seedlings day by day")
    lines += [[(p.text, _CURVE_STYLE.get(p.role, "")) for p in row] for row in drawn]
    return [*lines, *paragraph(legend, width, "$quiet", indent=LABEL_WIDTH)]


def _counts(facts: TestFacts, width: int) -> list[Line]:
    found = facts.account
    if not found.counts:
        return []
    lines = heading("Counts")
    for count in found.counts:
        lines += pair(_day(facts, count), _found(facts, count), width)
    return lines


def _day(facts: TestFacts, count: TestCount) -> str:
    return f"day {(count.on - started(facts.account.test)).days}"


def _found(facts: TestFacts, count: TestCount) -> str:
    told = [f"{number} {name}" for name in CATEGORIES if (number := getattr(count, name))]
    where = f", replicate {count.replicate}" if facts.account.test.replicates > 1 else ""
    return f"{count.on.day} {count.on:%B}{where}: {', '.join(told) or 'nothing new'}"


def _protocol(facts: TestFacts, width: int) -> list[Line]:
    if facts.protocol is None:
        return []
    return protocol_lines(facts.protocol, width)


def protocol_lines(protocol: Protocol, width: int) -> list[Line]:
    """Cautions first, then how it is done, step by step."""
    lines = heading("Cautions")
    for caution in protocol.cautions:
        lines += item(unbroken(caution), width, "$error", mark="!")
    for section in protocol.sections:
        lines += heading(section.title)
        for sentence in section.sentences:
            lines += item(unbroken(sentence), width)
    return lines
