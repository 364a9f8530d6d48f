"""`seedbox scan` and `seedbox stocktake`, typed as a person types them."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from PIL import Image

from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.quantity import left
from tests.scanning.conftest import CODES, EAN

Run = Callable[..., Any]


@pytest.fixture
def mixed(tmp_path: Path) -> Path:
    """A packet of the tin, a stranger's packet, a foreign link and a shop's number."""
    table = Image.new("L", (1500, 1000), 220)
    qr, ean = zxingcpp.BarcodeFormat.QRCode, zxingcpp.BarcodeFormat.EAN13
    things = ((CODES[3], qr), (CODES[11], qr), ("https://garden.example/\x1b[31m", qr), (EAN, ean))
    for number, (text, kind) in enumerate(things):
        made = zxingcpp.write_barcode_to_image(zxingcpp.create_barcode(text, kind), scale=5)
        table.paste(Image.fromarray(made), (80 + 700 * (number % 2), 80 + 450 * (number // 2)))
    table.save(tmp_path / "mixed.png")
    return tmp_path / "mixed.png"


def test_a_photo_becomes_a_list(run: Run, photo: Path) -> None:
    told = run("scan", photo).stdout
    assert told.startswith("9 packets in 1 photo.")
    found = [line[:9] for line in told.splitlines() if "Long Hill" in line]
    assert found == [shown(code) for code in CODES[:9]]


def test_json_says_where_each_code_stands(run: Run, photo: Path) -> None:
    told = json.loads(run("scan", photo, "--json").stdout)
    assert [each["code"] for each in told["seen"]] == CODES[:9]
    first, last = told["seen"][0], told["seen"][8]
    assert first["x"] < last["x"]
    assert first["y"] < last["y"]
    assert first["store"] == "drawer"
    assert told["not_in_this_tin"] == told["trade_numbers"] == told["other_codes"] == []


def test_strangers_links_and_trade_numbers_are_told_apart(run: Run, mixed: Path) -> None:
    told = run("scan", mixed).stdout
    assert f"{shown(CODES[11])}  a packet that is not in this tin" in told
    assert f"{EAN}  as on {shown(CODES[3])}: leek, Long Hill 3" in told.replace("Leek", "leek")
    assert "QR: https://garden.example/" in told
    assert "\x1b" not in told
    listed = json.loads(run("scan", mixed, "--json").stdout)
    assert listed["trade_numbers"][0]["packets"] == [CODES[3]]


def test_open_shows_the_packet_of_the_photo(run: Run, mixed: Path, photo: Path) -> None:
    assert run("scan", mixed, "--open").stdout.startswith(f"{shown(CODES[3])}  ")
    assert "9 codes were seen" in run("scan", photo, "--open", code=2).stderr


def test_open_shows_the_page_of_a_sowing_and_of_a_test(
    run: Run, tin: Tin, shoot: Callable[..., Any], tmp_path: Path
) -> None:
    run("place", "add", "sill", "--kind", "windowsill", "--temperature", "18")
    run("sow", CODES[0], "--seeds", "10", "--place", "sill")
    run("test", "start", CODES[1], "--seeds", "10")
    sowing, test = tin.sowings()[0].code, tin.tests(state=None)[0].code
    for code, words in ((sowing, ("show", sowing)), (test, ("test", "show", test))):
        shoot([code], 1, (700, 500)).save(tmp_path / f"{code}.png")
        page = run(*words).stdout
        assert shown(code) in page
        assert run("scan", tmp_path / f"{code}.png", "--open").stdout == page


def test_open_proposes_the_packet_of_a_shops_number(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "bars.png"
    table = Image.new("L", (900, 600), 220)
    made = zxingcpp.create_barcode(EAN, zxingcpp.BarcodeFormat.EAN13)
    table.paste(Image.fromarray(zxingcpp.write_barcode_to_image(made, scale=5)), (80, 80))
    table.save(path)
    told = run("scan", path, "--open")
    assert told.stdout.startswith(shown(CODES[3]))
    assert "not which packet you hold" in told.stderr
    run("edit", CODES[3], "--ean", "")
    assert "came with the number" in run("scan", path, "--open", code=None).stderr


def test_taking_from_all_is_one_change(run: Run, photo: Path, tin: Tin) -> None:
    told = run("scan", photo, "--take", "5", "--given").stdout
    assert told.startswith("5 given from each of 9 packets.")
    packets = [tin.packet(code) for code in CODES[:9]]
    assert {left(tin, packet) for packet in packets} == {35}
    assert {tin.movements(packet.id)[-1].kind for packet in packets} == {"given"}
    run("undo")
    assert {left(tin, packet) for packet in packets} == {40}


def test_where_one_packet_has_too_little_nothing_is_taken(run: Run, photo: Path, tin: Tin) -> None:
    run("take", CODES[4], "38")
    told = run("scan", photo, "--take", "5", code=4).stderr
    assert f"{shown(CODES[4])} has only 2 seeds" in told
    assert left(tin, tin.packet(CODES[0])) == 40


def test_moving_is_one_change(run: Run, photo: Path, tin: Tin) -> None:
    assert "Moved 7 packets to shed." in run("scan", photo, "--move", "shed").stdout
    assert {tin.dossier(code).store.name for code in CODES[:9]} == {"shed"}
    run("undo")
    assert tin.dossier(CODES[0]).store.name == "drawer"


def test_a_photo_that_cannot_be_read_stops_a_change(
    run: Run, photo: Path, tmp_path: Path, tin: Tin
) -> None:
    (tmp_path / "bad.jpg").write_bytes(b"no photo")
    assert "9 packets" in run("scan", photo, tmp_path / "bad.jpg").stdout
    told = run("scan", photo, tmp_path / "bad.jpg", "--take", "5", code=4).stderr
    assert "Nothing was changed" in told
    assert left(tin, tin.packet(CODES[0])) == 40


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--take", "5", "--move", "shed"), "one change at a time"),
        (("--given",), "add --take"),
        (("--done", "dance"), "is no job"),
        (("--done", "thin"), "No sowing of this tin was seen"),
        (("--take", "0"), "changes nothing"),
        (("--move", "attic"), "no store called"),
    ],
)
def test_what_makes_no_sense_is_refused(
    run: Run, photo: Path, words: tuple[str, ...], sentence: str, tin: Tin
) -> None:
    before = len(tin.history())
    assert sentence in run("scan", photo, *words, code=None).stderr
    assert len(tin.history()) == before


def test_nothing_seen_says_what_to_do(run: Run, tmp_path: Path) -> None:
    Image.new("L", (400, 300), 200).save(tmp_path / "blank.png")
    told = run("scan", tmp_path / "blank.png", code=3)
    assert "No code could be read." in told.stderr
    assert "--thorough" in told.stderr


def test_jobs_of_trays_are_done_at_once(run: Run, shoot: Any, tmp_path: Path, tin: Tin) -> None:
    run("garden", "--last-frost", "1 May", "--first-frost", "15 October", code=None)
    run("place", "add", "sill", "--kind", "windowsill", "--temperature", "18", code=None)
    trays = [
        json.loads(run("sow", CODES[n], "--place", "sill", "--cells", "6", "--per-cell", "2",
                       "--json").stdout)["code"]
        for n in (0, 1)
    ]  # fmt: skip
    path = tmp_path / "trays.png"
    shoot(trays, 2, (1000, 500), named="tray").save(path)
    assert "2 sowings in 1 photo." in run("scan", path).stdout
    told = run("scan", path, "--done", "thin").stdout
    assert told.startswith("Done: ")
    assert [event.kind for event in tin.sowing_events()] == ["thinned", "thinned"]
    run("undo")
    assert tin.sowing_events() == []


def test_a_stocktake_by_photo(run: Run, photo: Path, tin: Tin) -> None:
    told = run("stocktake", "drawer", photo).stdout
    assert "6 packets found as written, 0 missing, 3 of another store, 0 strangers" in told
    assert "(shed)" in told
    assert "(no store yet)" in told
    assert len(tin.history()) == 3
    assert "Moved 3 packets here." in run("stocktake", "drawer", photo, "--write").stdout
    run("undo")
    assert tin.dossier(CODES[7]).store.name == "shed"


def test_a_stocktake_by_hand_scanner(run: Run, tin: Tin) -> None:
    typed = f"{shown(CODES[0]).lower()}\r\n\r\n{CODES[11]}\n{CODES[9]}\n{CODES[0]}\n"
    told = json.loads(run("stocktake", "drawer", "--codes-from", "-", "--json", typed=typed).stdout)
    assert told["found"] == [CODES[0], CODES[9]]
    assert told["empty_but_there"] == [CODES[9]]
    assert told["not_in_this_tin"] == [CODES[11]]
    assert told["missing"] == CODES[1:6]


def test_a_line_that_is_no_code_is_named_and_stops_a_change(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "codes.txt"
    path.write_text(f"\ufeff{CODES[0]}\nP4K7\n", encoding="utf-8")
    told = run("stocktake", "drawer", "--codes-from", path)
    assert "row 2" in told.stderr
    assert "1 packet found" in told.stdout
    assert (
        "Nothing was changed"
        in run("stocktake", "drawer", "--codes-from", path, "--gone", code=4).stderr
    )


def test_a_listing_loads_none_of_it(run: Run, tin_path: Path) -> None:
    ask = (
        "import sys; from seedbox.cli.main import seedbox\n"
        "try: seedbox(sys.argv[1:], prog_name='seedbox')\n"
        "except SystemExit: print(sorted(n for n in sys.modules if n.startswith(\n"
        "    ('PIL', 'zxingcpp', 'seedbox.scanning', 'concurrent'))), file=sys.stderr)"
    )
    for words in (["list"], ["scan", "--help"]):
        done = subprocess.run(
            [sys.executable, "-c", ask, *words, "--tin", str(tin_path)],
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert done.stderr.splitlines()[-1] == "[]"


def test_the_program_ends_without_noise(tin: Tin, tin_path: Path, photo: Path) -> None:
    """Libraries have complained on stderr of what was still in memory at the end."""
    done = subprocess.run(
        [sys.executable, "-m", "seedbox", "--tin", str(tin_path), "scan", str(photo)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stderr == ""
