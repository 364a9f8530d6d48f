"""`swap` as typed: what is spare, wants, lists, gifts; and every slip with its sentence."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

Type = Callable[..., Any]

SPARE_KEYS = {
    "code", "crop", "variety", "portions", "seeds_per_portion", "germination", "cautions",
    "kept_back", "why",
}  # fmt: skip


SLIPS = (
    (("list", "mine.txt"), 2, "does not end in .csv, .json or .pdf"),
    (("list", "no/such/mine.csv"), 2, "There is no folder"),
    (("list", "--name", "mine.csv"), 2, "was taken for a name"),
    (("list", "mine.csv", "--town"), 2, "the setting grower_town"),
    (("list", "mine.csv", "--without", "P0000000"), 4, "check character"),
    (("want", "--worth", "4"), 2, "Say which crop"),
    (("want", "tomato", "--worth", "6"), 2, "5 or less"),
    (("want", "tomato", "--remove"), 3, "not among the wants"),
    (("want", "tomato", "--from-buy"), 2, "leave the rest out"),
    (("want", "tomato", "Lamp", "--variety", "Other"), 2, "said twice"),
    (("want", "achocha"), 3, "No crop is known"),
    (("give", "{onion}"), 4, "Spent"),
    (("give", "{kale}", "--portions", "90"), 4, "only 200 seeds left"),
    (("give", "{kale}", "--portions", "0"), 2, "1 or more"),
    (("give", "{kale}", "--labels", "l.txt"), 2, "l.txt does not end in .pdf"),
    (("book", "nothing.json", "--labels", "l"), 2, "l does not end in .pdf"),
    (("offer", "{kale}", "--forget"), 3, "Nothing was said"),
    (("offer", "{kale}", "--forget", "--portions", "2"), 2, "takes the word back"),
    (("receive", "achocha"), 3, "--own-crop"),
    (("receive", "tomato", "--tested", "10"), 2, "needs both"),
    (("receive", "tomato", "--tested", "10", "--germinated", "11"), 2, "More seeds"),
    (
        ("receive", "tomato", "--tested", "10", "--germinated", "9", "--tested-on", "2027-02-21"),
        2,
        "is in the future",
    ),
    (("receive", "tomato", "--store", "attic"), 3, "no store called"),
    (("book", "nothing.json"), 3, "There is no file"),
    (("match", "tin"), 2, "Name the lists"),
    (("match", "nobody.csv"), 3, "There is no file"),
    (("spare", "--crop", "achocha"), 3, "No crop is known"),
    (("lend",), 2, "There is no command"),
)


def _spare(type_in: Type) -> dict[str, Any]:
    return {one["crop"]: one for one in type_in("swap", "spare", "--json").json}


def test_spare_for_programs_has_just_what_is_promised(type_in: Type, plot: Any) -> None:
    found = type_in("swap", "spare", "--json").json
    assert len(found) == len(plot.packets)
    for one in found:
        assert one.keys() == SPARE_KEYS
        assert one["germination"].keys() == {"mean", "low", "high"}
        assert 0 <= one["germination"]["low"] <= one["germination"]["high"] <= 1
        given = one["portions"] * (one["seeds_per_portion"] or 0)
        assert given + one["kept_back"] <= 300
    spent = next(one for one in found if one["crop"] == "onion")
    assert (spent["portions"], spent["seeds_per_portion"]) == (0, None)


def test_a_word_moves_a_packet_in_and_out_of_the_offers(type_in: Type, plot: Any) -> None:
    kale = plot.packets["kale"]
    before = _spare(type_in)["kale"]["portions"]
    assert before > 0
    type_in("swap", "keep", kale)
    assert "Kept back, as you said" in type_in("swap", "spare").out
    assert _spare(type_in)["kale"]["portions"] == 0
    type_in("swap", "offer", kale, "--portions", "1")
    assert _spare(type_in)["kale"]["portions"] == 1
    type_in("swap", "offer", kale[:4], kale[4:], "--forget")
    assert _spare(type_in)["kale"]["portions"] == before
    type_in("undo")
    assert _spare(type_in)["kale"]["portions"] == 1


def test_wants_by_hand(type_in: Type, plot: Any) -> None:
    first = type_in("swap", "want", "zucchini", "--variety", "Awning", "--portions", "2",
                    "--worth", "4", "--json").json  # fmt: skip
    assert first["want"] == {
        "crop": "courgette", "crop_id": "courgette", "variety": "Awning", "portions": 2,
        "worth": 4, "note": "",
    }  # fmt: skip
    type_in("swap", "want", "courgette", "awning", "--worth", "5")
    type_in("swap", "want", "pea")
    assert [(one["crop"], one["worth"], one["portions"]) for one in _wants(type_in)] == [
        ("courgette", 5, 2),
        ("pea", 3, 1),
    ]
    assert type_in("swap", "want", "list").out == type_in("swap", "want").out
    type_in("swap", "want", "remove", "courgette", "Awning")
    type_in("swap", "want", "pea", "--remove")
    assert _wants(type_in) == []
    type_in("undo")
    assert [one["crop"] for one in _wants(type_in)] == ["pea"]


def _wants(type_in: Type) -> Any:
    return type_in("swap", "want", "--json").json


def test_wants_from_what_is_missing(type_in: Type, plot: Any) -> None:
    type_in("plan", "add", "pea", "--plants", "60")
    missing = {one["crop"] for one in type_in("buy", "--json").json}
    done = type_in("swap", "want", "--from-buy", "--json").json
    assert {one["crop"] for one in done["added"]} == missing >= {"pea", "onion"}
    pea = next(one for one in done["added"] if one["crop"] == "pea")
    assert (pea["portions"], pea["worth"]) == (3, 5)  # portions of 25, and none is in the tin
    again = type_in("swap", "want", "--from-buy", "--json").json
    assert (again["added"], again["changed"]) == ([], [])
    assert type_in("undo").out.startswith("Undone: Take what is missing")
    assert _wants(type_in) == []


@pytest.mark.parametrize("kind", ["csv", "json", "pdf"])
def test_a_list_is_written_and_nothing_private_is_in_it(
    type_in: Type, plot: Any, tmp_path: Path, kind: str
) -> None:
    type_in("edit", plot.packets["kale"], "--note", "SECRET1", "--from", "SECRET2")
    type_in("settings", "grower_name", "SECRET3")
    type_in("settings", "grower_town", "SECRET4")
    type_in("swap", "want", "pea", "--note", "SECRET5")
    leek = type_in("add", "leek", "Hill", "--seeds", "900", "--harvest", "2026", "--json").json
    file = tmp_path / f"mine.{kind}"
    said = type_in("swap", "list", str(file), "--without", leek["code"])
    assert said.out.startswith("Wrote ") and "Check your own local law" in said.out
    data = file.read_bytes()
    assert b"SECRET" not in data
    if kind == "pdf":  # its text is packed: another reader unpacks it
        words = _words_of(file)
        assert "SECRET" not in words and "kale" in words
        assert "Looked for" in words and "worth 3 of 5" in words
    if kind == "csv":
        rows = list(csv.DictReader(data.decode("utf-8-sig").splitlines()))
        assert [(row["what"], row["crop"]) for row in rows] == [("offer", "kale"), ("want", "pea")]
        assert not (rows[0]["grower"] or rows[0]["town"])
    if kind == "json":
        assert json.loads(data)["format"] == "seedbox-swap-list"
    type_in("swap", "list", str(file), "--name", "--town")  # a former list is written over
    said = _words_of(file) if kind == "pdf" else file.read_text(encoding="utf-8")
    assert "SECRET3" in said and "SECRET4" in said


def test_notes_leave_only_when_asked(type_in: Type, plot: Any, tmp_path: Path) -> None:
    type_in("edit", plot.packets["kale"], "--note", "Likes a wall", "--from", "SECRET")
    type_in("swap", "want", "pea", "--note", "SECRET")
    assert "Likes a wall" not in type_in("swap", "list").out
    said = type_in("swap", "list", "--notes").out
    assert "Notes of those who give it" in said and "kale" in said and "Likes a wall" in said
    for name in ("mine.csv", "mine.json"):
        type_in("swap", "list", str(tmp_path / name), "--notes")
        text = (tmp_path / name).read_text(encoding="utf-8-sig")
        assert "Likes a wall" in text and "SECRET" not in text
    refused = type_in("swap", "list", str(tmp_path / "mine.pdf"), "--notes", code=2)
    assert "no room for notes" in refused.err


def _words_of(pdf: Path) -> str:
    """Every word and the description of a PDF, by an independent reader."""
    document = pypdfium2.PdfDocument(pdf)
    words = [page.get_textpage().get_text_range() for page in document]
    words += document.get_metadata_dict().values()
    document.close()
    return "\n".join(words)


def test_a_list_on_the_terminal(type_in: Type, plot: Any) -> None:
    shown = type_in("swap", "list", "--name", "Maud", "--json").json
    assert (shown["grower"], shown["town"]) == ("Maud", "")
    assert "kale" in type_in("swap", "list").out
    assert type_in("swap", "list", "--schema").json["title"] == "A list for a seed swap"
    columns = type_in("swap", "list", "--columns", "--json").json
    assert list(columns)[:3] == ["what", "code", "crop"]


def test_every_slip_has_its_sentence_and_changes_nothing(type_in: Type, plot: Any) -> None:
    before = type_in("history", "--json").out
    for words, code, told in SLIPS:
        said = type_in("swap", *(word.format(**plot.packets) for word in words), code=code)
        assert told in said.err, said
    assert type_in("history", "--json").out == before


def test_a_list_never_overwrites_another_file(type_in: Type, plot: Any, tmp_path: Path) -> None:
    for name in ("mine.csv", "mine.json"):
        file = tmp_path / name
        file.write_text("dear diary", encoding="utf-8")
        assert "left alone" in type_in("swap", "list", str(file), code=2).err
        assert file.read_text(encoding="utf-8") == "dear diary"


def test_a_gift_leaves_the_packet_and_its_labels_are_read_back(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    kale, labels = plot.packets["kale"], tmp_path / "sharing.pdf"
    size = _spare(type_in)["kale"]["seeds_per_portion"]
    done = type_in("swap", "give", kale, "--to", "Ida", "--labels", str(labels), "--json").json
    (given,) = done["given"]
    assert (given["to"], given["amount"], given["left"]) == ("Ida", size, 200 - size)
    assert labels.read_bytes().startswith(b"%PDF")
    said = type_in("swap", "give", kale, "--seeds", "5").out
    fold = f"seedbox fold packets.pdf {kale} --copies 1 --seeds 5 --to-give"
    assert fold in said
    type_in("undo")
    type_in("undo")
    assert type_in("show", kale, "--json").json["seeds"] == 200


def test_a_gift_of_what_is_kept_back_is_made_and_said(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    kale = plot.packets["kale"]
    said = type_in("swap", "give", kale, "--seeds", "200", "--to", "Ida")
    assert "kale" in said.err and "seeds that would be kept back" in said.err
    assert "0 seeds left" in said.out
    type_in("undo")
    onion = type_in("swap", "give", plot.packets["onion"], "--seeds", "2", "--json")
    assert "given to nobody" in onion.err and onion.json["given"][0]["portions"] == 1
    fold = ("fold", str(tmp_path / "packets.pdf"), kale)
    assert "grower_name and grower_town" in type_in(*fold, "--to-give").err
    type_in("settings", "grower_name", "Maud")
    sharing = ("labels", str(tmp_path / "sharing.pdf"), kale, "--design", "sharing")
    gift = ("swap", "give", kale, "--seeds", "1", "--labels", str(tmp_path / "sharing.pdf"))
    for words in ((*fold, "--to-give"), sharing, gift):  # one sentence for all three
        told = type_in(*words).err
        assert "no town is written on" in told and "they are settings, grower_name and" in told
    type_in("settings", "grower_town", "Hobbin Beck")
    for words in ((*fold, "--to-give"), sharing, gift):
        assert "Laws" not in type_in(*words).err


def test_labels_that_cannot_be_written_stop_the_gift(type_in: Type, plot: Any) -> None:
    type_in("swap", "give", plot.packets["kale"], "--labels", "no/such/l.pdf", code=2)
    assert type_in("show", plot.packets["kale"], "--json").json["seeds"] == 200


def test_what_comes_is_a_packet_of_its_own(type_in: Type, plot: Any) -> None:
    done = type_in("swap", "receive", "tomato", "Weir Lamp", "--from", "Maud", "--portions", "2",
                   "--seeds", "25", "--harvest", "2026", "--tested", "20", "--germinated", "18",
                   "--tested-on", "2027-01-30", "--store", "tin", "--json").json  # fmt: skip
    packet = type_in("show", done["received"][0]["code"], "--json").json
    assert (packet["origin"], packet["source"], packet["seeds"]) == ("swapped", "Maud", 50)
    assert packet["tests"][0]["germinated"] == 18
    type_in("undo")
    assert len(type_in("list", "--json").json) == len(plot.packets)
