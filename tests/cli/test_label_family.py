"""The family of `labels`: falls through to writing, hands the file over, remembers the printer."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click
import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from seedbox.cli.commands.labels import command
from seedbox.cli.main import seedbox
from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]


def test_with_and_without_its_word_writing_is_the_same(
    type_in: Type, code_of: Code, tin_path: Path, tmp_path: Path
) -> None:
    code_of("leek")
    one, two, three = (tmp_path / f"{number}.pdf" for number in range(3))
    type_in("labels", str(one))
    type_in("labels", "write", str(two))
    type_in("labels", "--tin", str(tin_path), f"--today={'2027-02-20'}", str(three))
    assert one.read_bytes() == two.read_bytes() == three.read_bytes()


def test_the_help_of_the_family_is_that_of_writing_and_names_the_others(type_in: Type) -> None:
    said = type_in("labels", "-h").out
    assert said.startswith("Usage: seedbox labels [OPTIONS] [FILE] [CODE]...")
    for part in ("--sheet", "Print at 100 %", "Commands:", "  write"):
        assert part in said


def test_the_shell_is_offered_the_words_a_file_and_the_options() -> None:
    context = click.Context(command, info_name="labels", parent=click.Context(seedbox))
    words = command.shell_complete(context, "w")
    assert {("write", "plain"), ("w", "file")} <= {(one.value, one.type) for one in words}
    assert {"--sheet", "--design"} <= {one.value for one in command.shell_complete(context, "--")}


@pytest.fixture
def commands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A PATH that holds xdg-open and lp, which write down what they got, and nothing else."""
    folder = tmp_path / "bin"
    folder.mkdir()
    for name in ("xdg-open", "lp"):
        script = folder / name
        script.write_text(f'#!/bin/sh\nfor w in "$@"; do echo "$w"; done > "{tmp_path}/{name}"\n')
        script.chmod(0o755)
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setattr("sys.platform", "linux")
    return tmp_path


def test_the_finished_file_is_shown_and_printed_when_asked(
    type_in: Type, code_of: Code, commands: Path
) -> None:
    code_of("leek")
    file = commands / "labels.pdf"
    said = type_in("labels", str(file), "--open", "--print")
    assert (commands / "xdg-open").read_text().split() == [str(file)]
    assert (commands / "lp").read_text().split()[-1] == str(file)
    assert "went to the printer" in said.err


def test_a_page_with_a_code_that_does_not_scan_is_not_handed_over(
    type_in: Type, code_of: Code, commands: Path, monkeypatch: pytest.MonkeyPatch
) -> None:

    code_of("leek")
    monkeypatch.setattr(zxingcpp, "read_barcodes", lambda *args, **more: [])
    file = str(commands / "labels.pdf")
    type_in("labels", file, "--print", "--open", code=ExitCode.UNREADABLE_CODE)
    assert not (commands / "lp").exists()
    assert not (commands / "xdg-open").exists()


