"""Kinds of value that options take, each with a sentence for what it cannot read."""

from __future__ import annotations

import math
import re
import unicodedata
from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.errors import SeedboxError

if TYPE_CHECKING:
    _ParamType = click.ParamType[Any]
else:  # generic only since click 8.5
    _ParamType = click.ParamType

_MOST_DIGITS = 15
_COMMA_OF_THOUSANDS = re.compile(r"\d{1,3},\d{3}")


class _Kind(_ParamType):
    """A value read by `read`; what that refuses is said as a fault of the option."""

    def read(self, text: str, ctx: click.Context | None) -> Any:
        raise NotImplementedError

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if not isinstance(value, str):
            return value
        try:
            return self.read(value, ctx)
        except SeedboxError as error:
            self.fail(" ".join(filter(None, (error.sentence, error.hint))), param, ctx)
        except ValueError as error:
            self.fail(str(error), param, ctx)


def _today(ctx: click.Context | None) -> date | None:
    session = ctx.find_root().obj if ctx else None
    return getattr(session, "today", None)


class Day(_Kind):
    name = "date"

    def read(self, text: str, ctx: click.Context | None) -> date:
        from seedbox.cli.dates import read_day

        return read_day(text, _today(ctx))


class LastDay(_Kind):
    name = "date"

    def read(self, text: str, ctx: click.Context | None) -> date:
        from seedbox.cli.dates import read_last_day

        return read_last_day(text, _today(ctx))


class Year(_Kind):
    name = "year"

    def read(self, text: str, ctx: click.Context | None) -> int:
        if not (text.isdecimal() and 1900 <= int(text) <= 2199):
            raise ValueError(f"“{text}” is not a year with four digits, such as 2025.")
        return int(text)


class Share(_Kind):
    """A fraction written as 85%, 85 or 0.85. Exactly 1 is refused as unclear."""

    name = "share"

    def read(self, text: str, ctx: click.Context | None) -> float:
        return read_share(text)


class Number(_Kind):
    """A finite number in a range, with a decimal point or a decimal comma."""

    def __init__(self, name: str, low: float = -math.inf, high: float = math.inf) -> None:
        self.name = name
        self.low, self.high = low, high

    def read(self, text: str, ctx: click.Context | None) -> float:
        number = read_number(text)
        if not self.low <= number <= self.high:
            raise ValueError(f"{text} is out of range. {self._range()}")
        return number

    def _range(self) -> str:
        if self.high == math.inf:
            return f"It must be {self.low:g} or more."
        return f"It must lie from {self.low:g} to {self.high:g}."


class Whole(_Kind):
    """A whole number in a range."""

    def __init__(self, name: str, low: int, high: int | None = None) -> None:
        self.name = name
        self.low, self.high = low, high

    def read(self, text: str, ctx: click.Context | None) -> int:
        bare = text.strip()
        if not bare.removeprefix("-").isdecimal():
            raise ValueError(f"“{text}” is not a whole number.")
        number = int(bare[:_MOST_DIGITS])
        if number < self.low:
            raise ValueError(f"It must be {self.low} or more, not {number}.")
        if self.high is not None and number > self.high:
            raise ValueError(f"It must be {self.high:,} or less, not {number:,}.")
        return number


class Wholes(_Kind):
    """Whole numbers in a range, one or several with commas between, as a tuple."""

    def __init__(self, name: str, low: int, high: int | None = None) -> None:
        self.name = name
        self._each = Whole(name, low, high)

    def read(self, text: str, ctx: click.Context | None) -> tuple[int, ...]:
        if "," in text and not all(part.strip() for part in text.split(",")):
            raise ValueError(f"“{text}” leaves a number out: write 0 where there was none.")
        return tuple(self._each.read(part, ctx) for part in text.split(","))


class Words(_Kind):
    """One line of text: spaces tidied, and no character that a line cannot show."""

    name = "text"

    def read(self, text: str, ctx: click.Context | None) -> str:
        return read_words(text)


class Choice(_Kind):
    """One of a few words; the beginning of a word is enough when only one begins so."""

    def __init__(self, name: str, words: tuple[str, ...]) -> None:
        self.name = name
        self.words = words

    def read(self, text: str, ctx: click.Context | None) -> str:
        wanted = " ".join(text.casefold().replace("-", " ").replace("_", " ").split())
        if wanted in self.words:
            return wanted
        begun = [word for word in self.words if wanted and word.startswith(wanted)]
        if len(begun) == 1:
            return begun[0]
        raise ValueError(f"“{text}” is none of: {', '.join(self.words)}.")

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[Any]:
        from click.shell_completion import CompletionItem

        return [CompletionItem(word) for word in self.words if word.startswith(incomplete)]


def read_number(text: str) -> float:
    """A finite number.

    >>> read_number("2,5"), read_number(" 40 ")
    (2.5, 40.0)
    """
    if _COMMA_OF_THOUSANDS.fullmatch(text.strip()):
        whole = text.strip().replace(",", "")
        raise ValueError(
            f"“{text}” could be {whole} or {float(text.replace(',', '.')):g}. Say which."
        )
    try:
        number = float(text.strip().replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        raise ValueError(f"“{text}” is not a number.") from None
    if not math.isfinite(number):
        raise ValueError(f"“{text}” is not a number.")
    return number


def read_share(text: str) -> float:
    """A share between nothing and all, as a fraction of 1.

    >>> read_share("85%"), read_share("85"), read_share("0.85")
    (0.85, 0.85, 0.85)
    """
    bare = text.strip()
    percent = bare.endswith("%")
    number = read_number(bare.removesuffix("%"))
    if number == 1 and not percent and "." not in bare:
        raise ValueError("1 could mean 1 % or all of it. Write 1% or 100%.")
    fraction = number / 100 if percent or number > 1 else number
    if not 0 <= fraction <= 1:
        raise ValueError(f"“{text}” is not a share from 0 to 100 %.")
    return fraction


def read_words(text: str) -> str:
    """One tidy line.

    >>> read_words("  Cherry   Lane ")
    'Cherry Lane'
    """
    if any(unicodedata.category(char) in {"Cs", "Cn"} for char in text):
        raise ValueError("it holds bytes that are not text in this terminal's encoding.")
    line = " ".join(text.split())
    if any(unicodedata.category(char) == "Cc" for char in line):
        raise ValueError("it holds a control character. Use letters, digits and signs only.")
    return line


DAY = Day()
LAST_DAY = LastDay()
YEAR = Year()
SHARE = Share()
WORDS = Words()
