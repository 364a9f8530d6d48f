"""A file is written all or nothing, and whatever goes wrong leaves the former one as it was."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from seedbox.errors import UsageError
from seedbox.whole_file import beside, write_whole


def test_the_file_takes_the_place_of_the_former_and_nothing_else_stays(tmp_path: Path) -> None:
    file = tmp_path / "order.csv"
    file.write_bytes(b"former")
    write_whole(file, b"new")
    assert file.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [file]
    assert file.stat().st_mode & 0o777 == 0o644


def test_a_failure_half_way_leaves_the_former_file(tmp_path: Path) -> None:
    file = tmp_path / "order.csv"
    file.write_bytes(b"former")
    with pytest.raises(UsageError, match=r"order\.csv cannot be written: No space left"), \
            beside(file) as made:  # fmt: skip
        made.write_bytes(b"half")
        raise OSError(28, "No space left on device")
    with pytest.raises(ZeroDivisionError), beside(file) as made:
        made.write_bytes(b"half")
        _ = 1 / 0
    assert file.read_bytes() == b"former"
    assert list(tmp_path.iterdir()) == [file]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="cannot be written: No such file or directory"):
        write_whole(tmp_path / "none" / "order.csv", b"new")


def test_it_loads_no_room_of_the_house() -> None:
    code = "import sys, seedbox.whole_file; print(*sorted(sys.modules))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    ours = {name for name in told.stdout.split() if name.startswith("seedbox")}
    assert ours == {"seedbox", "seedbox.errors", "seedbox.whole_file"}
