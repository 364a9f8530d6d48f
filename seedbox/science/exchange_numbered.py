"""A hall with numbers for keys: members, stocks and desires in the order of their keys.

From here on everything goes by number, and ties by the lower number. That is why the order of the
lists in which a hall was written down changes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.science.exchange import Hall


@dataclass(frozen=True, slots=True)
class NumberedHall:
    """A hall by numbers; every tuple is by number of member, stock or desire.

    `giver` owns a stock that holds `offered` [portions]. `receiver` has a desire for `wanted`
    [portions], each worth `worth` [points], from any of the stocks `sources`; none is their own.
    """

    members: tuple[str, ...]
    stocks: tuple[str, ...]
    desires: tuple[str, ...]
    giver: tuple[int, ...]
    offered: tuple[int, ...]
    receiver: tuple[int, ...]
    wanted: tuple[int, ...]
    worth: tuple[int, ...]
    sources: tuple[tuple[int, ...], ...]
    tolerance: int

    def received_worth(self, received: list[int]) -> list[int]:
        """Worth to each member [points], from the portions received for each desire."""
        totals = [0] * len(self.members)
        for receiver, worth, portions in zip(self.receiver, self.worth, received, strict=True):
            totals[receiver] += worth * portions
        return totals


def numbered(hall: Hall) -> NumberedHall:
    """The hall by numbers."""
    members = sorted(hall.members)
    stocks = sorted(hall.stocks, key=lambda stock: stock.key)
    desires = sorted(hall.desires, key=lambda desire: desire.key)
    member_number = {key: number for number, key in enumerate(members)}
    stock_number = {stock.key: number for number, stock in enumerate(stocks)}
    owner = {stock.key: stock.member for stock in stocks}
    return NumberedHall(
        members=tuple(members),
        stocks=tuple(stock.key for stock in stocks),
        desires=tuple(desire.key for desire in desires),
        giver=tuple(member_number[stock.member] for stock in stocks),
        offered=tuple(stock.portions for stock in stocks),
        receiver=tuple(member_number[desire.member] for desire in desires),
        wanted=tuple(desire.portions for desire in desires),
        worth=tuple(desire.worth for desire in desires),
        sources=tuple(
            tuple(
                sorted(stock_number[key] for key in desire.accepts if owner[key] != desire.member)
            )
            for desire in desires
        ),
        tolerance=hall.tolerance,
    )
