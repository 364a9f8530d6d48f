"""Whether the counts so far already answer whether a lot is poor or good."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.science.sequential import Decision, SequentialPlan, Verdict, decide
from seedbox.tin.preferences import Settings
from seedbox.units import per_cent


@dataclass(frozen=True, slots=True)
class TestDecision:
    """What the counts say; `verdict` is `good`, `poor` or `not yet`.

    `firm` is True when it keeps the error rates of the settings: then the test may stop. At the
    end a verdict that is not firm only says to which side the count fell. Of the seeds laid,
    `poor_to` or fewer are poor and `good_from` or more are good; None where so few seeds cannot
    tell.
    """

    __test__ = False  # not a test class, whatever its name starts with

    verdict: str
    firm: bool
    needed: int
    poor_to: int | None
    good_from: int | None
    sentence: str

    @property
    def may_stop(self) -> bool:
        return self.firm


def wald_plan(settings: Settings) -> SequentialPlan:
    """Wald's plan with the settings' poor and good germination and one error for both sides."""
    error = settings.test_error
    return SequentialPlan(settings.test_poor, settings.test_good, error, error)


def decision(
    settings: Settings, seeds: int, normal: int, may_come: int, *, running: bool = True
) -> TestDecision:
    """The decision for `normal` seedlings of `seeds`, when at most `may_come` more are likely.

    `running` is False for a test that has ended: nobody is told to stop it then.
    """
    found = decide(wald_plan(settings), seeds, normal, may_come)
    verdict = "not yet" if found.verdict is Verdict.OPEN else found.verdict.value
    limits = found.limits
    return TestDecision(
        verdict,
        found.firm,
        found.needed,
        limits.poor if limits.poor >= 0 else None,
        limits.good if limits.good <= seeds else None,
        _sentence(found, settings, seeds, normal, may_come, running=running),
    )


def _sentence(
    found: Decision, settings: Settings, seeds: int, normal: int, may_come: int, *, running: bool
) -> str:
    limits = found.limits
    stop = " You may stop." if may_come and running else ""
    if found.verdict is Verdict.GOOD and found.firm:
        return (
            f"Good: {normal} of {seeds} have come. From {limits.good} on it is taken for good seed"
            f" ({_between(settings)}).{stop}"
        )
    if found.verdict is Verdict.POOR and found.firm:
        more = f", {may_come} more at most are likely" if may_come else ""
        return (
            f"Poor: {normal} of {seeds} have come{more}. At {limits.poor} or fewer it is taken for"
            f" poor seed ({_between(settings)}).{stop}"
        )
    rule = _rule(found, seeds)
    if found.verdict is Verdict.OPEN:
        return f"Not yet: {normal} of {seeds} have come, {may_come} more at most are likely. {rule}"
    side = "good" if found.verdict is Verdict.GOOD else "poor"
    return f"Not sure, nearer to {side}: {normal} of {seeds} came. {rule}"


def _between(settings: Settings) -> str:
    return (
        f"{per_cent(settings.test_good)} rather than {per_cent(settings.test_poor)},"
        f" planned to be wrong {per_cent(settings.test_error)} of the time at most"
    )


def _rule(found: Decision, seeds: int) -> str:
    limits = found.limits
    good = f"good from {limits.good}" if limits.good <= seeds else ""
    poor = f"poor at {limits.poor} or fewer" if limits.poor >= 0 else ""
    both = ", ".join(filter(None, (good, poor)))
    if not both:
        return f"So few seeds as {seeds} cannot settle it."
    return f"{both[0].upper()}{both[1:]}."
