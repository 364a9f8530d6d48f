"""A PDF canvas that writes each page out when it is done and forgets it.

What stays in memory is the page at hand, the fonts, and where each object lies in the file: 8
bytes an object, two objects a page. So the number of pages hardly matters.
"""

from __future__ import annotations

import zlib
from array import array
from itertools import chain
from typing import Any, BinaryIO

from reportlab.pdfbase.pdfdoc import BasicFonts, PDFDocument, PDFTrailer, pdfdocEnc
from reportlab.pdfbase.pdfdoc import format as formatted
from reportlab.pdfgen.canvas import Canvas

# The bytes above 127 tell other programs that this is no plain text (ISO 32000-1:2008, 7.5.2).
_HEADER = b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n"


class StreamedCanvas(Canvas):  # type: ignore[misc]
    """reportlab's canvas over a file that is open for writing bytes."""

    def __init__(self, file: BinaryIO, **given: Any) -> None:
        super().__init__(file, **given)
        self._doc = _StreamedDocument(file)


class _StreamedDocument(PDFDocument):  # type: ignore[misc]
    """reportlab numbers its objects and keeps them by name; pages and their content are numbered
    here, written at once, and have no name. Fonts, catalogue and the rest follow at the end.
    """

    def __init__(self, file: BinaryIO) -> None:
        super().__init__(compression=1, invariant=1)
        self._file, self._length = file, 0
        self._offsets = array("Q")
        self._pages = array("L")
        self._write(_HEADER)
        self.Catalog.Pages = self.Reference(b"", "Pages")

    def addPage(self, page: Any) -> None:  # noqa: N802
        """Writes a page with its content."""
        code = zlib.compress(pdfdocEnc(page.stream))
        content = self._write_new(
            b"<< /Filter /FlateDecode /Length %d >>\nstream\n%b\nendstream" % (len(code), code)
        )
        size = formatted(page.pagewidth, self), formatted(page.pageheight, self)
        number = self._write_new(
            b"<< /Type /Page /Parent %b /MediaBox [ 0 0 %b %b ] /Contents %d 0 R"
            b" /Resources << /Font %b /ProcSet [ /PDF /Text ] >> >>"
            % (self._link("Pages"), *size, content, self._link(BasicFonts))
        )
        self._pages.append(number)
        self.pageCounter += 1
        self.inObject = None

    def SaveToFile(self, filename: Any, canvas: Any) -> None:  # noqa: N802
        """Writes what is left, the list of pages, and where each object lies."""
        for font in self.delayedFonts:
            font.addObjects(self)
        self.info.invariant = self.invariant
        self.info.digest(self.signature)
        self.Catalog.Outlines = None
        root, info = self.Reference(self.Catalog), self.Reference(self.info)
        number = 0
        while number < self.objectcounter:  # one object may number another as it is written
            number += 1
            name = self.numberToId.get(number)
            if name == "Pages":
                self._write_page_list(number)
            elif name is not None:
                self._write_object(number, formatted(self.idToObject[name], self, toplevel=1))
        table = self._write_table()
        trailer = PDFTrailer(table, Size=self.objectcounter + 1, Root=root, Info=info, ID=self.ID())
        self._write(trailer.format(self))

    def _link(self, name: str) -> bytes:
        return b"%d 0 R" % self.idToObjectNumberAndVersion[name][0]

    def _write_new(self, data: bytes) -> int:
        self.objectcounter += 1
        self._write_object(self.objectcounter, data)
        return int(self.objectcounter)

    def _write_object(self, number: int, data: bytes) -> None:
        self._note(number)
        self._write(b"%d 0 obj\n%b\nendobj\n" % (number, data.rstrip(b"\n")))

    def _write_page_list(self, number: int) -> None:
        self._note(number)
        self._write(b"%d 0 obj\n<< /Type /Pages /Count %d /Kids [" % (number, len(self._pages)))
        for page in self._pages:
            self._write(b" %d 0 R" % page)
        self._write(b" ] >>\nendobj\n")

    def _note(self, number: int) -> None:
        """An object begins here."""
        while len(self._offsets) < number:
            self._offsets.append(0)
        self._offsets[number - 1] = self._length

    def _write(self, data: bytes) -> None:
        self._file.write(data)
        self._length += len(data)

    def _write_table(self) -> int:
        """The cross-reference table (ISO 32000-1:2008, 7.5.4); gives where it begins."""
        start = self._length
        self._write(b"xref\n0 %d\n" % (len(self._offsets) + 1))
        for offset in chain((0,), self._offsets):
            self._write(b"%010d 00000 n \n" % offset if offset else b"0000000000 65535 f \n")
        return start
