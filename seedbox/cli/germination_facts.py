"""A germination test for programs. Shares are fractions; what is not known is null."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from seedbox.cli.germination_words import verdict

if TYPE_CHECKING:
    from seedbox.season.forecast import Forecast
    from seedbox.season.testing.account import Account
    from seedbox.season.testing.progress import Progress, Share
    from seedbox.season.testing.results import TestResult
    from seedbox.tin.records import TestCount


def facts(found: Account) -> dict[str, Any]:
    """One test: what was laid, what was counted, and how it stands."""
    test, progress = found.test, found.progress
    total, decision = progress.total, progress.decision
    return {
        "code": test.code,
        "packet": found.packet.code,
        "crop": found.line.crop,
        "variety": found.packet.variety,
        "state": test.state,
        "started_on": test.started_on,
        "on": test.on,
        "day": progress.day,
        "seeds": test.seeds,
        "replicates": test.replicates,
        "substrate": test.substrate,
        "temperature_c": test.temperature_c,
        "night_c": test.night_c,
        "pretreatment": test.pretreatment or None,
        "first_count_day": test.first_count_day,
        "final_count_day": test.final_count_day,
        "counts": [_count(each, found) for each in found.counts],
        "germination": _share(progress.germination),
        "interval": {"method": progress.method, "confidence": progress.confidence},
        "expected": _share(progress.expected),
        "more_at_most": progress.more_at_most,
        "decided": verdict(progress) or None,
        "may_stop": decision.may_stop,
        "decision": decision.sentence,
        "poor_to": decision.poor_to,
        "good_from": decision.good_from,
        "normal": total.normal,
        "abnormal": _told(found, total.abnormal, test.abnormal),
        "hard": total.hard,
        "fresh": _told(found, total.fresh, test.fresh),
        "dead": _told(found, total.dead, test.dead),
        "germinated": total.normal,
        "unclassed": total.unclassed,
        "replicates_agree": progress.spread.agree if progress.spread else None,
        "next_count": _next(progress),
        "remarks": list(progress.remarks),
        "indices": found.indices,
        "note": test.note,
        "reported_by": test.reported_by or None,
    }


def result_facts(result: TestResult) -> dict[str, Any]:
    """What a finished test did: the forecast before and after, and earlier tests beside it."""
    return {
        "forecast_before": _forecast(result.before),
        "forecast_after": _forecast(result.after),
        "earlier": [
            {
                "code": each.earlier.code,
                "on": each.earlier.on,
                "seeds": each.earlier.seeds,
                "germinated": each.earlier.germinated,
                "agrees": each.spread.agree,
            }
            for each in result.comparisons
        ],
    }


def _told(found: Account, counted: int, written: int | None) -> int | None:
    """A figure of a test that was written down whole is null where nobody told."""
    return counted if found.counts else written


def _count(each: TestCount, found: Account) -> dict[str, Any]:
    laid = found.test.started_on or found.test.on
    return {
        "on": each.on,
        "day": (each.on - laid).days,
        "replicate": each.replicate,
        "normal": each.normal,
        "abnormal": each.abnormal,
        "hard": each.hard,
        "fresh": each.fresh,
        "dead": each.dead,
    }


def _share(share: Share | None) -> dict[str, float] | None:
    if share is None:
        return None
    return {"estimate": share.estimate, "low": share.low, "high": share.high}


def _next(progress: Progress) -> dict[str, Any] | None:
    due = progress.next_count
    if due is None:
        return None
    return {"kind": due.kind, "day": due.day, "on": due.on, "days_late": due.late}


def _forecast(forecast: Forecast) -> dict[str, Any]:
    return {
        "mean": forecast.mean,
        "low": forecast.low,
        "high": forecast.high,
        "advice": forecast.advice,
    }
