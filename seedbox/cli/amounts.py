"""Amounts as typed: `20`, `20 seeds`, `2.5g`, `all`."""

from __future__ import annotations

import re

from seedbox.cli.params import read_number
from seedbox.errors import UsageError
from seedbox.tin.records import Unit

_FORM = re.compile(r"(?P<number>[\d.,]+)\s*(?P<unit>[a-z]*)")
_UNITS = {"": None, "g": Unit.GRAMS, "gram": Unit.GRAMS, "grams": Unit.GRAMS,
          "seed": Unit.SEEDS, "seeds": Unit.SEEDS}  # fmt: skip


def read_amount(text: str) -> tuple[float, Unit | None]:
    """A number of seeds or grams; the unit is None when none was written.

    >>> read_amount("20"), read_amount("2,5g")
    ((20.0, None), (2.5, <Unit.GRAMS: 'grams'>))
    """
    found = _FORM.fullmatch(text.casefold().strip())
    if not found or found["unit"] not in _UNITS:
        raise UsageError(f"“{text}” is not an amount.", hint="Write 20, 2.5g, all or some.")
    try:
        return read_number(found["number"]), _UNITS[found["unit"]]
    except ValueError as error:
        raise UsageError(str(error), hint="Write 20, 2.5g, all or some.") from None
