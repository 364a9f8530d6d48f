"""Two programs at one tin, and a program that dies in the middle of a change."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from seedbox.errors import TinError
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet, edit_packet
from seedbox.tin.records import Packet

Opener = Callable[..., Tin]

DIE_IN_THE_MIDDLE = """
import sys
from datetime import date
from pathlib import Path
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packets

tin = Tin.open(Path(sys.argv[1]))
with tin.change("Half a change"):
    # Enough rows that SQLite has to write some of them out before the end.
    add_packets(tin, [PacketDraft("leek", note="n" * 500)] * 20_000, today=date(2026, 3, 14))
    print("in the middle", flush=True)
    sys.stdin.read()
"""

LIGHT_START = """
import sys
from datetime import date
from pathlib import Path
from seedbox.tin.file import Tin

with Tin.open(Path(sys.argv[1])) as tin:
    tin.dossiers(), tin.settings(), tin.own_figures(), tin.history(5)
heavy = ("sqlite_utils", "platformdirs", "stdnum", "openpyxl", "statistics", "json", "random")
print(*(name for name in heavy if name in sys.modules))
"""


def test_a_second_writer_gets_a_sentence(tin: Tin, packet: Packet, today: date) -> None:
    with closing(sqlite3.connect(tin.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with (
            Tin.open(tin.path, wait_seconds=0.05) as waiting,
            pytest.raises(TinError, match="in use by another program"),
        ):
            add_packet(waiting, PacketDraft("leek"), today=today)
        other.execute("ROLLBACK")
    assert tin.packets() == [packet]


def test_a_reader_sees_the_state_before_while_another_writes(tin: Tin, packet: Packet) -> None:
    with closing(sqlite3.connect(tin.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("UPDATE packet SET variety = 'Other'")
        assert tin.packets() == [packet]
        other.execute("ROLLBACK")


def test_what_a_change_read_stays_true_until_it_is_made(
    tin: Tin, packet: Packet, today: date
) -> None:
    with Tin.open(tin.path, wait_seconds=0.05) as other, tin.change("Rename") as change:
        read = tin.packet(packet.code).variety
        with pytest.raises(TinError, match="in use by another program"):
            edit_packet(other, packet.code, today=today, variety="Theirs")
        change.update("packet", packet.id, {"variety": read + " II"})
    assert tin.packet(packet.code).variety == "Elder Lantern II"


def test_changes_of_two_open_tins_follow_each_other(
    tin: Tin, open_tin: Opener, today: date
) -> None:
    with open_tin(tin.path) as second:
        first_packet = add_packet(tin, PacketDraft("leek"), today=today)
        second_packet = add_packet(second, PacketDraft("onion"), today=today)
        assert tin.packets() == second.packets() == [first_packet, second_packet]
        assert [change.id for change in tin.history()] == [2, 1]


def test_a_program_that_dies_leaves_nothing_half_written(
    tin: Tin, packet: Packet, open_tin: Opener, dump: Callable[[Tin], object]
) -> None:
    before, history = dump(tin), tin.history()
    tin.close()
    writer = subprocess.Popen(
        [sys.executable, "-c", DIE_IN_THE_MIDDLE, str(tin.path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with writer:
        assert writer.stdout is not None
        assert writer.stdout.readline().strip() == "in the middle"
        log = tin.path.with_name(tin.path.name + "-wal")
        assert log.stat().st_size > 1_000_000, "the half change should be on disk already"
        os.kill(writer.pid, signal.SIGKILL)
    with open_tin(tin.path) as again:
        assert dump(again) == before
        assert again.history() == history
        assert again.database.value("PRAGMA integrity_check") == "ok"


def test_reading_loads_nothing_heavy(tin_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", LIGHT_START, str(tin_path)],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == ""
