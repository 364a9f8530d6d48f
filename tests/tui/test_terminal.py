"""Journeys in a real pseudo-terminal, read by a terminal emulator (pyte), as a person sees them."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import sys
import termios
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pyte
import pytest

from seedbox.tin.file import Tin

PATIENCE_SECONDS = 20.0


class Terminal:
    """The program in a terminal of its own."""

    def __init__(self, tin: Path, columns: int, lines: int, **environment: str) -> None:
        self.screen = pyte.Screen(columns, lines)
        self._stream = pyte.ByteStream(self.screen)
        self.pid, self._handle = pty.fork()
        if self.pid == 0:
            # An environment of its own: readline, loaded by pytest, puts LINES and COLUMNS into
            # that of the process behind Python's back, and they would hide the real size.
            clean = {k: v for k, v in os.environ.items() if k not in ("LINES", "COLUMNS")}
            os.execve(
                sys.executable,
                [sys.executable, "-m", "seedbox", "--tin", str(tin), "--today", "2026-11-24"],
                clean | {"TERM": "xterm-256color", "TEXTUAL_ANIMATIONS": "none"} | environment,
            )
        self.resize(columns, lines)

    def resize(self, columns: int, lines: int) -> None:
        self.screen.resize(lines, columns)
        fcntl.ioctl(self._handle, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))

    def keys(self, text: str) -> None:
        os.write(self._handle, text.encode())

    def type(self, text: str) -> None:
        """As fingers do it: slower than a scanner."""
        for char in text:
            self.keys(char)
            self._read(0.07)

    @property
    def text(self) -> str:
        return "\n".join(self.screen.display)

    def until(self, seen: str | Callable[[str], bool]) -> str:
        fits = (lambda text: seen in text) if isinstance(seen, str) else seen
        deadline = time.monotonic() + PATIENCE_SECONDS
        while time.monotonic() < deadline:
            if fits(self.text):
                return self.text
            self._read(0.05)
        raise AssertionError(f"never saw {seen!r} in:\n{self.text}")

    def _read(self, seconds: float) -> None:
        if select.select([self._handle], [], [], seconds)[0]:
            try:
                self._stream.feed(os.read(self._handle, 1 << 16))
            except OSError:
                time.sleep(0.01)

    def ended(self) -> int:
        """Exit code, once the program has gone."""
        deadline = time.monotonic() + PATIENCE_SECONDS
        while time.monotonic() < deadline:
            self._read(0.05)
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.pid = 0
                return os.waitstatus_to_exitcode(status)
        raise AssertionError(f"still running:\n{self.text}")

    def close(self) -> None:
        if self.pid:
            os.kill(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)
        os.close(self._handle)


@pytest.fixture
def terminal(tin_path: Path) -> Iterator[Callable[..., Terminal]]:
    opened: list[Terminal] = []

    def start(columns: int = 80, lines: int = 24, **environment: str) -> Terminal:
        opened.append(Terminal(tin_path, columns, lines, **environment))
        return opened[-1]

    yield start
    for one in opened:
        one.close()


def test_start_filter_open_take_undo_quit(terminal, tin_path: Path, codes):
    seen = terminal()
    seen.until(lambda text: "P000 002G" in text and "(" in text and "…" not in text.split("\n")[4])
    seen.type("/moat")
    seen.until("1 of 5 packets")
    seen.keys("\r")
    seen.until("Enter Open")
    seen.keys("\r")
    seen.until("Phaseolus coccineus")
    seen.type("t")
    seen.until("Take from")
    seen.type("7")
    seen.keys("\x13")
    seen.until("Took 7 seeds")
    with Tin.open(tin_path) as tin:
        assert tin.dossier(codes["bean"]).left == 53
    seen.type("u")
    seen.until("Undone: Sow 7 seeds")
    with Tin.open(tin_path) as tin:
        assert tin.dossier(codes["bean"]).left == 60
    seen.keys("\x1b")
    seen.until("Filter moat")
    seen.type("q")
    assert seen.ended() == 0


def test_a_scanner_and_a_resize(terminal):
    seen = terminal()
    seen.until("P000 005A")
    seen.keys("P000005A\r")
    seen.until("Pisum sativum")
    seen.resize(120, 40)
    seen.until(lambda text: "What the forecast rests on" in text and len(text.split("\n")) == 40)
    seen.resize(50, 12)
    seen.until("50 by 12")
    seen.resize(80, 24)
    seen.until("Pisum sativum")
    seen.keys("\x11")
    assert seen.ended() == 0


def test_no_colour_reaches_the_terminal(terminal):
    seen = terminal(NO_COLOR="1")
    seen.until(lambda text: "P000 005A" in text and "%" in text)
    cells = [cell for line in seen.screen.buffer.values() for cell in line.values()]
    assert {(cell.fg, cell.bg) for cell in cells} == {("default", "default")}
    seen.type("q")
    assert seen.ended() == 0


def test_a_test_is_counted_finished_and_taken_back(terminal, tin_path: Path, tested):
    seen = terminal()
    seen.until("1 late")
    seen.type("1")
    seen.until("3 d late")
    seen.keys("\r")
    seen.until("Not counted yet")
    seen.keys("1")
    seen.keys("0")
    seen.until("+10 = 10")
    seen.keys("\x1b[B")
    seen.until("> replicate 2")
    seen.type("6")
    seen.until("+6 = 6")
    seen.type("F")
    seen.until("Forecast before")
    with Tin.open(tin_path) as tin:
        assert tin.test(tested["bean"]).germinated == 16
    seen.type("u")
    seen.until("Undone: Finish test")
    seen.keys("\x1b")
    seen.until("[1 Today")
    seen.type("3")
    seen.until("16 of 20")
    seen.keys(f"{tested['finished']}\r")
    seen.until("17 of 20 germinated")
    seen.keys("\x11")
    assert seen.ended() == 0


def test_keys_typed_ahead_of_the_filter_go_into_it(terminal):
    """A busy machine reads several keys at once; none of them may act on the list."""
    seen = terminal()
    seen.until(lambda text: "P000 002G" in text and "(" in text)
    seen.keys("/moat")
    seen.until("1 of 5 packets")
    assert "Filter moat" in seen.text
