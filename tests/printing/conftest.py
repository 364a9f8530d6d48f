"""Label contents of an invented garden, and a page looked at from outside."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy
import pypdfium2
import pytest

from seedbox.printing.content import LabelContent
from tests.printing.looking import content


@pytest.fixture(scope="session")
def make_items() -> Callable[[int], list[LabelContent]]:
    """`count` labels with every field filled, each with a code of its own."""

    def make(count: int) -> list[LabelContent]:
        return [content(number) for number in range(count)]

    return make


@pytest.fixture(scope="session")
def render() -> Callable[..., Any]:
    """A page of a PDF as a greyscale array [row, column], 0 black to 255 white."""

    def page(path: Path, dpi: int = 300, number: int = 0) -> Any:
        document = pypdfium2.PdfDocument(path)
        try:
            image = document[number].render(scale=dpi / 72, grayscale=True).to_pil()
            return numpy.asarray(image)
        finally:
            document.close()

    return page
