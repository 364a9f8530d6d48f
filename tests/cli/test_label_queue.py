"""The queue of labels by commands: what the Labels tab does, in plain lines."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]


@pytest.fixture
def codes(type_in: Type, code_of: Code) -> dict[str, str]:
    """Two packets, a tray of six cells, a test in two replicates."""
    leek = code_of("leek", "Flagstaff Lane", "--harvest", "2023", "--seeds", "200")
    pea = code_of("pea", "[b]Otter[/b]", "--harvest", "2025", "--seeds", "90")
    type_in("place", "add", "sill", "--kind", "windowsill", "--temperature", "18")
    tray = type_in("sow", pea, "--place", "sill", "--cells", "6", "--per-cell", "2", "--json").json[
        "code"
    ]
    test = type_in("test", "start", leek, "--seeds", "20", "--replicates", "2", "--json").json[
        "code"
    ]
    return {"leek": leek, "pea": pea, "tray": tray, "test": test}


def queue(type_in: Type, *words: str) -> list[tuple[str, str, int, int]]:
    found = type_in("labels", "queue", "list", "--json", *words).json
    return [(one["code"], one["design"], one["copies"], one["labels"]) for one in found]


def test_all_kinds_wait_in_order_and_are_written_each_in_its_design(
    type_in: Type, codes: dict[str, str], tmp_path: Path
) -> None:
    type_in("labels", "queue", "add", codes["tray"], codes["leek"], codes["test"])
    type_in("labels", "queue", "add", codes["pea"], "--copies", "2")
    assert queue(type_in) == [
        (codes["tray"], "tray", 1, 1),
        (codes["leek"], "packet", 1, 1),
        (codes["test"], "test", 1, 2),
        (codes["pea"], "packet", 2, 2),
    ]
    assert queue(type_in, "--each", "cell")[0] == (codes["tray"], "tray", 1, 6)
    said = type_in("labels", "queue", "list").lines
    assert "[b]Otter[/b]" in said[4]
    assert said[-1] == "6 labels to print."
    file = tmp_path / "queue.pdf"
    written = type_in("labels", "queue", "write", str(file), "--line", "Otter Lane plot 4")
    assert "Every code was read back from the page." in written.out
    # Read by zxing-cpp, an independent reader of ISO/IEC 18004 symbols.
    with pypdfium2.PdfDocument(file) as document:
        (page,) = (one.render(scale=300 / 72, grayscale=True).to_pil() for one in document)
        words = document[0].get_textpage().get_text_range()
    seen = sorted(one.text for one in zxingcpp.read_barcodes(page))
    assert seen == sorted(
        [codes["tray"], codes["leek"], codes["test"], codes["test"], codes["pea"], codes["pea"]]
    )
    assert "replicate 2 of 2" in words
    assert "Otter Lane plot 4" in words
    assert len(queue(type_in)) == 4  # a file is not paper


def test_what_is_on_paper_leaves_the_queue_and_the_sheet_moves_on(
    type_in: Type, codes: dict[str, str]
) -> None:
    type_in("settings", "label_start", "20")
    type_in("labels", "queue", "add", codes["leek"], codes["pea"], "--copies", "3")
    before = queue(type_in)
    said = type_in("labels", "queue", "printed")
    assert "Printed 6 labels. Label 2 of the sheet is the next free one." in said.out
    assert queue(type_in) == []
    assert type_in("settings", "--json").json["label_start"] == 2
    type_in("undo")
    assert queue(type_in) == before
    assert type_in("settings", "--json").json["label_start"] == 20
    type_in("labels", "queue", "printed", "--next", "9")
    assert type_in("settings", "--json").json["label_start"] == 9


def test_filters_choose_packets_and_asking_twice_prints_once(
    type_in: Type, codes: dict[str, str]
) -> None:
    type_in("labels", "queue", "add", "--crop", "leek")
    type_in("labels", "queue", "add", "--text", "otter")
    type_in("labels", "queue", "add", codes["leek"])
    assert [code for code, *_ in queue(type_in)] == [codes["leek"], codes["pea"]]
    type_in("labels", "queue", "add", codes["leek"], "--design", "jar")
    assert len(queue(type_in)) == 3
    type_in("labels", "queue", "remove", codes["leek"], "--design", "jar")
    type_in("labels", "queue", "change", codes["leek"], "--to-design", "stake", "--copies", "4")
    assert queue(type_in)[0] == (codes["leek"], "stake", 4, 4)
    type_in("labels", "queue", "change", codes["leek"], "--to-design", "usual")
    assert queue(type_in)[0] == (codes["leek"], "packet", 4, 4)
    assert "Took 2 labels out of the queue." in type_in("labels", "queue", "clear").out
    assert "No label waits." in type_in("labels", "queue", "list").out


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("add",), ExitCode.USAGE, "Name codes, or filters"),
        (("add", "{leek}", "--crop", "leek"), ExitCode.USAGE, "one of the two"),
        (("add", "{leek}", "--design", "jarr"), ExitCode.NOT_FOUND, "no label design"),
        (("add", "--tag", "nothing"), ExitCode.NOT_FOUND, "No packet fits"),
        (("remove",), ExitCode.USAGE, "Name the codes"),
        (("remove", "{leek}"), ExitCode.NOT_FOUND, "No label of"),
        (("change", "{leek}"), ExitCode.USAGE, "into what"),
        (("write", "out.pdf"), ExitCode.NOT_FOUND, "No label waits."),
        (("printed",), ExitCode.NOT_FOUND, "none was printed"),
    ],
)
def test_what_makes_no_sense_is_a_sentence(
    type_in: Type, codes: dict[str, str], words: tuple[str, ...], code: ExitCode, told: str
) -> None:
    typed = [word.format(**codes) for word in words]
    said = type_in("labels", "queue", *typed, code=code)
    assert told in said.err
    assert queue(type_in) == []


@pytest.mark.parametrize(
    ("words", "told", "after"),
    [
        ((), "printed", 6),
        (("--start", "20"), "printed --next 23", 23),
        (("--start", "23"), "printed --next 2", 2),
        (("--sheet", "a4-65-38x21-gap", "--start", "9"), "printed --next 3", 3),
        (("--each", "cell"), "printed --each cell", 11),
    ],
)
def test_the_command_to_type_next_moves_the_sheet_on_as_it_was_printed(
    type_in: Type,
    codes: dict[str, str],
    tmp_path: Path,
    words: tuple[str, ...],
    told: str,
    after: int,
) -> None:
    type_in("settings", "label_start", "3")
    type_in("labels", "queue", "add", codes["leek"], codes["pea"], codes["tray"])
    said = type_in("labels", "queue", "write", str(tmp_path / "q.pdf"), "--no-proof", *words).out
    line = said.rstrip().splitlines()[-1]
    assert line == f"When they are on paper: seedbox labels queue {told}"
    type_in(*line.partition("seedbox ")[2].split())
    assert type_in("settings", "--json").json["label_start"] == after


def test_a_sharing_label_tells_a_portion_by_either_way(
    type_in: Type, codes: dict[str, str], tmp_path: Path
) -> None:
    """The label goes out with a portion: what the packet holds is not said on it."""
    leek, file = codes["leek"], tmp_path / "gift.pdf"
    spare = type_in("swap", "spare", "--all", "--json").json
    seeds = next(one["seeds_per_portion"] for one in spare if one["code"] == leek)
    type_in("labels", "queue", "add", leek, "--design", "sharing")
    for words in (("queue", "write", file), ("write", file, leek, "--design", "sharing")):
        type_in("labels", *map(str, words), "--no-proof")
        document = pypdfium2.PdfDocument(file)
        said = " ".join(document[0].get_textpage().get_text_range().split())
        document.close()
        assert f"{seeds} seeds" in said and "200 seeds" not in said, words
