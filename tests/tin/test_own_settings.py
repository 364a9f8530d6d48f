"""Settings, own crops and own figures."""

from __future__ import annotations

from dataclasses import fields
from datetime import date

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.own import add_own_crop, clear_own_figure, remove_own_crop, set_own_figure
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.plans import set_plan
from seedbox.tin.preferences import CHOICES, Settings, parse_setting
from seedbox.tin.settings import reset_setting, set_setting
from seedbox.tin.wants import add_want


def test_every_setting_has_a_choice_that_accepts_its_default() -> None:
    assert {field.name for field in fields(Settings)} == set(CHOICES)
    for name in CHOICES:
        assert parse_setting(name, str(getattr(Settings(), name))) == getattr(Settings(), name)


def test_a_new_tin_has_the_defaults(tin: Tin) -> None:
    assert tin.settings() == Settings()


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("region", " US ", "us"),
        ("hemisphere", "south", "south"),
        ("names", "American", "american"),
        ("floor", "0,4", 0.4),
        ("sure", "0.8", 0.8),
        ("label_offset_x_mm", "-1.5", -1.5),
        ("theme", "", ""),
        ("dates", "Day-first", "day first"),
        ("dates", "month first", "month first"),
        ("label_line", "Not for sale – 種子", "Not for sale – 種子"),
        ("label_scale_x", "0,995", 0.995),
        ("label_start", "12", 12),
        ("label_dpi", "203", 203),
        ("grower_town", "Ashbrook", "Ashbrook"),
        ("swap_law", "GB", "gb"),
        ("swap_tolerance", "0", 0),
    ],
)
def test_setting_and_going_back(tin: Tin, name: str, text: str, value: object) -> None:
    assert getattr(set_setting(tin, name, text), name) == value
    assert getattr(set_setting(tin, name, text), name) == value
    assert getattr(tin.settings(), name) == value
    assert tin.history()[0].label == f"Set {name} to {'nothing' if value == '' else value}"
    assert reset_setting(tin, name) == Settings()
    undo(tin)
    assert getattr(tin.settings(), name) == value


@pytest.mark.parametrize(
    ("name", "text", "part"),
    [
        ("region", "mars", "eu or us, not “mars”"),
        ("floor", "2", "from 0.05 to 0.95"),
        ("floor", "nan", "from 0.05 to 0.95"),
        ("sure", "often", "a number from"),
        ("theme", "x" * 81, "at most 80"),
        ("theme", "a\x1bb", "holds a control character"),
        ("dates", "last first", "iso or day first or month first, not “last first”"),
        ("label_line", "x" * 81, "a line of at most 80"),
        ("label_scale_y", "1.2", "from 0.9 to 1.1"),
        ("label_start", "0", "a whole number from 1 to 1000"),
        ("label_start", "1.5", "a whole number from 1 to 1000"),
        ("label_dpi", "nan", "a whole number from 200 to 2400 dots per inch"),
        ("label_dpi", "inf", "a whole number from 200 to 2400 dots per inch"),
        ("swap_law", "moon", "eu or gb or us or other"),
        ("swap_tolerance", "-1", "from 0 to 20 portions"),
    ],
)
def test_bad_values(tin: Tin, name: str, text: str, part: str) -> None:
    with pytest.raises(BadDataError, match=part):
        set_setting(tin, name, text)
    assert tin.settings() == Settings()


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("Ines\x1b[31m", "a control character (U+001B)"),
        ("Ines\x00", "a control character (U+0000)"),
        ("Ines\nMarlow", "a line break"),
        ("Ines\ud83d", "half a character (U+D83D)"),
    ],
)
def test_what_no_line_of_text_can_hold_is_named_and_not_its_length(
    tin: Tin, text: str, what: str
) -> None:
    with pytest.raises(BadDataError) as told:
        set_setting(tin, "grower_name", text)
    assert told.value.sentence == (
        f"grower_name takes one line of plain text: what was given holds {what}."
    )
    assert told.value.sentence.isprintable()
    assert tin.settings().grower_name == ""


