"""Bytes of a text table to text: which encoding it was, and a refusal of what is no text at all."""

from __future__ import annotations

import codecs
from dataclasses import dataclass

from seedbox.errors import BadDataError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
# First bytes of files that people take for tables, and what they are.
_SIGNATURES = (
    (b"%PDF", "a PDF document"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"\x89PNG", "a PNG picture"),
    (b"GIF8", "a GIF picture"),
    (b"SQLite format 3", "a database; open a tin with --tin"),
    (b"\x1f\x8b", "a compressed file; unpack it first"),
    (b"{\\rtf", "a word processor document"),
)
_SAMPLE = 65_536


@dataclass(frozen=True, slots=True)
class Decoded:
    """`note` says so when the encoding had to be guessed."""

    text: str
    encoding: str
    note: str = ""


def decoded(data: bytes, name: str, encoding: str | None = None) -> Decoded:
    """The text of a file. Raises BadDataError for other kinds of file or a wrong `encoding`."""
    _refuse_other_kinds(data, name)
    if encoding:
        return _as_told(data, name, encoding)
    for mark, marked in _MARKS:
        if data.startswith(mark):
            return Decoded(data.decode(marked, errors="replace"), marked)
    wide = _wide_without_mark(data)
    if wide:
        return Decoded(data.decode(wide, errors="replace"), wide, f"The file was read as {wide}.")
    try:
        return Decoded(data.decode("utf-8"), "utf-8")
    except UnicodeDecodeError:
        return _by_fallback(data, name)


def _as_told(data: bytes, name: str, encoding: str) -> Decoded:
    try:
        return Decoded(data.decode(encoding), encoding)
    except LookupError:
        raise BadDataError(
            f"“{encoding}” is no encoding that Seedbox knows.", hint="Try utf-8, utf-16 or cp1252."
        ) from None
    except UnicodeError as fault:
        raise BadDataError(
            f"{name} cannot be read as {encoding}: {fault}.",
            hint="Leave the encoding out and Seedbox will look for one that fits.",
        ) from fault


def _by_fallback(data: bytes, name: str) -> Decoded:
    sample = data[:_SAMPLE]
    controls = sum(byte < 32 and byte not in b"\t\r\n\f\0\x1a" for byte in sample)
    if controls > len(sample) * 0.02:
        raise BadDataError(
            f"{name} is no table of text.", hint="Save the table as CSV or XLSX and import that."
        )
    try:
        text, encoding = data.decode("cp1252"), "cp1252"
    except UnicodeDecodeError:
        text, encoding = data.decode("latin-1"), "latin-1"
    note = f"The file is not UTF-8; it was read as {encoding}. Look at accents and umlauts."
    return Decoded(text, encoding, note)


def _wide_without_mark(data: bytes) -> str:
    """UTF-16 without a mark: Latin letters leave every other byte zero."""
    sample = data[:_SAMPLE]
    if len(sample) < 4 or len(data) % 2:
        return ""
    half = len(sample) // 2
    if sample[1::2].count(0) > half * 0.7 and sample[0::2].count(0) < half * 0.1:
        return "utf-16-le"
    if sample[0::2].count(0) > half * 0.7 and sample[1::2].count(0) < half * 0.1:
        return "utf-16-be"
    return ""


def _refuse_other_kinds(data: bytes, name: str) -> None:
    for signature, kind in _SIGNATURES:
        if data.startswith(signature):
            raise BadDataError(
                f"{name} is {kind}, not a table.", hint="Save the table as CSV or XLSX."
            )
    head = data[:512].lstrip().lower()
    if head.startswith((b"<!doctype html", b"<html", b"<?xml")):
        raise BadDataError(
            f"{name} is a web page or XML, whatever its name says.",
            hint="Open it in a spreadsheet and save it as CSV or XLSX.",
        )
