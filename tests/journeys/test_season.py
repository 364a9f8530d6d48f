"""A season of the demo garden by commands, day by day, in processes of their own.

Sown, counted, failed, sown again, potted on late, planted out, seed saved; labels read back.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

Run = Callable[..., Any]
SAMPLE = Path(__file__).parents[2] / "sample_data"


def _codes_on(pdf: Path) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    picture = document[0].render(scale=300 / 72).to_pil()
    document.close()
    return [code.text for code in zxingcpp.read_barcodes(picture)]


@pytest.fixture
def on(run: Run) -> Callable[..., Any]:
    """Runs a command on a day, and gives its JSON."""
    run("import", str(SAMPLE))

    def on(day: str, *words: str) -> Any:
        return run(*words, "--json", "--today", day).json

    return on


def _due(jobs: list[dict[str, Any]], code: str) -> dict[str, str]:
    return {job["kind"]: job["due"] for job in jobs if job["code"] == code}


def test_a_season(run: Run, on: Callable[..., Any], tmp_path: Path) -> None:
    # 14 March: what the garden can sow, and two trays of it with their labels.
    offers = {one["crop"]: one for one in on("2027-03-14", "now")}
    kale, tomato = offers["kale"], offers["tomato"]
    assert tomato["method"] == "indoors"
    trays = []
    for offer in (kale, tomato):
        sown = on("2027-03-14", "sow", offer["code"], "--plants", str(offer["plants"]),
                  "--place", offer["place"], "--labels", f"{offer['crop']}.pdf")  # fmt: skip
        assert (sown["seeds"], sown["plants"]) == (offer["seeds"], offer["plants"])
        assert _codes_on(tmp_path / f"{offer['crop']}.pdf") == [sown["code"]]
        trays.append(sown)
    first, second = (tray["code"] for tray in trays)
    plans = {one["crop"]: one for one in on("2027-03-14", "plan", "list") if not one["variety"]}
    assert plans["kale"]["needed"] == 0

    # The kale is up; the day of emergence moves what follows.
    up = on("2027-03-24", "done", f"{first}-count", "--count", str(trays[0]["seeds"] - 4))
    assert up["event"]["count"] == trays[0]["seeds"] - 4
    assert "germination before" in up["done"]
    packet = on("2027-03-24", "show", kale["code"])
    assert [tray["emerged"] for tray in packet["trays"]][-1] == trays[0]["seeds"] - 4

    # Of the tomato nothing is seen: it is overdue, counted as none, and to be sown again.
    late = [job for job in on("2027-05-01", "today") if job["code"] == second]
    assert late[0]["kind"] == "count emergence" and late[0]["days_late"] > 7
    assert "look whether it is dry" in late[0]["why"]
    none = on("2027-05-01", "done", f"{second}-count", "--count", "0")
    assert "resow" in {job["kind"] for job in none["jobs"]}
    others = [one for one in on("2027-05-01", "now", "--crop", "tomato")
              if one["code"] != tomato["code"]]  # fmt: skip
    other = max(others, key=lambda one: one["plants"])
    again = on("2027-05-01", "resow", second, "--packet", other["code"],
               "--plants", "4")  # fmt: skip
    assert again["packet"] == other["code"]
    assert second not in {job["code"] for job in on("2027-05-01", "today")}
    third = again["code"]

    # The kale waits too long in its cells.
    jobs = on("2027-05-01", "sowings", first)["jobs"]
    assert any(job["days_late"] for job in jobs)
    assert any("pot-bound" in job["why"] for job in jobs)
    for word in ("pot-on", "harden-off"):
        if any(job["job"] == f"{first}-{word}" for job in jobs):
            on("2027-05-01", "done", f"{first}-{word}")
    on("2027-05-12", "done", f"{first}-plant-out", "--place", "Open beds", "--count", "14")
    kept = on("2027-05-12", "sowings", first)
    assert (kept["stage"], kept["place"], kept["plants"]) == ("planted out", "Open beds", 14)
    assert set(_due(kept["jobs"], first)) <= {"harvest from", "sow again"}

    # The tomato is up, potted on late, hardened off after the frosts, planted out.
    on("2027-05-12", "done", f"{third}-count", "--count", str(again["seeds"]))
    tender = _due(on("2027-05-12", "sowings", third)["jobs"], third)
    assert date.fromisoformat(tender["plant out"]) > date(2027, 4, 25)
    for word in ("pot-on", "harden-off", "plant-out"):
        kind = word.replace("-", " ")
        due = _due(on("2027-06-01", "sowings", third)["jobs"], third)
        if kind in due:
            day = max(date.fromisoformat(due[kind]) + timedelta(days=3), date(2027, 6, 1))
            on(day.isoformat(), "done", f"{third}-{word}")
    left = _due(on("2027-07-20", "sowings", third)["jobs"], third)
    assert left.keys() <= {"harvest from", "sow again"}
    on("2027-09-20", "done", f"{third}-harvest")

    # Its seed goes into a packet of its own, whose label reads.
    saved = on("2027-09-25", "save-seed", third, "--grams", "3", "--store", "Cellar jars")
    packet = on("2027-09-25", "show", saved["code"])
    assert (packet["parent"], packet["origin"]) == (other["code"], "saved")
    run("labels", "saved.pdf", saved["code"], "--today", "2027-09-25")
    assert _codes_on(tmp_path / "saved.pdf") == [saved["code"]]
    on("2027-10-20", "sowings", "end", third)
    assert third not in {one["code"] for one in on("2027-10-20", "sowings")}

    # All of it is in the export, and comes back equal.
    run("export", "kept", "--today", "2027-10-20")
    elsewhere = {"SEEDBOX_TIN": str(tmp_path / "other.tin"), "SEEDBOX_TODAY": "2027-10-20"}
    run("import", "kept", env=elsewhere)
    assert run("sowings", "--all", "--json", env=elsewhere).json == on(
        "2027-10-20", "sowings", "--all"
    )


def test_a_grower_who_never_saw_it_gets_from_nothing_to_a_tray(run: Run, tmp_path: Path) -> None:
    """Only what each answer says to type is typed."""
    import shlex

    run("add", "radish", "Quick Step", "--seeds", "400", "--packed", "2026")
    for line in run("now").out.splitlines():
        if line.startswith("  seedbox "):
            run(*shlex.split(line)[1:])
    run("place", "add", "bed", "--kind", "bed", "--temperature", "12")
    said = run("now", "--today", "2027-04-10").out
    sow = next(line for line in said.splitlines() if line.strip().startswith("seedbox sow "))
    sown = run(*shlex.split(sow)[1:], "--today", "2027-04-10").out
    count = next(line for line in sown.splitlines() if "--count NUMBER" in line)
    job = count.split("seedbox done ")[1].split(" ")[0]
    due = run("today", "--today", "2027-05-10").out
    assert f"seedbox done {job} --count NUMBER" in due
    assert "seedbox" in run("done", job, "--count", "40", "--today", "2027-05-10").out
