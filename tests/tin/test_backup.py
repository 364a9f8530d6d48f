"""Copies of a tin in use."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from seedbox.errors import TinError
from seedbox.tin.backup import backup
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.records import Packet


def test_a_backup_is_a_whole_tin(
    tin: Tin, packet: Packet, tmp_path: Path, open_tin: Callable[..., Tin], today: date
) -> None:
    copy = backup(tin, tmp_path / "copy.tin")
    assert copy.read_bytes()[18:20] == b"\x01\x01", "one file that needs no log beside it"
    add_packet(tin, PacketDraft("leek"), today=today)
    with open_tin(copy) as opened:
        assert opened.packets() == [packet]
        assert [change.label for change in opened.history()] == [
            change.label for change in tin.history()[1:]
        ]
    left_over = {path.name for path in tmp_path.iterdir()}
    assert left_over == {"garden.tin", "garden.tin-wal", "garden.tin-shm", "copy.tin"}


def test_a_backup_never_overwrites(tin: Tin, tmp_path: Path) -> None:
    other = tmp_path / "letter.txt"
    other.write_text("dear aunt")
    with pytest.raises(TinError, match="exists already"):
        backup(tin, other)
    with pytest.raises(TinError, match="exists already"):
        backup(tin, tin.path)
    assert other.read_text() == "dear aunt"


def test_a_backup_needs_a_place(tin: Tin, tmp_path: Path) -> None:
    with pytest.raises(TinError, match="There is no folder"):
        backup(tin, tmp_path / "nowhere" / "copy.tin")
    with pytest.raises(TinError, match="is a folder"):
        backup(tin, tmp_path)


@pytest.mark.parametrize("filler", [b"\xa5", b"\x00"])
def test_the_copy_of_a_damaged_tin_is_refused(
    tin: Tin, packet: Packet, tmp_path: Path, open_tin: Callable[..., Tin], filler: bytes
) -> None:
    page = tin.database.value("SELECT rootpage FROM sqlite_schema WHERE name = 'packet'")
    size = tin.database.value("PRAGMA page_size")
    tin.close()
    whole = bytearray(tin.path.read_bytes())
    whole[(page - 1) * size : page * size] = filler * size
    tin.path.write_bytes(whole)
    with open_tin(tin.path) as damaged, pytest.raises(TinError, match="damaged"):
        backup(damaged, tmp_path / "copy.tin")
    assert not (tmp_path / "copy.tin").exists()


def test_a_copy_with_values_that_cannot_be_is_refused(
    tin: Tin, packet: Packet, tmp_path: Path
) -> None:
    tin.database.run("PRAGMA ignore_check_constraints = ON")
    tin.database.run("UPDATE packet SET kind = 'stone'")
    with pytest.raises(TinError, match="no good copy could be made: CHECK constraint"):
        backup(tin, tmp_path / "copy.tin")
    assert not (tmp_path / "copy.tin").exists()
