"""CSV in all the forms that spreadsheets write: any delimiter, quoted line breaks, ragged rows."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import StringIO

from seedbox.problems import Problem
from seedbox.tin.exchange.decoding import Decoded
from seedbox.tin.exchange.table import Grid

DELIMITERS = ",;\t|"
_SAMPLE_LINES = 200
_END = "\x02end of table\x02"

CountKnown = Callable[[list[str]], int]


def delimited_grid(decoded: Decoded, count_known: CountKnown) -> Grid:
    """All rows of a CSV text. `count_known` tells how many cells of a row are header words."""
    text = decoded.text.replace("\0", "").removesuffix("\x1a")
    text, hinted = _without_hint(text)
    with _no_limit_on_cells():
        delimiter = hinted or _delimiter(text, count_known)
        rows, problems = _rows(text, delimiter)
    if hinted:
        rows.insert(0, [])  # the hint is row 1 of the person's file
        problems = [Problem(p.sentence, p.row + 1, p.field, p.where) for p in problems]
    notes = (decoded.note,) if decoded.note else ()
    return Grid(rows, tuple(problems), notes, encoding=decoded.encoding)


def _without_hint(text: str) -> tuple[str, str]:
    """Some spreadsheets write `sep=;` as the first line."""
    first, _, rest = text.partition("\n")
    first = first.strip().strip('"').lower()
    if first.startswith("sep=") and len(first) == 5:
        return rest, first[4]
    return (rest, "\t") if first == "sep=" else (text, "")


def _delimiter(text: str, count_known: CountKnown) -> str:
    """The delimiter that finds most header words, then the evenest columns, then most columns."""
    sample = "\n".join(text[:500_000].splitlines()[:_SAMPLE_LINES])

    def fit(delimiter: str) -> tuple[int, float, int]:
        rows = [row for row in csv.reader(sample.splitlines(True), delimiter=delimiter) if row]
        widths = Counter(len(row) for row in rows if len(row) > 1)
        if not widths:
            return (0, 0.0, 0)
        width, times = widths.most_common(1)[0]
        return (max(map(count_known, rows[:20])), times / len(rows), width)

    return max(DELIMITERS, key=fit)


def _rows(text: str, delimiter: str) -> tuple[list[list[str]], list[Problem]]:
    rows = list(csv.reader(_lines(text.rstrip("\r\n") + f"\n{_END}\n"), delimiter=delimiter))
    if rows[-1] == [_END]:
        return rows[:-1], []
    return _with_open_quote(text, rows, delimiter)


def _with_open_quote(
    text: str, rows: list[list[str]], delimiter: str
) -> tuple[list[list[str]], list[Problem]]:
    """A quotation mark that never closes has swallowed the end: read those lines one by one."""
    good = rows[:-1]
    reader = csv.reader(_lines(text), delimiter=delimiter)
    for _ in good:
        next(reader)
    rest = "".join(list(_lines(text))[reader.line_num :])
    plain = list(csv.reader(_lines(rest), delimiter=delimiter, quoting=csv.QUOTE_NONE))
    sentence = (
        "A quotation mark opens here and never closes. "
        "From this row on every line was read by itself."
    )
    return good + plain, [Problem(sentence, len(good) + 1)]


def _lines(text: str) -> StringIO:
    """Lines at real line ends only: `splitlines` would also cut at form feeds and the like."""
    return StringIO(text, newline=None)


@contextmanager
def _no_limit_on_cells() -> Iterator[None]:
    """The csv module's limit belongs to the whole process: it is put back."""
    before = csv.field_size_limit(2**31 - 1)
    try:
        yield
    finally:
        csv.field_size_limit(before)
