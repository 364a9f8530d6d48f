"""Printing: plain lines for people, JSON for programs, and the sentence after a change."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from typing import Any

import click


def say(*lines: str) -> None:
    """Lines on stdout, in one piece: a write for each would be most of the cost of a long list."""
    click.echo("\n".join(lines), nl=bool(lines))


def warn(*lines: str) -> None:
    """Lines beside the answer, on stderr, so that a pipe gets the answer alone."""
    for line in lines:
        click.echo(line, err=True)


def changed(sentence: str, *, as_json: bool = False, **facts: Any) -> None:
    """What a change did, and the way back."""
    if as_json:
        say_json({"done": sentence, **facts})
    else:
        say(sentence, "Undo with: seedbox undo")


def say_json(value: Any) -> None:
    """One JSON document. Dates as YYYY-MM-DD; what is not known is null."""
    import json

    encoding = (getattr(sys.stdout, "encoding", None) or "utf-8").lower().replace("-", "")
    click.echo(json.dumps(plain(value), indent=2, ensure_ascii=encoding != "utf8", allow_nan=False))


def plain(value: Any) -> Any:
    """Records, dates, enumerations and tuples as what JSON can hold.

    >>> from datetime import date
    >>> plain({"on": date(2027, 3, 1), "tags": ("a",), "left": None})
    {'on': '2027-03-01', 'tags': ['a'], 'left': None}
    """
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, str):
        return str(value)
    if isinstance(value, int | float):
        return float(value) if isinstance(value, float) else int(value)
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, Iterable):
        return [plain(item) for item in value]
    return _plain_object(value)


def _plain_object(value: Any) -> Any:
    if hasattr(value, "isoformat"):
        return value.isoformat()
    if hasattr(value, "__dataclass_fields__"):
        return {name: plain(getattr(value, name)) for name in value.__dataclass_fields__}
    return str(value)
