from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from seedbox.printing.fonts import BOX, clean, is_embedded, runs, width
from seedbox.resources import labels_dir


@pytest.mark.parametrize("weight", ["regular", "semibold"])
def test_latin_vietnamese_greek_and_cyrillic_come_from_one_embedded_font(weight: str) -> None:
    # The modern Vietnamese, Greek and Cyrillic letters, by the Unicode code charts.
    text = "ĂÂĐÊÔƠƯăâđêôơưẮẰẲẴẶẤẦẨẪẬẾỀỂỄỆỐỒỔỖỘỚỜỞỠỢỨỪỬỮỰỲỴỶỸ"
    text += "".join(chr(code) for code in (*range(0x391, 0x3A2), *range(0x3A3, 0x3CA)))
    text += "ΆΈΉΊΌΎΏάέήίόύώΐΰ" + "".join(map(chr, range(0x400, 0x460))) + "ґўіїєЁёßœłžřőığ½°·…–’"
    (run,) = runs(text, weight)
    assert is_embedded(run.font)


def test_greek_in_an_italic_line_falls_back_to_upright() -> None:
    assert [run.font for run in runs("Ab Αβ", "italic")] == ["Seedbox-italic", "Seedbox-regular"]


@pytest.mark.parametrize(
    ("text", "font"),
    [
        ("夕焼けトマト", "HeiseiKakuGo-W5"),
        ("大白菜", "STSong-Light"),
        ("배추", "HYGothic-Medium"),
    ],
)
def test_east_asian_words_use_the_reader_s_fonts(text: str, font: str) -> None:
    assert {run.font for run in runs(text, "semibold")} == {font}
    assert not is_embedded(font)
    assert width(text, "semibold") == pytest.approx(len(text))  # full-width signs are square


@pytest.mark.parametrize("text", ["🌱", "ⵣⵎ", "\U00013000", "\ue000"])
def test_what_no_font_has_becomes_boxes(text: str) -> None:
    assert [run.font for run in runs(text, "regular")] == [BOX]


def test_a_font_put_into_the_folder_is_used_and_embedded(tmp_path: Path) -> None:
    shutil.copytree(labels_dir(), tmp_path / "labels")
    # Tifinagh letters of an open font that a Linux desktop has; drawn by a fresh process, since
    # fonts are registered once.
    found = next(iter(Path("/usr/share/fonts").rglob("DejaVuSans.ttf")), None)
    if found is None:
        pytest.skip("no font with Tifinagh letters on this machine")
    shutil.copy(found, tmp_path / "labels" / "fonts" / "Added.ttf")
    script = (
        "import sys; from pathlib import Path; import seedbox.resources as r;"
        "r._shipped = lambda name: Path(sys.argv[1]) / name;"
        "from seedbox.printing.fonts import is_embedded, runs;"
        "print(*[(run.font, is_embedded(run.font)) for run in runs('Pea ⵣⵎ', 'semibold')])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(tmp_path)], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "('Seedbox-semibold', True) ('Seedbox-Added.ttf', True)"


def test_text_is_composed_and_on_one_line() -> None:
    assert clean("Cafe\u0301\n \x07 noir\u200b\u202e\ufe0f ") == "Caf\u00e9 noir"
