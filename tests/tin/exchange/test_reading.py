"""Files as they come: every delimiter and encoding, and files that are no table at all."""

from __future__ import annotations

import csv
import io
import zipfile
from datetime import date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError, NotFoundError, SeedboxError
from seedbox.tin.exchange.decoding import decoded
from seedbox.tin.exchange.delimited import delimited_grid
from seedbox.tin.exchange.headers import count_known
from seedbox.tin.exchange.reading import read_table
from seedbox.tin.exchange.table import column_letter

ROWS = [["crop", "variety", "note"], ["Kürbis", "Weir; Lamp, x", "a|b\tc\nd"], ["pea", "", "é"]]


def _csv(rows: list[list[str]], delimiter: str = ",") -> str:
    text = io.StringIO()
    csv.writer(text, delimiter=delimiter).writerows(rows)
    return text.getvalue()


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_any_delimiter_in_any_encoding(tmp_path: Path, delimiter: str, encoding: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(_csv(ROWS, delimiter).encode(encoding))
    table = read_table(path)
    assert [table.headers, *table.rows] == ROWS
    assert table.encoding == encoding
    assert bool(table.notes) == (encoding == "cp1252")  # a guess is said, the others are marked


def test_latin_1_is_the_last_resort(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b"crop,variety\npea,a\x81\xe9\n")  # 0x81 is no character of cp1252
    table = read_table(path)
    assert table.encoding == "latin-1"
    assert "latin-1" in table.notes[0]


def test_utf_16_without_a_mark(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes("crop,variety\npea,Tall\n".encode("utf-16-be"))
    assert read_table(path).rows == [["pea", "Tall"]]


def test_the_encoding_can_be_told(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes("crop\nкапуста\n".encode("cp1251"))
    assert read_table(path, encoding="cp1251").rows == [["капуста"]]
    with pytest.raises(BadDataError, match="cannot be read as utf-8"):
        read_table(path, encoding="utf-8")
    with pytest.raises(BadDataError, match="no encoding"):
        read_table(path, encoding="klingon")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_line_end(tmp_path: Path, end: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(end.join(["crop,variety", 'pea,"two\nlines"', "", "kale,x"]).encode())
    assert read_table(path).rows == [["pea", "two\nlines"], [], ["kale", "x"]]


def test_odd_line_separators_are_no_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("crop,variety\npea,a\u2028b\x0cc\x85d\n", encoding="utf-8")
    assert read_table(path).rows == [["pea", "a\u2028b\x0cc\x85d"]]


def test_the_hint_of_a_spreadsheet(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("sep=;\ncrop;variety\npea;x\n")
    table = read_table(path)
    assert (table.headers, table.first_row_number) == (["crop", "variety"], 3)


def test_nul_bytes_go_and_the_limit_on_cells_is_put_back(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b"crop,note\npea,a\0b\nkale," + b"x" * 1_000_000 + b"\n")
    limit = csv.field_size_limit()
    table = read_table(path)
    assert table.rows[0] == ["pea", "ab"]
    assert len(table.rows[1][1]) == 1_000_000
    assert csv.field_size_limit() == limit


def test_an_open_quotation_mark_swallows_nothing(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text('crop,variety\npea,x\nkale,"open\nleek,y\nbean,z\n')
    table = read_table(path)
    assert [row[0] for row in table.rows] == ["pea", "kale", "leek", "bean"]
    assert [problem.row for problem in table.problems] == [3]


def test_a_title_above_the_header_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("My seeds,,\n,,\nveg,name,year\npea,x,2020\n")
    table = read_table(path)
    assert (table.headers[0], table.first_row_number) == ("veg", 4)
    assert "My seeds" in table.notes[0]


def test_no_header(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("pea,Tall,2020\nkale,Red,2021\n")
    table = read_table(path)
    assert table.headers == ["A", "B", "C"]
    assert not table.has_header
    assert len(table.rows) == 2


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "empty"), (b"\n\n  \n", "empty"), (b",,\n,,\n", "holds no table"),
        (b"%PDF-1.7\n\x00\x01", "PDF"), (b"\xff\xd8\xff\xe0\x00\x10JFIF", "JPEG"),
        (b"\x89PNG\r\n", "PNG"), (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "old office"),
        (b"PK\x03\x04 not a zip", "damaged"), (b"<!DOCTYPE html><table>", "web page"),
        (bytes(range(256)) * 40, "no table of text"), (b"SQLite format 3\x00", "database"),
    ],
)  # fmt: skip
def test_what_is_no_table_ends_in_a_sentence(tmp_path: Path, data: bytes, sentence: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(data)
    with pytest.raises(BadDataError, match=sentence):
        read_table(path)


def test_a_folder_and_nothing(tmp_path: Path) -> None:
    with pytest.raises(BadDataError, match="folder"):
        read_table(tmp_path)
    with pytest.raises(NotFoundError, match="no file"):
        read_table(tmp_path / "none.csv")


@settings(max_examples=150)
@given(st.binary(max_size=400))
def test_any_bytes_end_in_a_table_or_a_sentence(data: bytes) -> None:
    try:
        grid = delimited_grid(decoded(data, "x.csv"), count_known)
    except SeedboxError as fault:
        assert fault.sentence.endswith(".")
    else:
        assert all(isinstance(cell, str) for row in grid.rows for cell in row)


@given(st.lists(st.lists(st.text(st.characters(exclude_characters="\0\r", codec="utf-8")),
                         min_size=2, max_size=4), min_size=1, max_size=6))  # fmt: skip
def test_what_the_csv_module_writes_is_read_back(rows: list[list[str]]) -> None:
    """The csv module is the oracle. A header of ours tells the delimiter beyond doubt."""
    rows = [["crop", "variety", "note", "store"], *rows]
    grid = delimited_grid(decoded(_csv(rows).encode(), "x.csv"), count_known)
    while rows and rows[-1] == []:
        rows.pop()
    assert grid.rows[: len(rows)] == rows


# Workbooks, written by openpyxl


def _workbook(path: Path, *sheets: list[list[Any]]) -> Any:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for number, rows in enumerate(sheets, 1):
        page = book.create_sheet(f"page {number}")
        for row in rows:
            page.append(row)
    book.save(path)
    return book


def test_cells_of_a_workbook_read_as_a_person_reads_them(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    book = openpyxl.Workbook()
    page = book.active
    page.append(["crop", "year", "sow by", "germ", "ean", "treated", "when", "sum"])
    page.append(["pea", 2019.0, date(2025, 5, 31), 0.85, 2000000000008, True,
                 datetime(2024, 1, 2, 13, 30), 0.1 + 0.2])  # fmt: skip
    page["D2"].number_format = "0%"
    page.append(["#REF!"])
    book.save(path)
    table = read_table(path)
    assert table.rows[0] == ["pea", "2019", "2025-05-31", "85%", "2000000000008", "yes",
                             "2024-01-02 13:30:00", "0.3"]  # fmt: skip
    assert table.rows[1] == ["#REF!"]


def test_a_formula_without_a_result_is_not_lost(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    _workbook(path, [["crop", "seeds"], ["pea", "=1+1"], ["kale", 3]])
    table = read_table(path)
    assert table.rows == [["pea", "=1+1"], ["kale", "3"]]
    assert [(problem.row, "formula" in problem.sentence) for problem in table.problems] == [
        (2, True)
    ]


def test_merged_cells_are_filled_down(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    book = openpyxl.Workbook()
    page = book.active
    for row in (["crop", "variety"], ["pea", "x"], [None, "y"], ["kale", "z"]):
        page.append(row)
    page.merge_cells("A2:A3")
    book.save(path)
    table = read_table(path)
    assert [row[0] for row in table.rows] == ["pea", "pea", "kale"]
    assert "Merged" in table.notes[0]


def test_sheets(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    _workbook(path, [], [["crop"], ["pea"]], [["crop"], ["kale"]])
    assert read_table(path).rows == [["pea"]]
    assert read_table(path, sheet="PAGE 3").rows == [["kale"]]
    assert read_table(path, sheet="3").rows == [["kale"]]
    with pytest.raises(BadDataError, match="no sheet"):
        read_table(path, sheet="seeds")


def test_broken_locked_and_swollen_workbooks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "list.xlsx"
    _workbook(path, [["crop"], ["pea"]])
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(BadDataError, match="damaged"):
        read_table(path)
    path.write_bytes(
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le") + bytes(99)
    )
    with pytest.raises(BadDataError, match="password"):
        read_table(path)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b"0" * 3_000_000)
    monkeypatch.setattr("seedbox.tin.exchange.workbook.LARGEST_UNPACKED_BYTES", 2_000_000)
    with pytest.raises(BadDataError, match="unpack"):
        read_table(path)
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("content.xml", "text")
    with pytest.raises(BadDataError, match="archive"):
        read_table(path)


@settings(max_examples=40)
@given(st.integers(0, 5000), st.integers(0, 255))
def test_a_workbook_with_one_wrong_byte(
    tmp_path_factory: pytest.TempPathFactory, at: int, byte: int
) -> None:
    path = tmp_path_factory.getbasetemp() / "one.xlsx"
    _workbook(path, [["crop", "seeds"], ["pea", 4]])
    data = bytearray(path.read_bytes())
    data[at % len(data)] = byte
    path.write_bytes(data)
    try:
        read_table(path)
    except SeedboxError as fault:
        assert fault.sentence


def test_column_letters_agree_with_openpyxl() -> None:
    for index in (0, 25, 26, 51, 701, 702, 16383):
        assert column_letter(index) == openpyxl.utils.get_column_letter(index + 1)
