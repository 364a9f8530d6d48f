"""Sentences about a germination test: how it stands, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence

from seedbox.season.testing.account import Account
from seedbox.season.testing.progress import Progress, Share
from seedbox.season.testing.schedule import CountKind, NextCount
from seedbox.tin.records import GerminationTest, TestState
from seedbox.tui.units import unbroken

METHODS = {"wilson": "Wilson", "clopper-pearson": "Clopper-Pearson", "jeffreys": "Jeffreys"}
SHORT_KINDS = {CountKind.FIRST: "first", CountKind.BETWEEN: "next", CountKind.FINAL: "last"}


def seeds_words(number: int) -> str:
    return "1 seed" if number == 1 else f"{number} seeds"


def between(share: Share) -> str:
    """`60 %, 31 to 83`."""
    return f"{share.estimate * 100:.0f} %, {share.low * 100:.0f} to {share.high * 100:.0f}"


def counted(found: Progress) -> bool:
    """Whether the figures tell anything yet."""
    return found.looked_on is not None or found.test.state is TestState.FINISHED


def so_far_words(found: Progress) -> str:
    """Seedlings of the seeds laid, with the interval and which one it is."""
    if not counted(found):
        return "Not counted yet."
    return (
        f"{found.total.normal} of {found.test.seeds} germinated: {between(found.germination)};"
        f" {found.confidence * 100:.0f} % interval by {METHODS[found.method]}."
    )


def expected_words(found: Progress) -> str:
    """Where it will probably end; empty when nothing more comes or nothing can be said."""
    expected, most = found.expected, found.more_at_most
    if expected is None or not most:
        return ""
    more = "1 more seedling" if most == 1 else f"{most} more seedlings"
    return (
        f"About {expected.estimate * 100:.0f} % likely in the end, nine times in ten"
        f" {expected.low * 100:.0f} to {expected.high * 100:.0f} %; at most {more}."
    )


def verdict_word(found: Progress) -> str:
    """One or two words: good, poor, not yet, not sure."""
    decision = found.decision
    if decision.firm or decision.verdict == "not yet":
        return decision.verdict
    return "not sure"


def decided_words(found: Progress) -> str:
    return unbroken(found.decision.sentence)


def waiting(found: Account) -> tuple[int, ...]:
    """Replicates still to be counted today, once the counting of the day has begun."""
    today = {count.replicate for count in found.counts if count.on == found.progress.on}
    if not today:
        return ()
    return tuple(n for n in range(1, found.test.replicates + 1) if n not in today)


def next_words(found: Progress, waiting: Sequence[int] = ()) -> str:
    """What a person does next with a running test; `waiting` replicates come first."""
    due = found.next_count
    if waiting:
        which = " and ".join(filter(None, (", ".join(map(str, waiting[:-1])), str(waiting[-1]))))
        word = "replicate" if len(waiting) == 1 else "replicates"
        return f"Now {word} {which}: ↓ goes there. 0 says that nothing is new."
    if due is None:
        return f"All counts are made.{_left_over(found)} F finishes the test."
    if found.day == 0:
        return f"Laid today: nothing to count before tomorrow. {_first_upper(due.words(found.on))}."
    if due.on > found.on:
        stop = "It is decided: F finishes it. Or go on" if found.decision.may_stop else "Keep damp"
        return f"{stop}; {due.words(found.on)} (day {due.day}). Counting earlier does no harm."
    stop = "It is decided: F finishes it. Or count: " if found.decision.may_stop else ""
    return f"{stop}{_first_upper(due.words(found.on))} (day {due.day}). {_how(due)}"


def _how(due: NextCount) -> str:
    if due.kind is CountKind.FINAL:
        return "Sort all that is left, count each kind, then F finishes the test."
    return "Take out the normal seedlings and type how many; 0 says that you looked."


def _left_over(found: Progress) -> str:
    left = found.total.unclassed
    return f" {seeds_words(left)} not sorted will be taken for dead." if left else ""


def _first_upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def next_short(found: Progress) -> str:
    """The next count in a few cells: `first 3 Mar`, `last today`, `last 2 d late`, `finish it`."""
    due = found.next_count
    if due is None or (found.decision.may_stop and not due.late):
        return "finish it"
    kind = SHORT_KINDS[due.kind]
    if due.late:
        return f"{kind} {due.late} d late"
    near = {0: "today", 1: "tomorrow"}.get((due.on - found.on).days)
    return f"{kind} {near or f'{due.on.day} {due.on:%b}'}"


def laid_words(test: GerminationTest) -> str:
    """`20 seeds in 2 replicates on paper at 20 °C, laid 18 November 2026`."""
    parts = [seeds_words(test.seeds)]
    if test.replicates > 1:
        parts.append(f"in {test.replicates} replicates")
    if test.substrate:
        parts.append(f"on {test.substrate}")
    if test.temperature_c is not None:
        night = f", {test.night_c:g} °C by night" if test.night_c is not None else ""
        parts.append(f"at {test.temperature_c:g} °C{night}")
    words = " ".join(parts)
    if test.started_on:
        words += f", laid {test.started_on.day} {test.started_on:%B %Y}"
    return words