def test_unknown_settings_suggest_near_ones(tin: Tin) -> None:
    with pytest.raises(NotFoundError) as caught:
        set_setting(tin, "fallback-standart", "0.6")
    assert caught.value.hint == "Did you mean fallback_standard?"
    with pytest.raises(NotFoundError) as caught:
        reset_setting(tin, "qqq")
    assert "region, hemisphere" in caught.value.hint


def test_a_value_from_another_version_leaves_the_default(tin: Tin) -> None:
    tin.database.run("INSERT INTO setting (name, value) VALUES ('region', 'mars'), ('new', '1')")
    assert tin.settings() == Settings()


def test_own_crops(tin: Tin, today: date) -> None:
    crop = add_own_crop(tin, " Blue  Oca-root ", family="Oxalidaceae")
    assert (crop.id, crop.name) == ("own:blue-oca-root", "Blue Oca-root")
    assert tin.own_crops() == [crop]
    assert add_own_crop(tin, "Blue Oca: root").id == "own:blue-oca-root-2"
    assert add_own_crop(tin, "種").id == "own:種"
    assert add_own_crop(tin, "!?").id == "own:crop"
    with pytest.raises(BadDataError, match="“Blue Oca-root” already"):
        add_own_crop(tin, "BLUE OCA-ROOT")
    with pytest.raises(BadDataError, match="needs a name"):
        add_own_crop(tin, "\x00")
    add_want(tin, crop.id)
    with pytest.raises(BadDataError, match="1 want is of own:blue-oca-root"):
        remove_own_crop(tin, crop.id)
    set_plan(tin, crop.id, 4)
    set_plan(tin, crop.id, 4, variety="Pale")
    with pytest.raises(BadDataError, match="2 plans are of own:blue-oca-root"):
        remove_own_crop(tin, crop.id)
    add_packet(tin, PacketDraft(crop.id), today=today)
    with pytest.raises(BadDataError, match="1 packet is of own:blue-oca-root"):
        remove_own_crop(tin, crop.id)


def test_removing_an_own_crop_takes_its_figures(tin: Tin) -> None:
    crop = add_own_crop(tin, "Oca-root")
    set_own_figure(tin, crop.id, "storage_years", "3")
    set_own_figure(tin, "leek", "storage_years", "2")
    remove_own_crop(tin, crop.id)
    assert tin.own_crops() == []
    assert [figure.crop_id for figure in tin.own_figures()] == ["leek"]
    undo(tin)
    assert (tin.own_crops(), len(tin.own_figures())) == ([crop], 2)
    with pytest.raises(NotFoundError, match="no crop of your own"):
        remove_own_crop(tin, "own:none")


def test_own_figures(tin: Tin) -> None:
    first = set_own_figure(tin, "leek", "storage_years", "2.5", note="mine fail sooner")
    assert tin.own_figures() == [first]
    second = set_own_figure(tin, "leek", "storage_years", " 2 ")
    assert tin.own_figures() == [second]
    assert second.value == "2"
    clear_own_figure(tin, "leek", "storage_years")
    assert tin.own_figures() == []
    with pytest.raises(NotFoundError, match="no figure of your own"):
        clear_own_figure(tin, "leek", "storage_years")
    with pytest.raises(BadDataError, match="needs a crop"):
        set_own_figure(tin, "leek", "storage_years", " ")


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("کوچه\u200cباغ", "کوچه\u200cباغ"),  # Persian parts a word without a blank
        ("👩\u200d🌾 Maud", "👩\u200d🌾 Maud"),
        ("Maud\u202e lliM", "Maud lliM"),  # no name turns the words after it
        ("  Mill   Lane ", "Mill Lane"),
    ],
)
def test_names_are_kept_in_any_script_as_those_of_packets_are(
    tin: Tin, typed: str, kept: str
) -> None:
    assert set_setting(tin, "grower_name", typed).grower_name == kept
