"""The rows of a table of packets, read column by column, to packets and faults.

Columns repeat themselves (years, crops, stores), so each distinct text is read once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Any

from seedbox.tin.exchange import amounts, dates, identity, texts, words
from seedbox.tin.exchange.amounts import Amount
from seedbox.tin.exchange.crops import CropReader
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.headers import Columns
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.plans import NewPacket
from seedbox.tin.exchange.sheet import Sheet
from seedbox.tin.exchange.table import Table
from seedbox.tin.records import Kind, Origin, Unit
from seedbox.tin.stock_words import stock_word

_DAYS = (Field.SOW_BY, Field.PRINTED_ON, Field.RECEIVED_ON)
_YEARS = (Field.HARVEST_YEAR, Field.PACKED_YEAR, Field.BOUGHT_YEAR, Field.YEAR)
_TITLE = "Only the crop is given, as in a title over the rows below"
_QUOTES = "'‘’\"“”"
_DATED = (*_DAYS, *_YEARS)
_REMARKED = {
    Field.SEEDS: "Quantity as written",
    Field.GRAMS: "Quantity as written",
    Field.QUANTITY: "Quantity as written",
    Field.ORIGIN: "",
}


@dataclass(frozen=True, slots=True)
class RowReading:
    """What came of the rows: a packet a row, in their order, with the faults in `sheet`."""

    sheet: Sheet
    packets: list[NewPacket]
    notes: list[str]


def read_rows(
    table: Table,
    columns: Columns,
    crops: CropReader,
    *,
    today: date,
    month_first: bool,
    taken_keys: frozenset[str] = frozenset(),
    again: bool = False,
    where: str = "",
) -> RowReading:
    """Reads every row that is not blank. Nothing is left out: a row is a packet or has faults.

    A table that an export wrote (`OUR_MARK`) is read to the letter; any other leniently.
    """
    sheet = Sheet(table, columns.at, where)
    exact = sheet.exact
    notes: list[str] = []
    sheet.note_faulty_rows()
    day = _day_readers(sheet, today, month_first, notes)
    crop_ids, varieties = _crops(sheet, crops)
    if crops.split:
        notes.append(
            f"{_times(len(crops.split), 'crop cell')} held the variety too, such as "
            f"“{crops.split[0]}”."
        )
    origins = sheet.read(Field.ORIGIN, words.origin, label="-")
    sources = sheet.read(Field.SOURCE, texts.line, "")
    if not exact:
        origins = _origins_by_source(origins, sources)
        varieties = [variety.strip(_QUOTES) for variety in varieties]
    kinds = _kinds(sheet, varieties, notes)
    harvest, packed, bought = (sheet.read(name, day[name].year) for name in _YEARS[:3])
    if Field.YEAR in sheet.at:
        notes.append(_spread_year(sheet, day[Field.YEAR], origins, (harvest, packed)))
    _note_impossible_years(sheet, harvest, packed, bought)
    amounts_read = _amounts(sheet)
    import_keys: Iterable[str | None] = (
        sheet.read(Field.IMPORT_KEY, texts.import_key)
        if exact
        else identity.keys(_said_by_row(sheet, columns), taken_keys, again=again)
    )
    packets = list(
        map(
            NewPacket,
            sheet.numbers,
            sheet.read(Field.CODE, words.packet_code, ""),
            crop_ids,
            varieties,
            kinds,
            origins,
            sources,
            harvest,
            packed,
            bought,
            sheet.read(Field.SOW_BY, _iso(day[Field.SOW_BY].last_day)),
            sheet.read(Field.GERMINATION, amounts.exact_percent if exact else amounts.percent),
            sheet.read(Field.PRINTED_ON, _iso(day[Field.PRINTED_ON].past_day)),
            sheet.read(Field.TREATMENT, words.treatment, "none"),
            sheet.read(Field.EAN, words.ean, ""),
            _notes(sheet, columns),
            sheet.read(Field.TAGS, texts.tags, ""),
            sheet.read(Field.PARENT, words.packet_code, ""),
            [amount.unit for amount in amounts_read],
            sheet.read(Field.RECEIVED_ON, _iso(day[Field.RECEIVED_ON].past_day)),
            import_keys,
            [amount.value for amount in amounts_read],
            sheet.read(Field.STORE, texts.store_name, ""),
        )
    )
    return RowReading(sheet, packets, notes)


def _iso(parse: Callable[[str], date]) -> Callable[[str], str]:
    """The day as the tin keeps it."""
    return lambda text: parse(text).isoformat()


def _day_readers(
    sheet: Sheet, today: date, month_first: bool, notes: list[str]
) -> dict[Field, dates.Reader]:
    """A reader per column: what its own dates prove about day and month comes before the region."""
    readers = {}
    for name in _DATED:
        index = sheet.at.get(name)
        order = month_first
        if index is not None:
            distinct = set(sheet.texts(index))
            proofs = {dates.puts_month_first(text) for text in distinct} - {None}
            order = proofs == {True} if len(proofs) == 1 else month_first
            unclear = [text for text in distinct if dates.is_ambiguous(text)]
            if unclear and name in _DAYS:
                first = "month" if order else "day"
                notes.append(
                    f"Dates such as {min(unclear)} in “{sheet.heading(index)}” were read with the "
                    f"{first} first."
                )
        readers[name] = dates.Reader(today, order)
    return readers


def _crops(sheet: Sheet, crops: CropReader) -> tuple[list[str], list[str]]:
    """Crop ids and varieties. An id column comes first; a crop cell may hold the variety too."""
    varieties = sheet.read(Field.VARIETY, texts.line, "")
    found = sheet.read(Field.CROP_ID, crops.by_id, "")
    index = sheet.at.get(Field.CROP)
    if index is None:
        _note_missing_crops(sheet, found)
        return found, varieties
    alone, both = sheet.reader(crops.whole), sheet.reader(crops.with_variety)
    column = sheet.texts(index)
    heading = sheet.heading(index)
    for place, text in enumerate(column):
        if found[place] or not text:
            continue
        if varieties[place]:
            found[place] = alone[text] or ""
            fault = alone.faults.get(text)
        else:
            found[place], varieties[place] = both[text] or ("", "")
            fault = both.faults.get(text)
        if fault:
            sheet.fault(place, fault, heading)
    _note_missing_crops(sheet, found)
    if not sheet.exact:
        _note_titles(sheet, found, varieties)
    return found, varieties


def _note_titles(sheet: Sheet, found: Sequence[str], varieties: Sequence[str]) -> None:
    """A row that only names a crop, over rows of that crop, is the title of a section.

    In a file of rejects the rows below are gone: there it is known by what is said of it.
    """
    index = sheet.at[Field.CROP]
    column = sheet.texts(index)
    wrong = sheet.at.get(Field.WRONG)
    said = [""] * len(found) if wrong is None else sheet.texts(wrong)
    for place, crop_id in enumerate(found):
        below = place + 1 < len(found) and (found[place + 1] == crop_id or not column[place + 1])
        if not crop_id or varieties[place] or not (below or _TITLE in said[place]):
            continue
        alone = _count_filled(sheet.rows[place], wrong) == 1
        if alone and (_TITLE in said[place] or _count_filled(sheet.rows[place + 1], wrong) > 1):
            advice = f"If it is a packet, give {shown(column[place])} a variety or a quantity."
            sheet.fault(place, f"{_TITLE}. {advice}", sheet.heading(index))


def _count_filled(row: list[str], wrong: int | None) -> int:
    return sum(1 for index, cell in enumerate(row) if index != wrong and cell.strip())


def _note_missing_crops(sheet: Sheet, found: Sequence[str]) -> None:
    last = ""
    index = sheet.at.get(Field.CROP, sheet.at.get(Field.CROP_ID, 0))
    column = sheet.texts(index)
    for place, crop_id in enumerate(found):
        if not crop_id and not column[place]:
            above = f" If it is that of the row above, write {last} again." if last else ""
            sheet.fault(place, f"The crop is empty.{above}", sheet.heading(index))
        last = column[place] or last


def _kinds(sheet: Sheet, varieties: list[str], notes: list[str]) -> list[Any]:
    """Seed or planting stock. Where no cell says which, the words for sets and cloves do."""
    found = sheet.read(Field.KIND, words.kind)
    if sheet.exact or Field.CROP not in sheet.at:
        return [kind or Kind.SEED for kind in found]
    crops = sheet.texts(sheet.at[Field.CROP])
    tested = sheet.at.get(Field.GERMINATION)
    shares = [""] * len(found) if tested is None else sheet.texts(tested)
    stock = list[str]()
    for place, kind in enumerate(found):
        # A germination on the packet speaks for seed.
        word = "" if kind or shares[place] else stock_word(crops[place], varieties[place])
        found[place] = kind or (Kind.STOCK if word else Kind.SEED)
        if word:
            stock.append(word)
    if stock:
        notes.append(
            f"{_times(len(stock), 'row')} read as planting stock, not seed, by words such as "
            f"{shown(stock[0])}. For true seed write seed in a column kind, or edit CODE --seed."
        )
    return found


def _origins_by_source(origins: list[Any], sources: list[str]) -> list[Any]:
    """A source such as `own seed` says how the packet came, where the origin does not."""
    meanings = {source: words.origin_of_source(source) for source in set(sources)}
    if not any(meanings.values()):
        return origins
    return [origin or meanings[source] for origin, source in zip(origins, sources, strict=True)]


def _spread_year(
    sheet: Sheet, reader: dates.Reader, origins: list[Any], years: tuple[list[Any], list[Any]]
) -> str:
    """A bare year is the harvest for saved seed, else the year it was packed: never too young."""
    harvest, packed = years
    heading = sheet.heading(sheet.at[Field.YEAR])
    for place, year in enumerate(sheet.read(Field.YEAR, reader.year)):
        into = harvest if origins[place] is Origin.SAVED else packed
        if year is not None and into[place] is None:
            into[place] = year
    return (
        f"“{heading}” was read as the year packed, for saved seed as the year of harvest. "
        f"To read it otherwise, map it: “{heading}=bought_year”."
    )


def _note_impossible_years(
    sheet: Sheet, harvest: list[Any], packed: list[Any], bought: list[Any]
) -> None:
    if Field.HARVEST_YEAR not in sheet.at and Field.YEAR not in sheet.at:
        return
    for word, later in (("packed", packed), ("bought", bought)):
        for place, (grown, year) in enumerate(zip(harvest, later, strict=True)):
            if grown is not None and year is not None and year < grown:
                sheet.fault(
                    place, f"It cannot be {word} in {year}, before its harvest in {grown}.", word
                )


def _amounts(sheet: Sheet) -> list[Amount]:
    """Amount and unit per row: seeds before grams before a column that may hold either."""
    units = sheet.read(Field.UNIT, words.unit)
    found = _quantities(sheet, Field.QUANTITY, units)
    for name, unit in ((Field.GRAMS, Unit.GRAMS), (Field.SEEDS, Unit.SEEDS)):
        if name in sheet.at:
            better = _quantities(sheet, name, [unit] * len(units))
            for place, amount in enumerate(better):
                if amount.value is not None and found[place].value is not None:
                    sheet.remarks[place].append(f"Also given: {_amount_text(found[place])}")
                if amount.value is not None or found[place].value is None:
                    found[place] = amount if amount.value is not None else found[place]
    return found


def _quantities(sheet: Sheet, name: Field, units: list[Unit | None]) -> list[Amount]:
    index = sheet.at.get(name)
    if index is None:
        return [Amount(None, unit) for unit in units]
    column = sheet.texts(index)
    found: list[Amount | None] = [None] * len(column)
    for unit in set(units):
        nothing = Amount(None, unit if name is Field.QUANTITY else None)
        reader = sheet.reader(partial(amounts.quantity, unit=unit), nothing)
        own = [text if units[place] is unit else "" for place, text in enumerate(column)]
        for place, text in enumerate(own):
            if units[place] is unit:
                found[place] = reader[text]
        sheet.keep(index, own, reader, _REMARKED[name])
    return [amount or Amount(None, None) for amount in found]


def _amount_text(amount: Amount) -> str:
    return f"{amount.value:g} {'g' if amount.unit is Unit.GRAMS else 'seeds'}"


def _notes(sheet: Sheet, columns: Columns) -> list[str]:
    """Note columns, what had no column of its own, and words that a value could not hold."""
    parts: list[tuple[str, list[str]]] = []
    many = len(columns.note_columns) > 1
    for index in columns.note_columns:
        reader = sheet.reader(texts.exact_note if sheet.exact else texts.note, "")
        column = sheet.texts(index)
        values = [reader[text] or "" for text in column]
        sheet.keep(index, column, reader)
        parts.append((f"{sheet.heading(index)}: " if many else "", values))
    if Field.NAME in sheet.at:
        lead = f"{sheet.heading(sheet.at[Field.NAME])}: "
        parts.append((lead, sheet.read(Field.NAME, texts.line, "")))
    if len(parts) == 1 and not parts[0][0] and not sheet.remarks:
        return parts[0][1]
    return _joined(len(sheet.rows), parts, sheet.remarks)


def _joined(
    count: int, parts: list[tuple[str, list[str]]], remarks: dict[int, list[str]]
) -> list[str]:
    found = []
    for place in range(count):
        lines = [lead + values[place] for lead, values in parts if values[place]]
        found.append("\n".join(lines + remarks.get(place, [])))
    return found


def _said_by_row(sheet: Sheet, columns: Columns) -> Iterable[tuple[str, ...]]:
    """What each row says, in an order of our own, for telling it again."""
    order = [sheet.at[name] for name in sorted(sheet.at) if name is not Field.WRONG]
    order += [index for index in columns.note_columns if index not in order]
    return zip(*(sheet.texts(index) for index in order), strict=True)


def _times(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"
