"""Photo files: every kind that is read, the way the camera was held, and hostile ones."""

from __future__ import annotations

import os
import struct
import sys
import zlib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from seedbox.errors import SeedboxError
from seedbox.scanning.finding import find
from seedbox.scanning.photos import scan_photos
from seedbox.scanning.reading import read_photo
from tests.scanning.conftest import CODES

# Exif 2.32, tag 0x0112: what a viewer must do is the inverse of how the pixels are stored.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


@pytest.fixture(scope="module")
def upright(shoot: Any) -> Any:
    return shoot(CODES[:2], 2, (900, 500))


@pytest.mark.parametrize("orientation", STORED)
@pytest.mark.parametrize("kind", ["jpg", "png"])
def test_photos_come_upright_however_the_camera_was_held(
    orientation: int, kind: str, upright: Any, tmp_path: Path
) -> None:
    turn = STORED[orientation]
    stored = upright if turn is None else upright.transpose(turn)
    path, exif = tmp_path / f"photo.{kind}", Image.Exif()
    exif[0x0112] = orientation
    stored.save(path, exif=exif.tobytes())
    image = read_photo(path)
    assert image.size == upright.size
    places = {each.text: each.centre for each in find(image)}
    assert places[CODES[0]][0] < 450 < places[CODES[1]][0]


@pytest.mark.parametrize("mode", ["L", "RGB", "RGBA", "P", "1", "CMYK", "I;16", "LA"])
def test_every_way_of_storing_colours_is_read(mode: str, upright: Any, tmp_path: Path) -> None:
    path = tmp_path / ("photo.jpg" if mode == "CMYK" else "photo.png")
    if mode == "I;16":
        upright.convert("I").point(lambda value: value * 257).convert("I;16").save(path)
    else:
        upright.convert(mode).save(path)
    image = read_photo(path)
    assert image.mode == "L"
    if mode != "1":
        assert {each.text for each in find(image)} == set(CODES[:2])


def test_what_can_be_seen_through_is_white_paper(tmp_path: Path) -> None:
    path = tmp_path / "clear.png"
    Image.new("RGBA", (60, 60), (0, 0, 0, 0)).save(path)
    assert read_photo(path).getextrema() == (255, 255)


def test_a_webp_is_read(upright: Any, tmp_path: Path) -> None:
    upright.save(tmp_path / "photo.webp")
    assert read_photo(tmp_path / "photo.webp").size == upright.size


def huge_png(width: int, height: int) -> bytes:
    """A PNG of a few bytes that claims to be huge (PNG, third edition, 11.2.1: IHDR)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


HEIC = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0" * 64
HOSTILE = {
    "empty.jpg": (b"", "is empty"),
    "text.jpg": (b"What I grew in 2024\n" * 20, "is no photo that can be read"),
    "page.pdf": (b"%PDF-1.7\n" + b"x" * 100, "is a PDF"),
    "svg.png": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is no photo"),
    "gif.gif": (b"GIF89a\x01\0\x01\0\0\0\0;", "is no photo"),
    "head.jpg": (b"\xff\xd8\xff\xe0\0\x10JFIF", "photo|damaged"),
    "bomb.png": (huge_png(60_000, 60_000), "more than can be read"),
    "short.png": (huge_png(400, 400), "damaged or cut short"),
    "heic.heic": (HEIC, "HEIC|damaged"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_is_no_photo_is_refused_with_a_sentence(name: str, tmp_path: Path) -> None:
    content, sentence = HOSTILE[name]
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(SeedboxError, match=sentence) as told:
        read_photo(path)
    assert name in told.value.sentence


def test_heic_without_its_library_says_how_to_get_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    (tmp_path / "a.heic").write_bytes(HEIC)
    with pytest.raises(SeedboxError, match="library") as told:
        read_photo(tmp_path / "a.heic")
    assert "JPEG" in told.value.hint
    assert "seedbox[heic]" in told.value.hint


@pytest.mark.parametrize("orientation", [1, 3, 6, 8])
def test_a_heic_photo_is_read_upright(orientation: int, upright: Any, tmp_path: Path) -> None:
    """Written by the encoder (libheif) that pillow-heif brings."""
    pillow_heif = pytest.importorskip("pillow_heif")
    turn = STORED[orientation]
    stored = (upright if turn is None else upright.transpose(turn)).convert("RGB")
    path, exif = tmp_path / "photo.heic", Image.Exif()
    exif[0x0112] = orientation
    pillow_heif.from_pillow(stored).save(path, quality=80, exif=exif.tobytes())
    assert path.read_bytes()[4:8] == b"ftyp"
    image = read_photo(path)
    assert image.size == upright.size
    places = {each.text: each.centre for each in find(image)}
    assert places[CODES[0]][0] < 450 < places[CODES[1]][0]


def test_folders_missing_files_and_pipes_are_refused(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    for name, sentence in (("", "folder"), ("none.jpg", "no file"), ("pipe.jpg", "no file that")):
        with pytest.raises(SeedboxError, match=sentence):
            read_photo(tmp_path / name)


def test_a_tiny_picture_is_refused(tmp_path: Path) -> None:
    Image.new("L", (41, 900)).save(tmp_path / "tiny.png")
    with pytest.raises(SeedboxError, match="41 by 900 pixels"):
        read_photo(tmp_path / "tiny.png")


def test_a_jpeg_above_the_limit_is_read_smaller(
    upright: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("seedbox.scanning.reading.MOST_PIXELS", 200_000)
    upright.resize((1800, 1000)).save(tmp_path / "large.jpg")
    assert read_photo(tmp_path / "large.jpg").size == (450, 250)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_a_damaged_jpeg_is_read_or_refused_but_never_a_crash(
    data: st.DataObject, photo: Path, tmp_path: Path
) -> None:
    content = bytearray(photo.read_bytes())
    if data.draw(st.booleans()):
        del content[data.draw(st.integers(0, len(content))) :]
    for _ in range(data.draw(st.integers(0, 8))):
        if content:
            content[data.draw(st.integers(0, min(len(content), 3000) - 1))] = data.draw(
                st.integers(0, 255)
            )
    path = tmp_path / "damaged.jpg"
    path.write_bytes(content)
    try:
        image = read_photo(path)
    except SeedboxError as error:
        assert "damaged.jpg" in error.sentence
    else:
        assert image.mode == "L"


def test_one_bad_photo_does_not_lose_the_others(photo: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.jpg"
    bad.write_bytes(b"nothing")
    scan = scan_photos([bad, photo, photo])
    assert [each.code for each in scan.codes] == CODES[:9]
    assert {each.photos for each in scan.codes} == {1}
    assert len(scan.problems) == 1
    assert scan.read == (str(photo), str(photo))


def test_two_photos_that_overlap_give_each_code_once(shoot: Any, tmp_path: Path) -> None:
    paths = []
    for name, some in (("a.jpg", CODES[:4]), ("b.jpg", CODES[2:6])):
        paths.append(tmp_path / name)
        shoot(some, 2, (1000, 700)).save(paths[-1])
    scan = scan_photos(paths)
    assert [each.code for each in scan.codes] == CODES[:6]
    assert [each.photos for each in scan.codes] == [1, 1, 2, 2, 1, 1]
