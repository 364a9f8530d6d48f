"""Screens measured in a real terminal (a pseudo-terminal read by a terminal emulator).

Two figures, each side by side with a bare program doing only what cannot be avoided:
process start to the first full screen of a tin of 10,000 packets, against an empty Textual
application; and from a key to the filtered list, against a bare Textual screen that asks
SQLite's full-text index (FTS5) for one screenful and draws it.
"""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import sqlite3
import statistics
import struct
import sys
import tempfile
import termios
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

import pyte

from tests.bench.timing import Measured
from tests.bench.tins import TODAY, make_tin

COLUMNS, LINES = 80, 24
PACKETS = 10_000
RUNS, KEY_RUNS = 7, 9
PATIENCE_SECONDS = 60.0
TESTED_SHARE = 0.05
WORDS = ("tom", "cab", "pea", "cel")

EMPTY_APP = """
from textual.app import App
from textual.widgets import Label
class Empty(App):
    def compose(self):
        yield Label("nothing in here")
Empty().run()
"""

BARE_FILTER = """
import sqlite3, sys
from textual.app import App
from textual.widgets import Input, Static
class Bare(App):
    def compose(self):
        yield Input(id="i")
        yield Static("waiting", id="out", markup=False)
    def on_mount(self):
        self.db = sqlite3.connect(sys.argv[1])
        self.query_one(Input).focus()
    def on_input_changed(self, event):
        words = " ".join('"%s"*' % w for w in event.value.split())
        rows = self.db.execute(
            "SELECT code, crop, variety, year, left, store FROM packets WHERE packets MATCH ?"
            " ORDER BY rank LIMIT 20", (words,)).fetchall() if words else []
        lines = [" ".join(str(part)[:14].ljust(14) for part in row)[:79] for row in rows]
        told = chr(10).join(["found for " + event.value, *lines])
        self.query_one("#out", Static).update(told)
Bare().run()
"""


class Terminal:
    """A program in a pseudo-terminal; what it writes is kept with the time at which it came."""

    def __init__(self, command: Sequence[str], environment: dict[str, str] | None = None) -> None:
        self.screen = pyte.Screen(COLUMNS, LINES)
        self._stream = pyte.ByteStream(self.screen)
        self.started = time.perf_counter()
        self._pid, self._handle = pty.fork()
        if self._pid == 0:
            os.environ.update(
                {"TERM": "xterm-256color", "COLORTERM": "truecolor", "TEXTUAL_ANIMATIONS": "none"}
                | (environment or {})
            )
            os.execvp(command[0], list(command))
        fcntl.ioctl(self._handle, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))

    def send(self, keys: str) -> float:
        """Type keys; returns the time at which they were sent."""
        os.write(self._handle, keys.encode())
        return time.perf_counter()

    def until(self, seen: Callable[[str], bool]) -> float:
        """Wait until the screen shows what is asked; returns when those bytes arrived."""
        deadline = time.perf_counter() + PATIENCE_SECONDS
        while time.perf_counter() < deadline:
            ready, _, _ = select.select([self._handle], [], [], 0.5)
            if not ready:
                continue
            data = os.read(self._handle, 1 << 16)
            arrived = time.perf_counter()
            self._stream.feed(data)
            if seen("\n".join(self.screen.display)):
                return arrived
        raise TimeoutError("\n".join(self.screen.display))

    def rest(self, seconds: float) -> None:
        """Read on until nothing has come for a while."""
        while select.select([self._handle], [], [], seconds)[0]:
            self._stream.feed(os.read(self._handle, 1 << 16))

    def close(self) -> None:
        os.kill(self._pid, signal.SIGKILL)
        os.waitpid(self._pid, 0)
        os.close(self._handle)


def _make_index(tin_path: Path, index_path: Path) -> None:
    """The same packets in a full-text table, as the bare program asks for them."""
    from seedbox.season.listing import Listing
    from seedbox.tin.file import Tin

    with Tin.open(tin_path) as tin:
        lines = Listing(tin, TODAY).lines
    index = sqlite3.connect(index_path)
    index.execute(
        "CREATE VIRTUAL TABLE packets USING fts5(code, crop, variety, year, left, store,"
        " tokenize='unicode61 remove_diacritics 2')"
    )
    index.executemany(
        "INSERT INTO packets VALUES (?, ?, ?, ?, ?, ?)",
        [(x.code, x.crop, x.packet.variety, x.year, x.left, x.store) for x in lines],
    )
    index.commit()
    index.close()


