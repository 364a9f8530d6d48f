"""Ten thousand rows of everything that can be wrong with a spreadsheet at once."""

from __future__ import annotations

import csv
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.exporting import export
from seedbox.tin.exchange.plans import ImportPlan
from seedbox.tin.exchange.rejecting import write_rejects
from seedbox.tin.file import Tin
from seedbox.tin.history import undo

ROWS = 10_000
_NASTY = (
    "=cmd|' /C calc'!A0", "@SUM(1)", "+1", "-1", "\tTab", "＝1", "'=1", "#REF!", "#N/A", "\x00\x01",
    "\x1b[31mred", "a\nb", 'quo"te', "🥕" * 30, "שלום", "x" * 5_000, "NULL", "1e309", "nan", "inf",
    "2019.0", "31/02/2020", "0x1F", "١٢", "½", "%s%n", "<b>", "[red]", "../../etc", "\u202eabc",
)  # fmt: skip


def _row(rng: random.Random, number: int) -> list[str]:
    good = [
        rng.choice(("tomato", "Pea", "runner bean", "kale", "leek")), f"Invented {number}",
        str(rng.randint(1990, 2026)), str(rng.randint(1, 500)), rng.choice(("Shed", "Drawer", "")),
        rng.choice(("", "2027", "May 2027")), rng.choice(("", "85%", "0.9")), "",
    ]  # fmt: skip
    if rng.random() < 0.6:
        good[rng.randrange(len(good))] = rng.choice(_NASTY)
    if rng.random() < 0.05:
        good += ["too", "many"]
    return good[: rng.randrange(1, len(good))] if rng.random() < 0.05 else good


def _written(path: Path, encoding: str) -> int:
    rng = random.Random(7)
    header = ["Crop", "Variety", "Year", "Qty", "Where", "Sow by", "Germ %", "Notes"]
    rows = [_row(rng, number) for number in range(ROWS)]
    rows[77] = ["kale", "long", "2020", "5", "", "", "", "y" * 1_048_576]
    rows[99] = ["", " ", ""]
    with path.open("w", encoding=encoding, errors="replace", newline="") as file:
        csv.writer(file).writerows([header, *rows])
    return sum(any(cell.replace("\0", "").strip() for cell in row) for row in rows)


@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "utf-16"])
def test_it_ends_with_sentences_and_nothing_is_lost(
    tin: Tin, plan: Callable[..., ImportPlan], encoding: str
) -> None:
    path = tin.path.parent / "hostile.csv"
    filled = _written(path, encoding)
    planned = plan(path)
    assert len(planned.new) + planned.already + len(planned.rejects) == filled
    assert 1_000 < len(planned.rejects) < 9_000
    assert all(problem.sentence and problem.row for problem in planned.problems)
    assert any("1,048,576 characters" in problem.sentence for problem in planned.problems)
    done = carry_out(tin, planned)
    assert len(tin.packets()) == done.added == len(planned.new)

    rejects = tin.path.parent / "rejects.csv"
    write_rejects(planned, rejects)
    again = plan(rejects)
    assert (len(again.new), again.already, len(again.rejects)) == (0, 0, len(planned.rejects))
    assert plan(path).already == done.added

    (out,) = export(tin, tin.path.parent / "out.csv", name_of_crop=str)
    with out.open(encoding="utf-8-sig", newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert not any(cell.lstrip().startswith(tuple("=+-@＝\t")) for cell in cells)
    undo(tin)
    assert tin.packets() == []
