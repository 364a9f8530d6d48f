"""From the printer's measure to pages and back: what is printed is read again from its picture."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2

Run = Callable[..., Any]
GARDEN = Path(__file__).parents[1] / "cli" / "golden" / "garden"


def _picture(pdf: Path, number: int = 0) -> str:
    """A page as a scanner would see it at 200 dpi; its file."""
    document = pypdfium2.PdfDocument(pdf)
    path = pdf.with_suffix(f".{number}.png")
    document[number].render(scale=200 / 72, grayscale=True).to_pil().save(path)
    document.close()
    return str(path)


def test_pages_go_out_and_come_back(run: Run, tmp_path: Path) -> None:
    run("import", str(GARDEN))
    packets = {one["crop"]: one["code"] for one in run("list", "--json").json}

    # The printer is measured, and a picture of the labels is looked at before they are printed.
    run("labels", "measured", "--left", "31", "--top", "29.5", "--across", "149.5")
    shown = run("labels", "preview", "look.png", "--dpi", "200", "--json").json
    assert shown["labels"] == len(packets)
    assert _found(run, "look.png") == set(packets.values())

    # Packets to fold for two of them: the picture of the page is read like any photo.
    leek, tomato = packets["leek"], packets["tomato"]
    run("fold", "gifts.pdf", leek, tomato, "--size", "57x89", "--seeds", "20", "--to-give")
    assert _found(run, _picture(tmp_path / "gifts.pdf")) == {leek, tomato}

    # The sheet of what should lie in the box, read from its picture, is the whole stocktake.
    run("stocktake", "tin box", "--sheet", "box.pdf")
    stock = run("stocktake", "tin box", _picture(tmp_path / "box.pdf"), "--json").json
    assert set(stock["found"]) == set(packets.values())
    assert (stock["missing"], stock["not_in_this_tin"]) == ([], [])

    # Pages change nothing but the printer's measure, and that is taken back.
    run("undo")
    assert run("settings", "label_offset_x_mm").out.startswith("label_offset_x_mm is 0")


def _found(run: Run, picture: str) -> set[str]:
    return {one["code"] for one in run("scan", picture, "--json").json["seen"]}
