"""Sowing, jobs done, put off and skipped, sowing again, sowings listed and shown, tray labels."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import ExitCode

Type = Callable[..., Any]
JOB_KEYS = ["job", "kind", "due", "days_late", "code", "crop", "variety", "what", "why"]


def _read(pdf: Path) -> tuple[list[str], str]:
    """Codes on the first page by an independent reader, and the words on it."""
    document = pypdfium2.PdfDocument(pdf)
    picture = document[0].render(scale=300 / 72).to_pil()
    words = document[0].get_textpage().get_text_range()
    document.close()
    return [code.text for code in zxingcpp.read_barcodes(picture)], words


def test_a_sowing_takes_seed_and_gets_code_jobs_and_label(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    kale, label = plot.packets["kale"], tmp_path / "tray.pdf"
    said = type_in("sow", kale, "--plants", "12", "--place", "windowsill", "--labels", str(label))
    code = re.search(r"Sown (S\w{3} \w{4}): (\d+) seeds of kale", said.out)
    assert code is not None
    sown, seeds = code[1].replace(" ", ""), int(code[2])
    assert type_in("show", kale, "--json").json["seeds"] == 200 - seeds
    codes, words = _read(label)
    assert codes == [sown]
    assert "sown 2027-02-20" in words
    assert "Kitchen windowsill" in words
    one = type_in("sowings", sown, "--json").json
    assert f"{one['cells']} cells of {one['seeds_per_cell']}" in words
    assert (one["seeds"], one["plants_wanted"], one["stage"]) == (seeds, 12, "sown")
    kinds = [job["kind"] for job in one["jobs"]]
    assert kinds[0] == "count emergence"
    assert {"harden off", "plant out", "harvest from"} <= set(kinds)
    type_in("undo")
    assert type_in("show", kale, "--json").json["seeds"] == 200
    assert "no sowing" in type_in("sowings", sown, code=ExitCode.NOT_FOUND).err


def test_what_now_advises_is_what_sow_does(type_in: Type, plot: Any) -> None:
    offers = {one["crop"]: one for one in type_in("now", "--json").json}
    for crop in ("kale", "lettuce"):
        offer = offers[crop]
        words = ("sow", plot.packets[crop], "--plants", str(offer["plants"]), "--json")
        sown = type_in(*words).json
        for name in ("place", "cells", "seeds_per_cell", "seeds", "plants", "assurance"):
            assert sown[name] == offer[name], (crop, name)
        assert sown["labels"] is None
        assert [list(job) for job in sown["jobs"]] == [JOB_KEYS] * len(sown["jobs"])


def test_cells_as_told_and_rows(type_in: Type, plot: Any) -> None:
    kale = plot.packets["kale"]
    tray = type_in("sow", kale, "--cells", "12", "--per-cell", "2", "--place", "sill", "--json",
                   code=None)  # fmt: skip
    assert tray.code == 0
    assert (tray.json["cells"], tray.json["seeds_per_cell"], tray.json["seeds"]) == (12, 2, 24)
    row = type_in("sow", plot.packets["parsnip"], "--seeds", "90", "--row", "3", "--place", "bed",
                  "--json").json  # fmt: skip
    assert (row["cells"], row["seeds"], row["row_m"]) == (None, 90, 3.0)
    dry = type_in("sow", kale, "--cells", "5", "--place", "sill", "--dry-run").out
    assert "Nothing was sown" in dry
    assert type_in("show", kale, "--json").json["seeds"] == 200 - 24


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("{onion}", "--plants", "40", "--place", "sill"), "too doubtful for even one sure plant"),
        (("{leek}", "--plants", "90", "--place", "sill"), "for sure, not 90"),
        (("{kale}", "--cells", "200", "--per-cell", "2", "--place", "sill"), "only 200 seeds left"),
        (("{kale}", "--per-cell", "2", "--place", "sill"), "give --cells too"),
        (("{kale}", "--cells", "2", "--seeds", "9", "--place", "sill"), "not both"),
        (("{kale}", "--row", "2", "--place", "sill"), "give --seeds too"),
        (("{kale}", "--plants", "0"), "1 or more"),
        (("{kale}", "--plants", "9", "--place", "attic"), "no place called “attic”"),
        (("{tomato}", "--plants", "6"), "Now is not the time for it: too early"),
        (("{kale}", "--plants", "9", "--on", "2027-03-01", "--place", "sill"), "in the future"),
        (("PZZZZZZZ", "--plants", "9"), "check character"),
        (("{kale}", "--plants", "9", "--labels", "/nowhere/x.pdf"), "There is no folder"),
    ],
)
def test_sowings_that_cannot_be(
    type_in: Type, plot: Any, words: tuple[str, ...], told: str
) -> None:
    before = type_in("list", "--json").json
    said = type_in("sow", *(word.format(**plot.packets) for word in words), code=None)
    assert said.code != ExitCode.DONE
    assert told in said.err
    assert type_in("list", "--json").json == before


def test_too_little_seed_is_sown_when_told_so(type_in: Type, plot: Any) -> None:
    words = ("sow", plot.packets["leek"], "--plants", "90", "--place", "sill", "--short", "--json")
    sown = type_in(*words).json
    assert sown["plants"] < 90
    assert "for sure, not 90" in sown["short"]


def test_today_has_jobs_of_sowings_beside_counts_of_tests(type_in: Type, plot: Any) -> None:
    type_in("test", "start", plot.packets["kale"], "--seeds", "20", "--laid", "2027-02-10")
    jobs = type_in("today", "--json").json
    assert [list(job) for job in jobs] == [JOB_KEYS] * len(jobs)
    assert [job["days_late"] for job in jobs] == sorted(
        (j["days_late"] for j in jobs), reverse=True
    )
    assert {job["code"][0] for job in jobs} == {"S", "T"}
    said = type_in("today").out
    assert f"seedbox done {plot.sowings['leek']}-count --count NUMBER" in said
    assert f"seedbox resow {plot.sowings['sweet pea']}" in said
    assert "seedbox test count" in said


def test_a_count_teaches_and_moves_the_rest(type_in: Type, plot: Any) -> None:
    leek = plot.sowings["leek"]
    jobs = {job["kind"]: job["due"] for job in type_in("sowings", leek, "--json").json["jobs"]}
    said = type_in("done", f"{leek}-count", "--count", "70", "--on", "2027-02-18").out
    assert "70 of 96 seeds came up." in said
    assert "germination before" in said
    assert "Undo with: seedbox undo" in said
    after = type_in("sowings", leek, "--json").json
    now = {job["kind"]: job["due"] for job in after["jobs"]}
    assert "count emergence" not in now
    # Not seen yet, they come up today at the soonest; in truth they were up two days before.
    assert now["pot on"] < jobs["pot on"]
    assert (after["stage"], after["emerged"]) == ("up", 70)
    tray = type_in("show", plot.packets["leek"]).out
    assert "70 of 96 came up" in tray


def test_a_job_may_be_typed_in_any_way(type_in: Type, plot: Any) -> None:
    bean = plot.sowings["broad bean"]
    typed = f"{bean[:4].lower()} {bean[4:]}"
    said = type_in("done", *typed.split(), "thin", "--count", "18").out
    assert "thinned, 18 plants" in said
    assert type_in("sowings", *typed.split(), "--json").json["plants"] == 18


def test_put_off_and_skip(type_in: Type, plot: Any) -> None:
    leek = plot.sowings["leek"]
    type_in("put-off", f"{leek}-count", "--until", "2027-03-01")
    (job,) = [one for one in type_in("sowings", leek, "--json").json["jobs"]
              if one["kind"] == "count emergence"]  # fmt: skip
    assert (job["due"], job["days_late"]) == ("2027-03-01", 0)
    assert leek not in {job["code"] for job in type_in("today", "--json").json}
    type_in("put-off", leek, "harden", "off")
    type_in("skip", f"{leek}-pot-on", "--note", "Deep cells.")
    kinds = {job["kind"] for job in type_in("sowings", leek, "--json").json["jobs"]}
    assert "pot on" not in kinds and "plant out" in kinds
    assert "skipped: pot-on (Deep cells.)" in type_in("sowings", leek).out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("done", "{leek}-count"), "Say how many came up with --count"),
        (("done", "{leek}-count", "--count", "5000"), "count again"),
        (("done", "{leek}-count", "--count", "-1"), "0 or more"),
        (("done", "{leek}-sow-again"), "has no job “sow-again” open"),
        (("done", "{leek}"), "names no job"),
        (("done", "{leek}-harrow"), "names no job"),
        (("done", "{leek}-count", "--count", "9", "--on", "2026-12-01"), "nothing happened to it"),
        (("done", "{leek}-plant-out", "--place", "attic"), "no place called"),
        (("done", "T0000000-7-count"), "seedbox test count"),
        (("put-off", "{leek}-count", "--until", "2027-01-01"), "to a later day"),
        (("skip", "{leek}-resow"), "has no job “resow” open"),
        (("sowings", "count", "{leek}", "--count", "5000"), "count again"),
        (("sowings", "move", "{leek}", "--place", "attic"), "no place called"),
        (("sowings", "failed", "{sweet pea}"), "failed on 2026-11-21"),
        (("resow", "P0000000"), "P000"),
    ],
)
def test_jobs_that_cannot_be(type_in: Type, plot: Any, words: tuple[str, ...], told: str) -> None:
    before = type_in("sowings", "--all", "--json").json
    said = type_in(*(word.format(**plot.sowings) for word in words), code=None)
    assert said.code != ExitCode.DONE
    assert told in said.err
    assert type_in("sowings", "--all", "--json").json == before


def test_what_failed_is_sown_again_for_what_is_missing(type_in: Type, plot: Any) -> None:
    pea = plot.sowings["sweet pea"]
    sown = type_in("resow", pea, "--place", "sill", "--json").json
    assert (sown["packet"], sown["plants"]) == (plot.packets["sweet pea"], 4)
    assert pea not in {job["code"] for job in type_in("today", "--json").json}
    assert plot.sowings["sweet pea"] != sown["code"]


def test_the_next_sowing_is_for_as_many_as_the_last(type_in: Type, plot: Any) -> None:
    """Not for those that thinning took: only what failed is made up for."""
    lettuce = plot.packets["lettuce"]
    first = type_in("sow", lettuce, "--plants", "12", "--place", "sill", "--json").json["code"]
    type_in("done", f"{first}-count", "--count", "13", "--on", "2027-02-26",
            "--today", "2027-02-26")  # fmt: skip
    (job,) = [one for one in type_in("today", "--json", "--today", "2027-03-08").json
              if one["kind"] == "sow again"]  # fmt: skip
    assert job["due"] == "2027-03-06"  # the plan says every 14 days
    again = type_in("resow", first, "--json", "--today", "2027-03-08").json
    assert (again["plants"], again["place"]) == (12, "Kitchen windowsill")
    left = type_in("today", "--json", "--today", "2027-03-08").json
    assert "sow again" not in {one["kind"] for one in left}


def test_a_sowing_that_does_well_is_sown_again_with_a_word_about_it(
    type_in: Type, plot: Any
) -> None:
    lettuce = plot.packets["lettuce"]
    sown = ("sow", lettuce, "--plants", "12", "--cells", "14", "--per-cell", "3")
    first = type_in(*sown, "--place", "sill", "--json").json["code"]
    later = ("--dry-run", "--today", "2027-03-02")
    said = type_in("resow", first, *later).out
    assert f"What came up of {first[:4]} {first[4:]} was not counted yet" in said
    type_in("done", f"{first}-count", "--count", "36", "--on", "2027-02-26",
            "--today", "2027-02-26")  # fmt: skip
    said = type_in("resow", first, *later).out
    assert (
        f"Mind: {first[:4]} {first[4:]} does well (36 of 42 came up, 14 plants of 12 wanted) and"
        " is to be sown again from 6 March: this is one more sowing, for 12 plants." in said
    )
    due = type_in("resow", first, "--dry-run", "--json", "--today", "2027-03-20").json
    assert not any("one more sowing" in one for one in due["warnings"])
    done = type_in("resow", first, "--json", "--today", "2027-03-02").json
    assert "one more sowing" in done["warnings"][0]
    failed = type_in("resow", plot.sowings["sweet pea"], "--dry-run").out
    assert "one more" not in failed


def test_what_no_job_asks_for(type_in: Type, plot: Any) -> None:
    leek = plot.sowings["leek"]
    assert (
        "stands in Cold greenhouse now" in type_in("sowings", "move", leek, "--place", "cold").out
    )
    type_in("done", f"{leek}-count", "--count", "40")
    assert "55 of 96 came up so far" in type_in("sowings", "count", leek, "--count", "55").out
    one = type_in("sowings", "show", leek, "--json").json
    assert (one["emerged"], one["place"], one["sown_in"]) == (
        55, "Cold greenhouse", "Kitchen windowsill")  # fmt: skip
    assert "is over" in type_in("sowings", "end", leek).out
    assert leek not in {one["code"] for one in type_in("sowings", "--json").json}
    assert leek in {one["code"] for one in type_in("sowings", "--all", "--json").json}
    type_in("sowings", "remove", leek)
    assert leek not in {one["code"] for one in type_in("sowings", "--all", "--json").json}


def test_sowings_late_ones_first_and_one_of_them(type_in: Type, plot: Any) -> None:
    found = type_in("sowings", "--json").json
    assert {one["code"] for one in found} == set(plot.sowings.values())  # the failed one: resow
    late = [max(job["days_late"] for job in one["jobs"]) for one in found]
    assert late == sorted(late, reverse=True) and late[0] > 0
    assert f", {late[0]} days late" in type_in("sowings").out
    crops = {one["crop"] for one in type_in("sowings", "--crop", "leek", "--json").json}
    assert crops == {"leek"}
    by_show = type_in("show", plot.sowings["leek"]).out
    assert by_show == type_in("sowings", plot.sowings["leek"]).out
    assert by_show == type_in("sowings", "show", plot.sowings["leek"]).out
    assert by_show.startswith("SCQY 5B0Z  leek, Grey Mast\n")


def test_labels_of_trays_by_code_and_of_all_in_progress(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    file = tmp_path / "trays.pdf"
    type_in("labels", str(file), plot.sowings["leek"], "--copies", "2")
    assert _read(file)[0] == [plot.sowings["leek"]] * 2
    type_in("labels", str(file), "--design", "tray")
    assert sorted(_read(file)[0]) == sorted(plot.sowings[crop] for crop in ("leek", "broad bean"))
    words = ("labels", str(file), plot.sowings["leek"], "--crop", "leek")
    assert "Filters choose packets" in type_in(*words, code=ExitCode.USAGE).err
    type_in("labels", str(file), "--design", "tray", "--crop", "kale")
    assert _read(file)[0] == [plot.packets["kale"]]


def test_a_garden_without_frosts_can_still_sow(type_in: Type, code_of: Any) -> None:
    kale = code_of("kale", "Tall Lantern", "--seeds", "90", "--packed", "2026")
    assert "seedbox place add" in type_in("sow", kale, "--plants", "4", code=ExitCode.USAGE).err
    type_in("place", "add", "Sill", "--kind", "windowsill", "--temperature", "18")
    said = type_in("sow", kale, "--plants", "4", "--place", "sill").out
    assert "seedbox garden --last-frost" in said
    assert "Nothing is due" in type_in("today").out


def test_codes_and_jobs_are_completed(type_in: Type, plot: Any) -> None:
    import click
    from click.shell_completion import ShellComplete

    from seedbox.cli.main import seedbox

    def offered(words: list[str], begun: str) -> list[str]:
        complete = ShellComplete(seedbox, {}, "seedbox", "_SEEDBOX_COMPLETE")
        return [item.value for item in complete.get_completions(words, begun)]

    assert isinstance(seedbox, click.Group)
    leek = plot.sowings["leek"]
    assert offered(["sowings", "show"], leek[:3]) == [leek]
    assert f"{leek}-count" in offered(["done"], leek[:3])
    assert all(job.startswith(leek) for job in offered(["put-off"], leek[:4].lower()))
    assert offered(["sow", plot.packets["kale"], "--place"], "kit") == ["Kitchen windowsill"]
    assert offered(["place", "edit"], "B") == ["Bed"]
    for words in (["save-seed"], ["show"], ["labels", "trays.pdf"]):
        assert leek in offered(words, leek[:3])
    assert plot.packets["kale"] in offered(["sow"], plot.packets["kale"][:3])


_ODD = ("", "  ", "\x1b[31m", "é" * 300, "-1", "0", "1e9", "9" * 20, "nan", "none", "2027-02-19",
        "=1+1", "S0000000", "18", "4 4 6")  # fmt: skip
_ASKED = (
    ("garden", "--last-frost"), ("garden", "--latitude"), ("garden", "--tray-cells"),
    ("place", "add", "--kind", "bed", "--temperature"), ("place", "edit", "Bed", "--months"),
    ("plan", "add", "kale", "--plants"), ("plan", "edit", "kale", "--again"), ("plan", "remove"),
    ("now", "--crop"), ("now", "--place"), ("sow",), ("sow", "{kale}", "--place", "Bed", "--seeds"),
    ("sow", "{kale}", "--place", "sill", "--cells"), ("sow", "{kale}", "--place", "Bed", "--on"),
    ("sowings",), ("sowings", "failed"), ("sowings", "move", "{sown}", "--place"), ("done",),
    ("done", "{sown}-count", "--count"), ("put-off", "{sown}-harvest", "--until"), ("skip",),
    ("resow", "{sown}", "--plants"), ("year", "--year"), ("year", "--crop"), ("save-seed",),
    ("save-seed", "{kale}", "--dry", "5", "--moisture"), ("save-seed", "{kale}", "--grams"),
)  # fmt: skip


@pytest.mark.parametrize("asked", _ASKED, ids=" ".join)
def test_odd_words_get_a_sentence_and_never_a_fault(
    type_in: Type, plot: Any, asked: tuple[str, ...]
) -> None:
    known = {"kale": plot.packets["kale"], "sown": plot.sowings["leek"]}
    for odd in _ODD:
        said = type_in(*(word.format(**known) for word in asked), odd, code=None)
        assert "fault of its own" not in said.err, (asked, odd)
        assert said.code == ExitCode.DONE or said.err.strip(), (asked, odd)
