"""Codes as typed on a command line, where a printed space falls apart into two words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from seedbox.errors import UsageError

F = TypeVar("F", bound=Callable[..., Any])
_LENGTH = 8


def whole_codes(words: Sequence[str]) -> list[str]:
    """Words put together to codes: `P4K7 QMX2` without quotation marks is one code.

    >>> whole_codes(["P4K7", "QMX2", "p9ab-3cd4"])
    ['P4K7 QMX2', 'p9ab-3cd4']
    """
    codes: list[str] = []
    begun = ""
    for word in words:
        joined = f"{begun} {word}".strip()
        if begun and _length(joined) > _LENGTH:
            codes.append(begun)
            joined = word
        begun = joined if _length(joined) < _LENGTH else ""
        if not begun:
            codes.append(joined)
    return [*codes, begun] if begun else codes


def one_code(ctx: click.Context, param: click.Parameter, words: Sequence[str]) -> str:
    """Callback of an argument that takes one code, in one word or two."""
    codes = whole_codes(words)
    if len(codes) != 1:
        raise click.BadParameter(f"one code is wanted, not {len(codes)}.", ctx, param)
    return codes[0]


def code_argument(complete: Callable[..., Any], name: str = "code") -> Callable[[F], F]:
    """The argument of a command about one thing, in one word or two.

    `complete` offers codes to the shell; the command receives the code under `name`.
    """
    return click.argument(
        name,
        nargs=-1,
        required=True,
        metavar=name.upper(),
        callback=one_code,
        shell_complete=complete,
    )


def many_codes(ctx: click.Context, param: click.Parameter, words: Sequence[str]) -> list[str]:
    """Callback of an argument that takes any number of codes."""
    return whole_codes(words)


def code_and_last(ctx: click.Context, param: click.Parameter, words: Sequence[str]) -> Any:
    """Callback of an argument that takes a code and one more word."""
    if len(words) < 2:
        raise click.UsageError("Give a code and then an amount, such as P4K7QMX2 20.", ctx)
    return one_code(ctx, param, words[:-1]), words[-1]


def refuse_code_as_file(file: Path, example: str) -> None:
    """A code where the file should stand would become the name of a file."""
    from seedbox.tin.codes import looks_like_code

    if not file.suffix and looks_like_code(file.name):
        raise UsageError(
            f"“{file}” is a code. Name the file first, such as {example}, and then the codes."
        )


def _length(text: str) -> int:
    return sum(char.isalnum() for char in text)