def test_what_was_measured_is_kept_moves_the_labels_and_is_undone(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    code_of("leek")
    before, after = tmp_path / "before.pdf", tmp_path / "after.pdf"
    type_in("labels", str(before))
    said = type_in("labels", "measured", "--left", "30.5", "--top", "29", "--across", "149.5",
                   "--down", "220.5")  # fmt: skip
    assert "moved 0.6 mm left and 1.07 mm down" in said.out
    assert "at 100.33 % across and at 99.77 % down" in said.out
    kept = type_in("settings", "--json").json
    assert kept["label_offset_x_mm"] == pytest.approx(149.5 / 150 * 30 - 30.5, abs=0.005)
    assert kept["label_offset_y_mm"] == pytest.approx(220.5 / 220 * 30 - 29, abs=0.005)
    assert kept["label_scale_x"] == pytest.approx(149.5 / 150, abs=1e-5)
    assert kept["label_scale_y"] == pytest.approx(220.5 / 220, abs=1e-5)
    type_in("labels", str(after))
    assert before.read_bytes() != after.read_bytes()
    assert "Measured the printer" in type_in("history").out
    type_in("undo")
    assert type_in("settings", "--json").json["label_scale_x"] == 1.0
    type_in("labels", str(after))
    assert before.read_bytes() == after.read_bytes()


def test_a_measure_that_makes_no_sense_changes_nothing(type_in: Type, code_of: Code) -> None:
    code_of("leek")
    for words, part in (
        ((), "--left, --top"),
        (("--across", "15"), "centimetres"),
        (("--left", "90"), "from the edge"),
        (("--left", "near"), "not a number"),
    ):
        assert part in type_in("labels", "measured", *words, code=ExitCode.USAGE).err
    assert "fit the paper" in type_in("labels", "measured", "--across", "144").err
    type_in("undo")
    assert type_in("settings", "--json").json["label_scale_x"] == 1.0


def test_the_page_to_measure_needs_no_tin(type_in: Type, tmp_path: Path) -> None:
    page = tmp_path / "true.pdf"
    said = type_in("labels", "calibrate", str(page), "--page", "letter")
    assert page.read_bytes().startswith(b"%PDF") and "labels measured -h" in said.out
    assert not (tmp_path / "garden.tin").exists()
    told = type_in("labels", "calibrate", str(page), "--corrected", "--json").json
    assert told == {"path": str(page), "corrected": True}


def _as_printed(pdf: Path, number: int, dpi: int) -> Any:
    """A page of a PDF, drawn by the renderer itself."""
    document = pypdfium2.PdfDocument(pdf)
    image = document[number].render(scale=dpi / 72, grayscale=True).to_pil()
    document.close()
    return image


def test_the_preview_shows_what_would_be_printed(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    codes = [code_of("leek"), code_of("onion")]
    pdf, look = tmp_path / "labels.pdf", tmp_path / "look.png"
    options = ("--sheet", "a4-21-64x38-gap", "--start", "4", "--copies", "2")
    type_in("labels", str(pdf), *codes, *options)
    said = type_in("labels", "preview", str(look), *codes, *options, "--dpi", "200", "--json").json
    assert said == {
        "path": str(look), "paths": [str(look)], "labels": 4, "pages": 1, "proofed": True,
        "unreadable": [], "warnings": [],
    }  # fmt: skip
    with Image.open(look) as picture:
        # ISO 216: A4 is 210 x 297 mm.
        assert picture.size == (-(-2100 * 200 // 254), -(-2970 * 200 // 254))
        assert picture.info["dpi"] == pytest.approx((200, 200), abs=0.1)
        assert picture.tobytes() == _as_printed(pdf, 0, 200).tobytes()
        read = [one.text for one in zxingcpp.read_barcodes(picture)]
    assert sorted(read) == sorted(codes * 2)


def test_several_pages_are_several_pictures_and_only_pictures_are_overwritten(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    code_of("leek")
    look = tmp_path / "look.png"
    words = ("labels", "preview", str(look), "--copies", "30", "--dpi", "60")
    said = type_in(*words)
    assert f"Wrote 30 labels on 2 pages to {tmp_path}/look-1.png to look-2.png." in said.out
    assert not look.exists()
    first = (tmp_path / "look-1.png").read_bytes()
    type_in(*words)
    assert (tmp_path / "look-1.png").read_bytes() == first
    (tmp_path / "look-2.png").write_text("my notes")
    (tmp_path / "look-1.png").unlink()
    assert "is no PNG; it is left alone" in type_in(*words, code=ExitCode.USAGE).err
    assert (tmp_path / "look-2.png").read_text() == "my notes"
    assert not (tmp_path / "look-1.png").exists()
    for file, part in (("look.pdf", "does not end in .png"), ("no/look.png", "no folder")):
        told = type_in("labels", "preview", str(tmp_path / file), code=ExitCode.USAGE)
        assert part in told.err


@pytest.mark.parametrize(
    "words",
    [
        ("fold", "{file}", "--crop", "leek"),
        ("dividers", "{file}"),
        ("year", "--pdf", "{file}"),
        ("buy", "--pdf", "{file}"),
        ("stocktake", "Tin box", "--sheet", "{file}"),
        ("labels", "calibrate", "{file}"),
    ],
    ids=" ".join,
)
def test_every_page_can_be_shown_and_printed(
    type_in: Type, plot: Any, commands: Path, words: tuple[str, ...]
) -> None:
    file = str(commands / "page.pdf")
    type_in(*(word.format(file=file) for word in words), "--open", "--print")
    assert (commands / "xdg-open").read_text().split() == [file]
    assert (commands / "lp").read_text().split()[-1] == file


@pytest.mark.parametrize("words", [("year",), ("buy",), ("stocktake", "Tin box")], ids=" ".join)
def test_what_is_not_written_cannot_be_printed(
    type_in: Type, plot: Any, commands: Path, words: tuple[str, ...]
) -> None:
    assert "need a page" in type_in(*words, "--print", code=ExitCode.USAGE).err
    assert not (commands / "lp").exists()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("labels", "{code}"), "is a code. Name the file first, such as labels.pdf"),
        (("labels", "calibrat"), "Did you mean calibrate?"),
        (("labels", "Measure"), "Did you mean measured?"),
        (("fold", "{code}"), "Name the file first, such as packets.pdf"),
    ],
    ids=" ".join,
)
def test_a_code_or_a_mistyped_word_does_not_become_a_file(
    type_in: Type,
    code_of: Code,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    part: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    code = code_of("leek")
    before = sorted(tmp_path.iterdir())
    filled = [word.format(code=code) for word in words]
    assert part in type_in(*filled, code=ExitCode.USAGE).err
    assert sorted(tmp_path.iterdir()) == before
