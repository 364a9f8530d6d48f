"""A swap from both sides by commands: lists, a proposal, labels, booking, and all of it undone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import zxingcpp

Run = Callable[..., Any]

MAUD = """crop,variety,seeds,harvest_year,origin,store
leek,Grey Mast,600,2026,bought,Jar
kale,Rookery,900,2026,bought,Jar
lettuce,Quiet Morning,80,2026,bought,Jar
larkspur,Bell Rope,2000,2026,bought,Jar
"""
IESTYN = """crop,variety,seeds,harvest_year,origin,note,store
swede,Cart Wheel,700,2025,bought,Wants a firm bed. Paid 4.20.,Box
zucchini,Striped Awning,90,2026,bought,,Box
pea,Dray Horse,400,2026,saved,,Box
"""


def _codes_on(pdf: Path) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    found = [
        code.text
        for page in document
        for code in zxingcpp.read_barcodes(page.render(scale=300 / 72).to_pil())
    ]
    document.close()
    return found


def _left(run: Run, env: dict[str, str]) -> dict[str, float]:
    return {one["crop"]: one["seeds"] for one in run("list", "--json", env=env).json}


def test_a_swap_between_two_tins(run: Run, tmp_path: Path) -> None:
    maud = {"SEEDBOX_TIN": str(tmp_path / "maud.tin")}
    iestyn = {"SEEDBOX_TIN": str(tmp_path / "iestyn.tin")}
    for env, name, table in ((maud, "Maud", MAUD), (iestyn, "Iestyn", IESTYN)):
        (tmp_path / f"{name}.csv").write_text(table, encoding="utf-8")
        run("import", f"{name}.csv", env=env)
        run("settings", "grower_name", name, env=env)
    run("swap", "want", "courgette", "--portions", "2", "--worth", "5", env=maud)
    run("swap", "want", "swede", "--portions", "3", env=maud)
    run("swap", "want", "leek", "Grey Mast", "--portions", "2", "--worth", "4", env=iestyn)
    run("swap", "want", "kale", "--portions", "2", env=iestyn)
    run("swap", "want", "larkspur", "--worth", "5", env=iestyn)

    # What Iestyn offers goes to Maud as a file, without what is his own business.
    run("swap", "list", "from-iestyn.json", "--name", env=iestyn)
    assert "4.20" not in (tmp_path / "from-iestyn.json").read_text(encoding="utf-8")

    # Larkspur is poisonous: without Maud's word it is not part of it, though he wants it most.
    match = ("swap", "match", "tin", "from-iestyn.json", "--save", "swap.json")
    proposal = run(*match, "--json", env=maud).json
    assert proposal.keys() == {"transfers", "balance", "worth", "bound"}
    for one in proposal["transfers"]:
        assert one.keys() == {"from", "to", "crop", "variety", "portions", "worth"}
    moved = {one["crop"]: one["portions"] for one in proposal["transfers"]}
    assert "larkspur" not in moved
    assert moved == {"leek": 2, "kale": 2, "courgette": 2, "swede": 3}
    assert proposal["worth"] == proposal["bound"] == 2 * 4 + 2 * 3 + 2 * 5 + 3 * 3
    for side in proposal["balance"]:
        assert abs(side["gives"] - side["receives"]) <= 1  # the setting swap_tolerance
    said = run(*match, env=maud).out
    assert "You give leek Grey Mast to Iestyn and get" in said
    assert "because Iestyn wants leek Grey Mast (worth 4 of 5)" in said

    # Booked on both sides; every label of a portion reads back.
    before = _left(run, maud), _left(run, iestyn)
    done = run("swap", "book", "swap.json", "--labels", "sharing.pdf", "--json", env=maud).json
    codes = _codes_on(tmp_path / "sharing.pdf")
    assert sorted(codes) == sorted(
        one["code"] for one in done["given"] for _ in range(one["portions"])
    )
    run("swap", "book", "swap.json", "--as", "iestyn", "--store", "box", env=iestyn)
    after = _left(run, maud), _left(run, iestyn)
    for crop in ("leek", "kale"):
        assert before[0][crop] - after[0][crop] == after[1][crop] > 0
    for crop in ("courgette", "swede"):
        assert before[1][crop] - after[1][crop] == after[0][crop] > 0
    assert run("swap", "want", "--json", env=maud).json == []
    assert [one["crop"] for one in run("swap", "want", "--json", env=iestyn).json] == ["larkspur"]
    come = next(one for one in done["received"] if one["crop"] == "swede")
    packet = run("show", come["code"], "--json", env=maud).json
    assert (packet["origin"], packet["source"], packet["harvest_year"]) == (
        "swapped", "Iestyn", 2025,
    )  # fmt: skip

    # Twice is once; and one undo on each side takes all of it back.
    assert "booked already" in run("swap", "book", "swap.json", env=maud, code=4).err
    for env in (maud, iestyn):
        run("undo", env=env)
    assert (_left(run, maud), _left(run, iestyn)) == before