def _ours(tin_path: Path) -> list[str]:
    program = (
        "import sys; from datetime import date; from pathlib import Path;"
        "from seedbox.tui import run;"
        f"run(Path(sys.argv[1]), date.fromisoformat('{TODAY}'))"
    )
    return [sys.executable, "-c", program, str(tin_path)]


def _first_screen(command: Sequence[str], seen: Callable[[str], bool]) -> float:
    terminal = Terminal(command)
    try:
        return terminal.until(seen) - terminal.started
    finally:
        terminal.close()


def _full_of_packets(screen: str) -> bool:
    """Every line of the list shows a packet: its code begins with P."""
    return sum(line[2:3] == "P" for line in screen.split("\n")) >= LINES - 7


def _key_to_list(terminal: Terminal, shown: Callable[[str, str], bool]) -> float:
    """Median time from the last key of a word to the list that it filters.

    `shown` is asked with the screen before that key, and the screen now.
    """
    spent = []
    for run in range(KEY_RUNS):
        word = WORDS[run % len(WORDS)]
        terminal.send(word[:-1])
        terminal.rest(0.2)
        before = "\n".join(terminal.screen.display)
        sent = terminal.send(word[-1])
        spent.append(terminal.until(partial(shown, before)) - sent)
        for _ in word:
            terminal.send("\x7f")
            terminal.rest(0.1)
    return statistics.median(spent)


def measure() -> list[Measured]:
    """Rows of (what, ours [s], bare [s], greatest ratio to reach)."""
    with tempfile.TemporaryDirectory() as folder:
        tin_path, index_path = Path(folder) / "big.tin", Path(folder) / "index.sqlite"
        make_tin(tin_path, PACKETS, TESTED_SHARE)
        _make_index(tin_path, index_path)
        return [_measure_start(tin_path), _measure_filter(tin_path, index_path)]


def _measure_start(tin_path: Path) -> Measured:
    ours, bare = [], []
    empty = [sys.executable, "-c", EMPTY_APP]
    for _ in range(RUNS):  # taken in turn, so that a busy moment strikes both
        bare.append(_first_screen(empty, lambda screen: "nothing in here" in screen))
        ours.append(_first_screen(_ours(tin_path), _full_of_packets))
    what = f"first screen, {PACKETS:,} packets (an empty Textual app)"
    return Measured(what, statistics.median(ours), statistics.median(bare), 1.5)


def _measure_filter(tin_path: Path, index_path: Path) -> Measured:
    bare = Terminal([sys.executable, "-c", BARE_FILTER, str(index_path)])
    try:
        bare.until(lambda screen: "waiting" in screen)
        bare.rest(0.5)
        bare_seconds = _key_to_list(bare, _bare_filtered)
    finally:
        bare.close()
    ours = Terminal(_ours(tin_path))
    try:
        ours.until(_full_of_packets)
        ours.rest(3.0)
        ours.send("/")
        ours.rest(0.3)
        ours_seconds = _key_to_list(ours, _filtered)
    finally:
        ours.close()
    what = f"key to filtered list, {PACKETS:,} packets (FTS5 query and one screen drawn)"
    return Measured(what, ours_seconds, bare_seconds, 2.0)


def _bare_filtered(before: str, now: str) -> bool:
    return now.split("\n")[3] != before.split("\n")[3]


def _filtered(before: str, now: str) -> bool:
    """The count beside the filter has changed, and with it the list."""
    was, bar = before.split("\n")[1][30:], now.split("\n")[1][30:]
    return bar != was and " of " in bar and now.split("\n")[3][:12] != "            "


if __name__ == "__main__":
    for row in measure():
        ours, bare = row.ours_seconds * 1000, row.bare_seconds * 1000
        print(f"{row.name}: {ours:.0f} ms / {bare:.0f} ms = {row.ratio:.2f} (reach {row.reach})")
