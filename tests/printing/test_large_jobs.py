"""Large jobs: memory does not grow with the number of labels, the same job gives the same bytes."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
import tracemalloc
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pytest

from seedbox.errors import BadDataError
from seedbox.printing.content import Contents, LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.drawing import draw_into
from seedbox.printing.labels import print_labels
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet

DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
Make = Callable[[int], list[LabelContent]]


class Nowhere(io.RawIOBase):
    """A file that only counts what it is given."""

    def __init__(self) -> None:
        self.length = 0

    def write(self, data: bytes) -> int:  # type: ignore[override]
        self.length += len(data)
        return len(data)


def content(number: int) -> LabelContent:
    serial = number * 2_654_435_761 % 32**7
    code = "P" + "".join(DIGITS[serial >> 5 * place & 31] for place in range(7))
    return LabelContent(code, {"crop": f"Bean {number}", "variety": f"Long Meadow {number}"})


def job(count: int) -> LabelJob:
    return LabelJob(design("packet"), sheet("a4-65-38x21-gap"), Contents(range(count), content))


HEAVY = 12_000


def heavy(number: int) -> LabelContent:
    """The same label again and again, so that no cache fills up, with a burden that is not drawn
    (no packet label shows `law`): whoever keeps labels is found out."""
    burden = f"{number:06}" * (HEAVY // 6)
    return LabelContent("P4K7QMX2", {"crop": "Bean", "variety": "Long Meadow", "law": burden})


def peak(count: int) -> int:
    """The most memory in use while so many labels are drawn [bytes]."""
    wanted = replace(job(count), items=Contents(range(count), heavy))
    tracemalloc.reset_peak()
    draw_into(Nowhere(), wanted, wanted.sheet, slots(wanted), 300)
    return tracemalloc.get_traced_memory()[1]


def test_memory_does_not_grow_with_the_number_of_labels() -> None:
    """1,000 and 10,000 are measured by `python -m tests.bench printing`; this is the small twin.
    Two of the 65 labels of a page may wait for the collector.
    """
    tracemalloc.start()
    try:
        peak(65)  # what is kept for the next label fills up once
        few, many = peak(65), peak(650)
    finally:
        tracemalloc.stop()
    assert few > 65 * HEAVY / 2  # a page of them is in memory: else this would show nothing
    assert many - few < 2 * 9 * HEAVY


def test_pages_are_written_while_others_are_drawn() -> None:
    target, written = Nowhere(), []

    def note(number: int) -> LabelContent:
        written.append(target.length)
        return content(number)

    wanted = replace(job(390), items=Contents(range(390), note))
    draw_into(target, wanted, wanted.sheet, slots(wanted), 300)
    after = [written[66 * page] for page in range(1, 6)]
    assert all(low < high for low, high in pairwise(after))


def test_words_are_made_when_they_are_asked_for() -> None:
    made: list[int] = []

    def note(number: int) -> LabelContent:
        made.append(number)
        return content(number)

    lazy = Contents(range(1_000_000), note)
    assert len(lazy) == 1_000_000
    assert lazy[999_999].code == content(999_999).code
    assert [one.code for one in lazy[5:7]] == [content(5).code, content(6).code]
    places = slots(LabelJob(design("packet"), sheet("roll-29mm"), lazy, copies=3))
    assert (len(places), places[-1].page, places[4].content.code) == (
        3_000_000, 2_999_999, content(1).code)  # fmt: skip
    assert len(made) < 10


def test_a_page_costs_few_bytes() -> None:
    """209 bytes a QR code before it is compressed, and some for its words."""
    files = []
    for count in (130, 390):
        target, wanted = Nowhere(), job(count)
        draw_into(target, wanted, wanted.sheet, slots(wanted), 300)
        files.append(target.length)
    assert (files[1] - files[0]) / 260 < 250


SAME = """
import hashlib, sys
from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design, designs
from seedbox.printing.drawing import draw_pages
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet
words = {"crop": "Свёкла", "variety": "Ễnh Ương 夕焼け 🌱", "group": "Ρίζες", "note": "a b c"}
for name in designs():
    job = LabelJob(design(name), sheet("a4-8-99x68-gap"), [LabelContent("P4K7QMX2", words)] * 9)
    print(name, hashlib.sha256(draw_pages(job, job.sheet, slots(job), 300)).hexdigest())
"""


def test_two_processes_write_the_same_bytes() -> None:
    """Sets and dictionaries of text are ordered otherwise in each of them."""
    said = [
        subprocess.run(
            [sys.executable, "-c", SAME],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert said[0].count("\n") == 7
    assert said[0] == said[1]


def test_the_same_job_gives_the_same_bytes_and_another_gives_others(
    make_items: Make, tmp_path: Path
) -> None:
    found = []
    for count in (12, 12, 13):
        wanted = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), make_items(count))
        path = print_labels(wanted, tmp_path / "labels.pdf", proof=False).path
        found.append(hashlib.sha256(path.read_bytes()).hexdigest())
    assert found[0] == found[1] != found[2]


def test_a_streamed_file_is_whole(make_items: Make, tmp_path: Path) -> None:
    """An independent reader finds every page, its size and its words by the file's own table."""
    wanted = LabelJob(design("packet"), sheet("letter-30-2.625x1"), make_items(70))
    path = print_labels(wanted, tmp_path / "labels.pdf", proof=False).path
    raw = path.read_bytes()
    assert raw.rstrip().endswith(b"%%EOF")
    start = int(raw.rsplit(b"startxref", 1)[1].split()[0])
    table = raw[start:].split(b"trailer")[0].split(b"\n")
    assert table[1] == b"0 %d" % (len(table) - 3)
    for number, entry in enumerate(table[3:-1], 1):
        offset = int(entry[:10])
        assert len(entry) == 19  # with its line end 20: ISO 32000-1:2008, 7.5.4, from memory
        assert entry.endswith(b" n ")
        assert raw[offset:].startswith(b"%d 0 obj" % number)
    document = pypdfium2.PdfDocument(path)
    assert len(document) == 3
    words = "".join(page.get_textpage().get_text_range() for page in document)
    assert all(item.text("code") in words for item in wanted.items)
    assert document[2].get_size() == pytest.approx((612, 792))
    document.close()


def test_a_fault_half_way_leaves_the_old_file_and_no_rest(make_items: Make, tmp_path: Path) -> None:
    path = tmp_path / "labels.pdf"
    good = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), make_items(3))
    before = print_labels(good, path, proof=False).path.read_bytes()
    bad = LabelJob(good.design, good.sheet, [*make_items(100), LabelContent("no code")])
    with pytest.raises(BadDataError, match="cannot be printed as a code"):
        print_labels(bad, path)
    assert path.read_bytes() == before
    assert [entry.name for entry in tmp_path.iterdir()] == ["labels.pdf"]
