"""`fold`: packets by code and filter, on both papers, as a picture; what does not fit is told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import ExitCode
from seedbox.resources import labels_dir

Type = Callable[..., Any]


def _codes(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    found = [
        read.text
        for page in document
        for read in zxingcpp.read_barcodes(page.render(scale=300 / 72).to_pil())
    ]
    document.close()
    return found


def test_packets_by_code_keep_their_order_and_carry_how_to_sow(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    path = tmp_path / "packets.pdf"
    leek, tomato = plot.packets["leek"], plot.packets["tomato"]
    said = type_in("fold", str(path), leek, tomato, "--seeds", "25", "--json").json
    assert said == {
        "path": str(path), "packets": 2, "pages": 1, "proofed": True, "unreadable": [],
        "warnings": [],
    }  # fmt: skip
    assert sorted(_codes(path)) == sorted([leek, tomato])
    document = pypdfium2.PdfDocument(path)
    words = " ".join(document[0].get_textpage().get_text_range().split())
    document.close()
    assert words.index("Grey Mast") < words.index("Ferry Lamp")
    for part in ("25 seeds", "indoors 7 Mar to 4 Apr", "Kitchen", "seller's figure 88 %", "6 mm"):
        assert part in words


def test_size_paper_copies_and_filters(type_in: Type, plot: Any, tmp_path: Path) -> None:
    path = tmp_path / "packets.pdf"
    said = type_in("fold", str(path), "--crop", "leek", "--size", "86x152", "--copies", "2",
                   "--page", "letter", "--no-proof")  # fmt: skip
    assert said.out.startswith("Wrote 2 packets on 2 pages")
    assert "not read back" in said.out
    document = pypdfium2.PdfDocument(path)
    assert document[0].get_size() == (612, 792)
    document.close()
    first = path.read_bytes()
    type_in("settings", "page", "letter")
    type_in("fold", str(path), "--crop", "leek", "--size", "86x152", "--copies", "2", "--no-proof")
    assert path.read_bytes() == first


def test_a_picture_of_the_page_is_drawn_first(type_in: Type, plot: Any, tmp_path: Path) -> None:
    path = tmp_path / "look.png"
    said = type_in("fold", str(path), *plot.packets.values(), "--size", "57x89")
    pages = sorted(tmp_path.glob("look-*.png"))
    assert len(pages) == 5
    assert f"Wrote 9 packets on 5 pages to {pages[0]} to look-5.png." in said.out
    assert all(page.read_bytes().startswith(b"\x89PNG") for page in pages)


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        ((), ExitCode.USAGE, "Name the file"),
        (("{pdf}",), ExitCode.USAGE, "Say for which packets"),
        (("{pdf}", "{leek}", "--size", "120x100"), ExitCode.USAGE, "such as 57x89, 64x108"),
        (("{pdf}", "{leek}", "--size", "big"), ExitCode.USAGE, "no packet size"),
        (("{pdf}", "{leek}", "--page", "a3"), ExitCode.USAGE, "a4, letter"),
        (("{pdf}", "--tag", "none"), ExitCode.NOT_FOUND, "No packet fits"),
        (("{pdf}/no/x.pdf", "{leek}"), ExitCode.USAGE, "no folder"),
        (("{tin}", "{leek}"), ExitCode.USAGE, "no PDF"),
    ],
)
def test_what_cannot_be_folded(
    type_in: Type, plot: Any, tmp_path: Path, words: tuple[str, ...], code: int, part: str
) -> None:
    names = {"pdf": str(tmp_path / "x.pdf"), "leek": plot.packets["leek"],
             "tin": str(tmp_path / "garden.tin")}  # fmt: skip
    assert part in type_in("fold", *(word.format(**names) for word in words), code=code).err
    assert not (tmp_path / "x.pdf").exists()


def test_usual_sizes_are_listed_with_how_many_a_page_holds(type_in: Type) -> None:
    sizes = type_in("fold", "--sizes", "--json").json
    listed = {one["size"]: (one["a4"], one["letter"]) for one in sizes}
    assert (listed["57x89"], listed["70x100"], listed["86x152"]) == ((2, 2), (2, 1), (1, 1))
    assert "from memory" in type_in("fold", "--sizes").out


def test_a_design_of_one_s_own_and_what_is_wrong_with_it(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    design, file = tmp_path / "mine.toml", str(tmp_path / "packets.pdf")
    shipped = (labels_dir() / "folding" / "packet.toml").read_text(encoding="utf-8")
    design.write_text(shipped.replace("bottom_mm = 15.0", "bottom_mm = 30.0"), encoding="utf-8")
    words = ("fold", file, "--crop", "leek", "--design", str(design))
    assert type_in(*words, "--size", "57x89", "--json").json["packets"] == 1
    design.write_text(shipped.replace("bottom_mm = 15.0", "bottom_mm = 90"), encoding="utf-8")
    told = type_in(*words, code=ExitCode.BAD_DATA).err
    assert "mine.toml, [flaps], bottom_mm: 90 is out of range" in told
