"""Which column of a table means what: by its heading, in any order, case and punctuation."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from seedbox.errors import UsageError
from seedbox.tin.exchange.fields import WORDS, Field
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.table import Table, column_letter

_LONGEST_HEADING = 60
_IGNORED = {"", "ignore", "nothing", "none", "skip"}
_BRACKETED = re.compile(r"\s*[(\[][^)\]]*[)\]]\s*$")
# A unit in brackets that makes a heading mean something else: germination (days), weight (oz).
_OTHER_UNITS = re.compile(r"\b(days?|weeks?|oz|ounces?|kg|lbs?|mg|c|f|cm|mm|in|inch(es)?)\b")
_OURS = {Field.WRONG, Field.IMPORT_KEY}
_NAMES_A_CROP = {Field.CROP, Field.CROP_ID, Field.NAME, Field.VARIETY}
_KINDS = {"seed", "seeds", "planting stock", "stock"}


def folded(text: str) -> str:
    """A heading without case and punctuation.

    >>> folded(" Germ. % "), folded("harvest_year"), folded("E.A.N.")
    ('germ percent', 'harvest year', 'ean')
    """
    text = text.casefold().replace("%", " percent ").replace("'", "").replace("’", "")
    text = re.sub(r"\b(\w)\.(?=\w\b)", r"\1", text)
    return " ".join(re.sub(r"[\W_]+", " ", text).split())


def folded_all(texts: Collection[str]) -> frozenset[str]:
    return frozenset(map(folded, texts))


_RANKED: dict[str, tuple[Field, int]] = {
    word: (field, rank) for field, words in WORDS.items() for rank, word in enumerate(words)
}


def field_of(heading: str) -> Field | None:
    """The field that a heading names, with or without a unit in brackets behind it."""
    ranked = _ranked(heading)
    return ranked[0] if ranked else None


def _ranked(heading: str) -> tuple[Field, int] | None:
    if len(heading) > _LONGEST_HEADING:
        return None
    whole = _RANKED.get(folded(heading))
    bracket = _BRACKETED.search(heading)
    if whole or not bracket or _OTHER_UNITS.search(bracket[0].casefold()):
        return whole
    return _RANKED.get(folded(heading[: bracket.start()]))


def count_known(row: Iterable[str], known: frozenset[str] = frozenset()) -> int:
    """How many different fields the cells of a row name."""
    found: set[str] = set()
    for cell in row:
        if cell and len(cell) <= _LONGEST_HEADING:
            field = field_of(cell)
            if field or folded(cell) in known:
                found.add(field or folded(cell))
    return len(found)


def could_be_header(row: Sequence[str], known: frozenset[str] = frozenset()) -> bool:
    """A header names a crop or a variety (or what the person said), and holds no numbers."""
    cells = [cell.strip() for cell in row if cell.strip()]
    named = any(field_of(cell) in _NAMES_A_CROP or folded(cell) in known for cell in cells)
    return named and not any(cell.replace(".", "").isdigit() for cell in cells)


@dataclass(frozen=True, slots=True)
class Columns:
    """Where each field lies. `notes` columns go into the note; `ignored` say why they do not."""

    at: Mapping[Field, int]
    note_columns: tuple[int, ...]
    ignored: tuple[str, ...]
    mapped: Mapping[str, str]
    notes: tuple[str, ...] = ()


def recognised(table: Table, mapping: Mapping[str, str] | None = None) -> Columns:
    """Gives every column its field: first what the person said, then by heading words.

    Raises UsageError for a `mapping` that names a column or a field that does not exist.
    """
    told = _told(table, mapping or {})
    at: dict[Field, int] = {field: index for index, field in told.items() if field}
    note_columns = [index for index, field in told.items() if field is Field.NOTE]
    ignored: list[str] = []
    for index, field in _by_sureness(table, told):
        if field is Field.NOTE:
            note_columns.append(index)
        elif field is None or field in at:
            why = f" (another column is {field.value})" if field else ""
            ignored.append(_heading(table, index) + why)
        else:
            at[field] = index
    ignored += [_heading(table, index) for index, field in told.items() if field is None]
    at.pop(Field.NOTE, None)
    at, notes = _settled(table, at)
    mapped = {
        _heading(table, index): field.value for field, index in at.items() if field != Field.WRONG
    }
    mapped |= {_heading(table, index): Field.NOTE.value for index in note_columns}
    order = {_heading(table, index): index for index in range(len(table.headers))}
    mapped = dict(sorted(mapped.items(), key=lambda pair: order[pair[0]]))
    return Columns(at, tuple(sorted(note_columns)), tuple(ignored), mapped, notes)


def _by_sureness(table: Table, told: Mapping[int, Field | None]) -> list[tuple[int, Field | None]]:
    """The columns nobody named, surest heading first, so that it wins over a vaguer one."""
    ranked = []
    for index, heading in enumerate(table.headers):
        if index in told or not _filled(table, index, heading):
            continue
        found = _ranked(heading) if table.has_header else None
        ranked.append((found[1] if found else 0, index, found[0] if found else None))
    ranked.sort(key=lambda entry: entry[:2])
    return [(index, field) for _, index, field in ranked]


def _filled(table: Table, index: int, heading: str) -> bool:
    return bool(heading) or any(len(row) > index and row[index].strip() for row in table.rows)


def _settled(table: Table, at: dict[Field, int]) -> tuple[dict[Field, int], tuple[str, ...]]:
    """Resolves headings that mean different things in different tables, and says how."""
    notes: list[str] = []
    kind = at.get(Field.KIND)
    if kind is not None and not _all_kinds(table, kind):
        del at[Field.KIND]
        if Field.CROP in at or Field.CROP_ID in at:
            at.setdefault(Field.VARIETY, kind)
        else:
            at[Field.CROP] = kind
    name = at.pop(Field.NAME, None)
    if name is not None:
        notes += _name_settled(table, at, name)
    return at, tuple(notes)


def _name_settled(table: Table, at: dict[Field, int], name: int) -> list[str]:
    heading = _heading(table, name)
    if Field.CROP not in at and Field.CROP_ID not in at:
        at[Field.CROP] = name
        return [f"The column “{heading}” was read as the crop."]
    if Field.VARIETY not in at:
        at[Field.VARIETY] = name
        return [f"The column “{heading}” was read as the variety."]
    at[Field.NAME] = name  # both are there already: kept apart, its text goes into the note
    return [f"The column “{heading}” goes into the note: crop and variety have their own columns."]


def _all_kinds(table: Table, index: int) -> bool:
    return all(
        row[index].strip().casefold() in _KINDS
        for row in table.rows
        if len(row) > index and row[index].strip()
    )


def _told(table: Table, mapping: Mapping[str, str]) -> dict[int, Field | None]:
    return {_index_of(table, column): _field_named(name) for column, name in mapping.items()}


def _index_of(table: Table, column: str) -> int:
    wanted = folded(column)
    for index, heading in enumerate(table.headers):
        if folded(heading) == wanted or heading == column.strip():
            return index
    for index in range(len(table.headers)):
        if column_letter(index) == column.strip().upper():
            return index
    headings = ", ".join(heading for heading in table.headers if heading)
    raise UsageError(f"There is no column {shown(column)}.", hint=f"The columns: {headings}.")


def _field_named(name: str) -> Field | None:
    wanted = folded(name)
    if wanted in _IGNORED:
        return None
    for field in Field:
        if folded(field.value) == wanted:
            return field
    found = field_of(name)
    if found is None:
        names = ", ".join(field.value for field in Field if field not in _OURS)
        raise UsageError(f"{shown(name)} is no field of a packet.", hint=f"The fields: {names}.")
    return found


def _heading(table: Table, index: int) -> str:
    return table.headers[index] or f"column {column_letter(index)}"
