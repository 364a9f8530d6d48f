"""What the formulas raise. This layer knows nobody, so its errors stand alone."""

from __future__ import annotations


class OutOfRangeError(ValueError):
    """A quantity outside the range in which its formula holds; the message says the range."""

    def __init__(
        self, quantity: str, value: float, low: float, high: float, unit: str = ""
    ) -> None:
        self.quantity = quantity
        self.value = value
        self.low = low
        self.high = high
        tail = f" {unit}" if unit else ""
        super().__init__(
            f"{quantity} is {value:g}{tail}, but must lie between {low:g} and {high:g}{tail}"
        )


def require(quantity: str, value: float, low: float, high: float, unit: str = "") -> None:
    """Raise OutOfRangeError unless low <= value <= high (a NaN never passes)."""
    if not low <= value <= high:
        raise OutOfRangeError(quantity, value, low, high, unit)


def require_inside(quantity: str, value: float, low: float, high: float, unit: str = "") -> None:
    """Raise OutOfRangeError unless low < value < high."""
    if not low < value < high:
        raise OutOfRangeError(quantity, value, low, high, unit)
