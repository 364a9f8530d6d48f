"""The rows of a table that are not blank, as columns, with what is wrong with them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from operator import itemgetter
from typing import Any

from seedbox.problems import Problem
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.outcome import CellReader
from seedbox.tin.exchange.plans import Reject
from seedbox.tin.exchange.shapes import OUR_MARK
from seedbox.tin.exchange.table import Table, column_letter


class Sheet:
    """The rows that are not blank, as columns of stripped text."""

    def __init__(self, table: Table, at: Mapping[Any, int], where: str = "") -> None:
        self.table = table
        self.at = at
        self.where = where
        self.exact = bool(where) or set(table.headers) >= OUR_MARK
        first = table.first_row_number
        kept = [(number, row) for number, row in enumerate(table.rows, first) if _filled(row)]
        self.numbers = [number for number, _ in kept]
        self.rows = [row for _, row in kept]
        self.faults: dict[int, list[Problem]] = defaultdict(list)
        self.remarks: dict[int, list[str]] = defaultdict(list)
        self._texts: dict[int, list[str]] = {}

    def heading(self, index: int) -> str:
        return self.table.headers[index] or f"column {column_letter(index)}"

    def texts(self, index: int) -> list[str]:
        """A column as stripped text; empty where a row is too short."""
        known = self._texts.get(index)
        if known is None:
            known = self._texts[index] = list(map(str.strip, self._column(index)))
        return known

    def _column(self, index: int) -> Iterable[str]:
        try:
            return list(map(itemgetter(index), self.rows))
        except IndexError:
            return [row[index] if index < len(row) else "" for row in self.rows]

    def read(
        self, name: str, parse: Callable[[str], Any], nothing: Any = None, label: str = ""
    ) -> list[Any]:
        """Values of a column; `nothing` for empty cells, for all where there is no such column."""
        index = self.at.get(name)
        if index is None:
            return [nothing] * len(self.rows)
        reader = self.reader(parse, nothing)
        column = self.texts(index)
        values = list(map(reader.__getitem__, column))
        self.keep(index, column, reader, label)
        return (
            [nothing if value is None else value for value in values] if reader.faults else values
        )

    def reader(self, parse: Callable[[str], Any], nothing: Any = None) -> CellReader:
        """A reader of cells; `nothing` is the value of an empty one."""
        reader = CellReader(parse, exact=self.exact)
        reader[""] = nothing
        return reader

    def keep(self, index: int, column: list[str], reader: CellReader, label: str = "") -> None:
        """Notes the faults and remarks of a column with their rows."""
        heading = self.heading(index)
        if reader.faults:
            for place, text in enumerate(column):
                # A formula without a result has its sentence already.
                if text in reader.faults and not (text[:1] == "=" and place in self.faults):
                    self.fault(place, reader.faults[text], heading)
        if reader.remarks:
            lead = f"{label or heading + ' as written'}: " if label != "-" else ""
            for place, text in enumerate(column):
                if text in reader.remarks:
                    self.remarks[place].append(lead + reader.remarks[text])

    def fault(self, place: int, sentence: str, heading: str = "") -> None:
        self.faults[place].append(Problem(sentence, self.numbers[place], heading, self.where))

    def note_faulty_rows(self) -> None:
        """Faults of whole rows: cells that could not be read, and more cells than columns."""
        places = {number: place for place, number in enumerate(self.numbers)}
        for problem in self.table.problems:
            if problem.row in places:
                self.faults[places[problem.row]].append(problem)
        width = self._width()
        for place, row in enumerate(self.rows):
            if len(row) > width and any(map(str.strip, self._beyond(row, width))):
                self.fault(
                    place,
                    "The row has more cells than the header. A cell that holds the delimiter "
                    "(a comma, say) must stand in quotation marks.",
                )

    def _width(self) -> int:
        """In a file of rejects, columns without a heading hold what was too much in a row."""
        headings = self.table.headers
        if Field.WRONG not in self.at:
            return len(headings)
        own = [heading for heading in headings if heading != Field.WRONG.value]
        while own and not own[-1]:
            own.pop()
        return len(own)

    def _beyond(self, row: list[str], width: int) -> list[str]:
        wrong = self.at.get(Field.WRONG)
        return [cell for index, cell in enumerate(row) if index >= width and index != wrong]

    def problems(self) -> list[Problem]:
        """All faults in order of the rows."""
        return [problem for place in sorted(self.faults) for problem in self.faults[place]]

    def rejects(self) -> list[Reject]:
        """The rows with faults, as they were read."""
        return [
            Reject(
                self.where,
                tuple(self.table.headers),
                self.numbers[place],
                tuple(self.rows[place]),
                tuple(_said(problem) for problem in self.faults[place]),
            )
            for place in sorted(self.faults)
        ]


def _filled(row: list[str]) -> bool:
    return any(row) and any(map(str.strip, row))


def _said(problem: Problem) -> str:
    return f"{problem.field}: {problem.sentence}" if problem.field else problem.sentence
