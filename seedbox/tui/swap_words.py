"""Spare seed and wants as lines of a list and as sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from seedbox.season.crops import CropBook
from seedbox.season.forecast import Advice
from seedbox.season.swapping.list_writing import germination_words
from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.words import named
from seedbox.tin.list_records import SwapWord, Want
from seedbox.tin.records import Kind
from seedbox.tui.cells import wrapped
from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted
from seedbox.tui.tin_columns import germination_text
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row

TALL = 34  # lines from which more is said of the highlighted line
LAW = "Before seed leaves you: check your own local law."
WORTH_WORDS = {
    1: "nice to have", 2: "welcome", 3: "usual", 4: "wanted", 5: "badly wanted",
}  # fmt: skip
SPARE = (
    Column("crop", "Crop", 9, most=20),
    Column("variety", "Variety", 9, most=24),
    Column("portions", "Give", 7, right=True),
    Column("seeds", "Seeds", 5, right=True),
    Column("germination", "Germination", 13),
    Column("tested", "Tested", 8),
    Column("state", "State", 16, most=60),
)
WANTS = (
    Column("what", "What", 17, most=46),
    Column("portions", "Want", 4, right=True),
    Column("worth", "Worth", 6, right=True),
    Column("offered", "Listed", 6, right=True),
)
# Why seed is held back, in the two words that a line has room for.
_HELD = {
    "treated seed": "treated", "saved from a hybrid": "from a hybrid", "protected": "protected",
    "poisonous": "poisonous", "restricted": "restricted", "invasive": "invasive",
    "before it is tested": "test first",
}  # fmt: skip
_TINTS = {"offered": "good", "held": "warn", "kept back": "warn"}


def tint(key: str, text: str) -> str:
    """The colour that repeats what a cell says in words."""
    if key == "state":
        return next((style for word, style in _TINTS.items() if text.startswith(word)), "quiet")
    return "quiet" if key in ("seeds", "tested") else ""


def spare_row(one: Spare) -> Row:
    """One packet: what can be given of it, how good it is, what must be said of it."""
    known = one.offer.germination
    stock = one.line.packet.kind is Kind.STOCK
    tested = f"{known.tested_on:%b %Y}" if known.tested_on else "untested"
    return (
        one.line.crop,
        one.line.packet.variety,
        portions_text(one),
        str(one.portion.seeds) if one.portion else "-",
        germination_text(one.line.forecast).strip(),
        "-" if stock else tested,
        state(one),
    )


def portions_text(one: Spare) -> str:
    """`3`; `1 of 3` where less is offered than could be."""
    if one.portions == one.could_give:
        return str(one.portions)
    return f"{one.portions} of {one.could_give}"


def state(one: Spare) -> str:
    """Offered, held back, kept back or not spare, each with its reason in a few words."""
    if one.portions:
        heads = ", ".join(map(_head, one.offer.cautions))
        return f"offered: {heads}" if heads else "offered"
    if one.choice and one.choice.choice is SwapWord.KEEP:
        return "kept back: your word"
    if one.could_give:
        return f"held: {_held(one.held)}"
    return _why_not(one)


def _held(sentence: str) -> str:
    reasons = [short for said, short in _HELD.items() if said in sentence]
    return ", ".join(reasons) or sentence.partition(": ")[2].rstrip(".")


def _why_not(one: Spare) -> str:
    if one.line.packet.kind is Kind.STOCK:
        return "planting stock"
    if one.line.advice == Advice.SPENT:
        return "spent"
    if one.seeds is None:
        return "not counted" if one.line.dossier.left is None else "weight unknown"
    if one.portion is None:
        return "spent by then"
    if one.stays.last:
        return "last of its kind"
    return "needed" if one.kept_back == one.seeds else "under a portion"


def _head(caution: str) -> str:
    """The first words of a caution: `Poisonous: minor (leaf): …` is `poisonous`."""
    first = caution.partition(":")[0].partition(" (")[0]
    words = " ".join(first.split()[:3])
    return words if words.startswith("F1") else words[:1].lower() + words[1:]


def spare_words(one: Spare) -> str:
    """All that is known of a line, in sentences."""
    head = f"{named(one.line.crop, one.line.packet.variety)} ({one.line.code}): {offered(one)}."
    grown = germination_words(one.offer.germination)
    mind = ["Mind:", *one.offer.cautions] if one.offer.cautions else []
    return unbroken(" ".join([head, one.why, f"{capital(grown)}.", *mind]))


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def offered(one: Spare) -> str:
    """How much of it is offered."""
    if not one.portions:
        return "nothing is offered"
    seeds = f" of {counted(one.portion.seeds, 'seed')}" if one.portion else ""
    if one.grams_per_portion is not None:
        seeds += f" ({one.grams_per_portion:.2g} g)"
    most = one.choice.portions if one.choice else None
    least = f", at most {most} by your word" if most else ""
    return f"{counted(one.portions, 'portion')}{seeds} offered{least}"


def spare_heading(found: Iterable[Spare]) -> str:
    """`Spare: 12 portions of 5 packets, 3 held back`."""
    found = tuple(found)
    given = [one for one in found if one.portions]
    held = sum(1 for one in found if one.could_give and not one.portions)
    portions = counted(sum(one.portions for one in given), "portion")
    back = f", {held} held back" if held else ""
    return f"Spare: {portions} of {counted(len(given), 'packet')}{back}"


def want_row(want: Want, book: CropBook, offered: int | None) -> Row:
    """One want; `offered` portions of it stand on the lists that were read, None without lists."""
    return (
        named(book.name(want.crop_id), want.variety),
        str(want.portions),
        f"{want.worth} of 5",
        "-" if offered is None else str(offered),
    )


def want_words(want: Want, book: CropBook, who: Sequence[str]) -> str:
    """What is wanted, how dearly, and who offers it."""
    what = named(book.name(want.crop_id), want.variety or "any variety")
    words = f"You want {counted(want.portions, 'portion')} of {what}."
    words += f" Worth {want.worth} of 5: {WORTH_WORDS[want.worth]}."
    note = f" Note: {want.note.rstrip('.')}." if want.note else ""
    return f"{words}{note} {_who(who)}".rstrip()


def _who(who: Sequence[str]) -> str:
    if not who:
        return ""
    return f"On the lists you read: {'; '.join(who)}."


def clipped(text: str, width: int, room: int, more: str) -> list[str]:
    """As much of a text as fits into `room` lines; the last says how to see more."""
    lines = wrapped(text, width)
    if len(lines) <= room:
        return lines
    last = wrapped(" ".join(lines[room - 1 :]), max(1, width - len(more) - 3))[0]
    return [*lines[: room - 1], f"{last} … {more}"]
