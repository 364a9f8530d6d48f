"""Opening and printing by the system's own commands: here commands that write down their words."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from seedbox.errors import SeedboxError
from seedbox.printing import handing_over
from seedbox.printing.handing_over import open_file, print_file

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="Windows has a call instead")

Install = Callable[..., Path]


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Install:
    """Puts a command on an otherwise empty PATH; gives the file with the words that it got."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setattr(sys, "platform", "linux")

    def put(name: str, ending: str = "exit 0") -> Path:
        got = tmp_path / f"{name}.words"
        script = folder / name
        script.write_text(f'#!/bin/sh\nfor w in "$@"; do echo "$w"; done > "{got}"\n{ending}\n')
        script.chmod(0o755)
        return got

    return put


@pytest.mark.parametrize(
    "name", ["labels.pdf", "-o.pdf", "two words; rm -r $HOME `x`.pdf", "ł.pdf"]
)
def test_the_name_arrives_whole_and_as_one_word(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    opened, printed = install("xdg-open"), install("lp")
    monkeypatch.chdir(tmp_path)
    Path(name).write_bytes(b"%PDF-1.4")
    open_file(Path(name))
    print_file(Path(name))
    assert opened.read_text().splitlines() == [str(tmp_path / name)]
    assert printed.read_text().splitlines() == ["-o", "print-scaling=none", str(tmp_path / name)]


def test_a_mac_opens_with_its_own_command(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    got = install("open")
    open_file(tmp_path / "a.pdf")
    assert got.read_text().splitlines() == [str(tmp_path / "a.pdf")]


def test_the_second_printing_command_stands_in_for_the_first(
    install: Install, tmp_path: Path
) -> None:
    got = install("lpr")
    print_file(tmp_path / "a.pdf")
    assert got.read_text().splitlines()[-1] == str(tmp_path / "a.pdf")


@pytest.mark.parametrize(
    ("work", "part"),
    [(open_file, "no command here that opens files (xdg-open)"),
     (print_file, "no command here that prints files (lp or lpr)")],
)  # fmt: skip
def test_without_a_command_a_sentence_says_what_to_do(
    install: Install, tmp_path: Path, work: Callable[[Path], None], part: str
) -> None:
    with pytest.raises(SeedboxError) as told:
        work(tmp_path / "a.pdf")
    assert part in told.value.sentence
    assert str(tmp_path / "a.pdf") in told.value.hint


def test_what_the_command_complains_of_is_passed_on(install: Install, tmp_path: Path) -> None:
    install("lp", "echo 'lp: no default destination' >&2; exit 1")
    with pytest.raises(SeedboxError, match="It said: lp: no default destination"):
        print_file(tmp_path / "a.pdf")
    install("xdg-open", "exit 3")
    with pytest.raises(SeedboxError, match=r"xdg-open did not take a\.pdf\. It ended with 3\."):
        open_file(tmp_path / "a.pdf")


def test_a_viewer_that_stays_open_is_not_waited_for(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both in the foreground, and left behind with its outputs still open."""
    from dataclasses import replace

    opening = handing_over._opening()
    monkeypatch.setattr(handing_over, "_opening", lambda: replace(opening, patience_s=0.2))
    install("xdg-open", "exec /bin/sleep 2")
    open_file(tmp_path / "a.pdf")
    monkeypatch.setattr(handing_over, "_opening", lambda: replace(opening, may_stay=False))
    install("xdg-open", "/bin/sleep 5 &\nexit 0")
    open_file(tmp_path / "a.pdf")


def test_a_printer_command_that_hangs_is_told(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from dataclasses import replace

    printing = handing_over._printing()
    monkeypatch.setattr(handing_over, "_printing", lambda: replace(printing, patience_s=0.2))
    install("lp", "exec /bin/sleep 2")
    with pytest.raises(SeedboxError, match="has not ended after"):
        print_file(tmp_path / "a.pdf")
