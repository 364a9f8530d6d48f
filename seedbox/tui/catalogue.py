"""The lines of the tin in order, filtered as a person types. No file and no screen in here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from operator import itemgetter
from typing import overload

from seedbox.season.listing import PacketLine, Sort, ordered
from seedbox.season.searching import search_key
from seedbox.tui.tin_columns import row, until_text
from seedbox.tui.virtual_list import Row


def row_of(line: PacketLine, today: date) -> Row:
    return row(line.dossier, line.crop, line.forecast, until_text(line.forecast, today))


class Rows(Sequence[Row]):
    """Lines as rows of text, each made only when it is drawn."""

    def __init__(self, lines: Sequence[PacketLine], today: date) -> None:
        self._lines = lines
        self._today = today

    def __len__(self) -> int:
        return len(self._lines)

    @overload
    def __getitem__(self, index: int) -> Row: ...
    @overload
    def __getitem__(self, index: slice) -> list[Row]: ...
    def __getitem__(self, index: int | slice) -> Row | list[Row]:
        if isinstance(index, slice):
            return [row_of(line, self._today) for line in self._lines[index]]
        return row_of(self._lines[index], self._today)


class Catalogue:
    """All lines, kept in order; `shown` are those that the filter lets through."""

    def __init__(self, today: date) -> None:
        self._today = today
        self._lines: dict[str, PacketLine] = {}
        self._pool: list[tuple[str, PacketLine]] = []
        self._place: dict[str, int] = {}
        self.empty_count = 0
        self.sort = Sort.CROP
        self.text = ""
        self.with_empty = False
        self.shown: list[PacketLine] = []

    def __len__(self) -> int:
        return len(self._lines)

    @property
    def all_lines(self) -> list[PacketLine]:
        return list(self._lines.values())

    @property
    def rows(self) -> Rows:
        """The shown lines as rows for a list."""
        return Rows(self.shown, self._today)

    @property
    def waiting(self) -> list[PacketLine]:
        """Lines without a forecast, in the order in which they are shown."""
        return [line for _, line in self._pool if line.forecast is None]

    def line(self, code: str) -> PacketLine | None:
        return self._lines.get(code)

    def replace(self, lines: Iterable[PacketLine]) -> None:
        """A new reading of the tin."""
        self._lines = {line.packet.code: line for line in lines}
        self.empty_count = sum(line.is_empty for line in self._lines.values())
        self.order()

    def put(self, lines: Iterable[PacketLine]) -> None:
        """Lines that now have their forecast; the order stays until `order` is asked for."""
        for line in lines:
            code = line.packet.code
            if code in self._lines:
                self._lines[code] = line
            if code in self._place:
                self._pool[self._place[code]] = _searchable(line)
        self.select(self.text)

    def order(self, sort: Sort | None = None) -> None:
        """Put all lines in order and filter them again."""
        self.sort = sort or self.sort
        wanted = (line for line in self._lines.values() if self.with_empty or not line.is_empty)
        self._pool = [_searchable(line) for line in ordered(wanted, self.sort)]
        self._place = {line.packet.code: place for place, (_, line) in enumerate(self._pool)}
        self.select(self.text)

    def show_empty(self, wanted: bool) -> None:
        self.with_empty = wanted
        self.order()

    def select(self, text: str) -> None:
        """Keep the lines in which every word of `text` stands somewhere."""
        self.text = text
        found = self._pool
        for word in search_key(text).split():
            found = [pair for pair in found if word in pair[0]]
        self.shown = list(map(itemgetter(1), found))

    def place_of(self, code: str) -> int | None:
        """Where a packet stands among the shown lines."""
        for place, line in enumerate(self.shown):
            if line.packet.code == code:
                return place
        return None


def _searchable(line: PacketLine) -> tuple[str, PacketLine]:
    return (f"{line.search} {line.advice}", line)
