"""Divider cards: every packet behind one card, the cards of this garden, what fits them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from seedbox import almanac
from seedbox.errors import ExitCode

Type = Callable[..., Any]


def _words(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    words = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return " ".join(words.split())


@pytest.mark.parametrize("by", ["group", "month"])
def test_every_packet_stands_behind_one_card(
    type_in: Type, plot: Any, tmp_path: Path, by: str
) -> None:
    file = tmp_path / "cards.pdf"
    said = type_in("dividers", str(file), "--by", by, "--json").json
    behind = Counter(code for card in said["cards"] for code in card["packets"])
    assert behind == Counter(plot.packets.values())
    words = _words(file)
    for card in said["cards"]:
        assert card["name"] in words
    for variety in ("Tall Lantern", "Ferry Lamp", "Porch"):
        assert variety in words


def test_groups_are_botanical_families_in_the_trade_s_words(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    """The families are those of the almanac's crop list."""
    said = type_in("dividers", str(tmp_path / "cards.pdf"), "--json").json
    cards = {card["name"]: card["packets"] for card in said["cards"]}
    for name, family in (("Onion family", "Amaryllidaceae"), ("Cabbage family", "Brassicaceae")):
        crops = [crop for crop, code in plot.packets.items() if code in cards[name]]
        assert crops and {_family(crop) for crop in crops} == {family}
    assert cards["Flowers"] == [plot.packets["sweet pea"]]


def _family(name: str) -> str:
    return next(crop.family for crop in almanac.crops() if name in (crop.name_gb, crop.name_us))


def test_months_are_those_in_which_sowing_begins_in_this_garden(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    """By hand: tomato 7 weeks before 25 April is 7 March; a garden that is a month later sows it
    a month later."""

    def month_of(crop: str) -> str:
        said = type_in("dividers", str(tmp_path / "c.pdf"), "--by", "month", "--json").json
        code = plot.packets[crop]
        return next(card["name"] for card in said["cards"] if code in card["packets"])

    assert date(2027, 3, 7) == date.fromordinal(date(2027, 4, 25).toordinal() - 49)
    assert month_of("tomato") == "March"
    type_in("garden", "--last-frost", "05-27")
    assert month_of("tomato") == "April"


def test_a_garden_without_frosts_is_asked_for_them(
    type_in: Type, code_of: Callable[..., str], tmp_path: Path
) -> None:
    code_of("leek")
    file = tmp_path / "cards.pdf"
    told = type_in("dividers", str(file), "--by", "month", code=None)
    assert told.code != 0 and "garden" in told.err
    assert not file.exists()
    type_in("dividers", str(file))
    assert file.exists()


def test_a_long_list_is_told_by_crops_and_what_does_not_fit_is_named(
    type_in: Type, tmp_path: Path
) -> None:
    listed = tmp_path / "leeks.csv"
    rows = (f"leek,A name of some length: number {number}" for number in range(40))
    listed.write_text("\n".join(("crop,variety", *rows)), encoding="utf-8")
    type_in("import", str(listed))
    file = tmp_path / "cards.pdf"
    said = type_in("dividers", str(file), "--sheet", "a4-card-62x94")
    assert "leek (40)" in _words(file)
    assert "number 39" in said.out and "Onion family (40)" in said.out
    assert said.err == ""


def test_every_name_is_on_the_card_in_any_script_and_packets_of_a_name_are_counted(
    type_in: Type, tmp_path: Path
) -> None:
    """A name that is read from the right does not shorten the list to crops."""
    for variety in ("Long Hill", "Long Hill", "ריחן הגשם", "End…"):
        type_in("add", "leek", variety)
    type_in("add", "onion")
    said = type_in("dividers", str(tmp_path / "cards.pdf"))
    assert said.err == ""
    told = "leek: End…, Long Hill (2), ריחן הגשם; onion"
    assert told in said.out
    words = _words(tmp_path / "cards.pdf")
    assert "Long Hill (2)" in words and "End…" in words
    assert "leek (4)" not in words


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("{pdf}", "--by", "colour"), ExitCode.USAGE, "group, month"),
        (("{pdf}", "--store", "Attic"), ExitCode.NOT_FOUND, "Attic"),
        (("{pdf}", "--tag", "none"), ExitCode.NOT_FOUND, "No packet fits"),
        (("{pdf}/no/c.pdf",), ExitCode.USAGE, "no folder"),
        (("{pdf}", "--sheet", "a4-cards"), ExitCode.NOT_FOUND, "no label sheet"),
    ],
)
def test_what_cannot_be(
    type_in: Type, plot: Any, tmp_path: Path, words: tuple[str, ...], code: int, part: str
) -> None:
    filled = [word.format(pdf=tmp_path / "x.pdf") for word in words]
    assert part in type_in("dividers", *filled, code=code).err
