"""Codes typed or piped one a line: a hand scanner is a keyboard that ends each code with Enter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin.codes import parse

_LONGEST_LINE = 200


def typed_codes(lines: Iterable[str], where: str = "") -> Iterator[str | Problem]:
    """Each line as a code in its plain form, or as what is wrong with it; blank lines are skipped.

    >>> list(typed_codes(["p1g1 d22f\\n", "\\n"]))
    ['P1G1D22F']
    """
    for number, line in enumerate(lines, 1):
        text = line[:_LONGEST_LINE].strip().lstrip("\ufeff")
        if text:
            yield _code(text, number, where)


def _code(text: str, number: int, where: str) -> str | Problem:
    try:
        return parse(text)
    except BadDataError as error:
        return Problem(error.sentence, row=number, where=where)
