"""Whatever a person types or pastes is printed inside its box, or refused with a sentence."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.printing.content import FIELDS, Box, LabelContent, LabelJob
from seedbox.printing.designs import design, designs
from seedbox.printing.drawing import draw_pages
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import lay_out
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet
from tests.printing.looking import ink

CODE = "P4K7QMX2"
HOSTILE = {
    "markup": "<b>Pea</b> &amp; [red]x[/] {crop} %s $HOME `ls` \\textbf{a} <script>",
    "control characters": "Pea\x00\x07\x1b[31m\x7f\x85\u2028\u2029\r\n\tBean",
    "overrides": "\u202eDrawkcab\u202c \u2066isolated\u2069 \u200fright",
    "right to left": "ירח הצהוב (12) قمر الدين",
    "zero width": "P\u200be\u200ca\u200d \u2060\ufeff\u00ad\u180e",
    "4,000 characters": "Wide Bean " * 400,
    "4,000 without a blank": "W" * 4000,
    "emoji": "🌱👩🏽‍🌾🇩🇪 1️⃣ ☘️",
    "piled marks": "e" + "\u0301\u0323\u0308\u20dd" * 200 + "x",
    "marks alone": "\u0301" * 50,
    "a lone surrogate": "Pea \ud83c bean \udfff",
    "private and unassigned": "\ue000\U000f0000\u0378\uffff\U0010ffff",
    "wide and narrow": "﷽𒐫꧅ⅲｗｉｄｅ",
    "PDF": ") Tj ET Q (\\) \\\\ endstream endobj %%EOF",
    "nothing but blanks": "\u00a0\u3000 \u2003",
}


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("stock", ["a4-65-38x21-gap", "a4-stake-20x140"])
def test_hostile_text_is_printed_and_the_code_read(name: str, stock: str, tmp_path: Path) -> None:
    fields = dict.fromkeys(set(FIELDS) - {"code"}, HOSTILE[name])
    contents = [LabelContent(CODE, fields, design(kind)) for kind in designs() if kind != "divider"]
    job = LabelJob(design("packet"), sheet(stock), contents)
    printed = print_labels(job, tmp_path / "labels.pdf")
    assert printed.unreadable == ()
    document = pypdfium2.PdfDocument(printed.path)
    check_inside(ink(document[0]), job)
    document.close()


TEXT = (
    st.text(max_size=60)
    | st.text(st.characters(categories=["L", "M", "N", "P", "S", "Z", "Cc", "Cf", "Co", "Cs"]))
    | st.sampled_from(list(HOSTILE.values()))
    | st.text("aאب\u202e\u0301漢🌱 \x00<", max_size=200)
)


@settings(max_examples=40, deadline=None)
@given(
    st.fixed_dictionaries(dict.fromkeys(sorted(set(FIELDS) - {"code"}), TEXT)),
    st.sampled_from(["a4-189-25x10", "a4-65-38x21-gap", "a4-stake-15x140", "roll-62mm"]),
    st.sampled_from([name for name in designs() if name != "divider"]),
)
def test_any_text_makes_a_page_with_its_code_and_its_words_inside(
    fields: dict[str, str], stock: str, kind: str
) -> None:
    job = LabelJob(design(kind), sheet(stock), [LabelContent(CODE, fields)])
    document = pypdfium2.PdfDocument(draw_pages(job, job.sheet, slots(job), 300))
    try:
        box, high = slots(job)[0].box, document[0].get_height()
        crop = (box.x, box.y, document[0].get_width() - box.right, high - box.top)
        image = document[0].render(scale=300 / 72, grayscale=True, crop=crop).to_numpy()
        found = zxingcpp.read_barcodes(image, formats=zxingcpp.QRCode, try_invert=False)
        assert [code.text for code in found] == [CODE]
        check_inside(ink(document[0]), job)
    finally:
        document.close()


def check_inside(found: list[tuple[str, Box, Any]], job: LabelJob) -> None:
    """No ink of a character outside its label or over a quiet zone. Chinese, Japanese and Korean
    letters are drawn by fonts of the reader of the file, so theirs is not looked at.
    """
    for slot in slots(job):
        layout = lay_out(slot.content.design or job.design, job.sheet, 300)
        quiet = [symbol.box for symbol in layout.symbols]
        for char, box, _ in found:
            if not (slot.box.x <= box.x <= slot.box.right and slot.box.y <= box.y <= slot.box.top):
                continue
            if 0x2E80 <= ord(char) <= 0xFAFF or ord(char) >= 0xFF00:
                continue
            assert box.right <= slot.box.right + 0.5, char
            assert box.top <= slot.box.top + 0.5, char
            for other in quiet:
                left, low = slot.box.x + other.x, slot.box.y + other.y
                beside = box.right <= left + 0.5 or box.x >= left + other.width - 0.5
                apart = box.top <= low + 0.5 or box.y >= low + other.height - 0.5
                assert beside or apart, (char, box)


@pytest.mark.parametrize(
    "code", ["", "P4K7\u202eQMX", "🌱", "\ud83c", "P4K7QMX2" * 500, "P4K7 qmx"]
)
def test_a_hostile_code_is_refused_with_a_sentence(code: str, tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet("roll-62mm"), [LabelContent(code, {"crop": "Pea"})])
    with pytest.raises(BadDataError, match="cannot be printed as a code"):
        print_labels(job, tmp_path / "labels.pdf")
    assert list(tmp_path.iterdir()) == []


def test_what_is_lost_is_told_and_told_once_a_line(tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet("roll-62mm"),
                   [LabelContent(CODE, {"crop": "Pea 🌱🌱\ud83c"})])  # fmt: skip
    (told,) = print_labels(job, tmp_path / "labels.pdf").warnings
    assert "U+1F331, U+D83C; an empty box is printed instead" in told.sentence
