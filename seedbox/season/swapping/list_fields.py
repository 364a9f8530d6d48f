"""The columns of a swap list, the words by which others name them, and what a cell may hold."""

from __future__ import annotations

import re
from enum import StrEnum

from seedbox.errors import SeedboxError
from seedbox.tin import codes
from seedbox.tin.exchange.fields import WORDS, Field
from seedbox.tin.exchange.headers import folded
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.exchange.texts import line
from seedbox.tin.wants import MOST_PORTIONS, WORTHS

MOST_SEEDS = 1_000_000
LONGEST_CODE = 40
MOST_CAUTIONS = 20
PARTED = " | "  # between the cautions of one offer in a cell


class Col(StrEnum):
    """A column of a swap list; the values stand at the head of a CSV, in this order."""

    WHAT = "what"
    CODE = "code"
    CROP = "crop"
    CROP_ID = "crop_id"
    VARIETY = "variety"
    PORTIONS = "portions"
    SEEDS = "seeds_per_portion"
    MEAN = "germination_percent"
    LOW = "low_percent"
    HIGH = "high_percent"
    TESTED_ON = "tested_on"
    TESTED_SEEDS = "tested_seeds"
    GERMINATED = "tested_germinated"
    PRINTED = "printed_percent"
    PRINTED_ON = "printed_on"
    HARVEST = "harvest_year"
    PACKED = "packed_year"
    TREATMENT = "treatment"
    HYBRID = "hybrid"
    CAUTIONS = "cautions"
    WORTH = "worth"
    GROWER = "grower"
    TOWN = "town"
    MADE_ON = "made_on"
    NOTE = "note"


MEANINGS: dict[Col, str] = {
    Col.WHAT: "offer: given away; want: looked for",
    Col.CODE: "the packet's code in its owner's tin, empty for wants",
    Col.CROP: "the crop, under a common name",
    Col.CROP_ID: "the crop's id in Seedbox, empty for a crop of the owner's own",
    Col.VARIETY: "the variety; in a want, empty is any",
    Col.PORTIONS: "swap portions offered or wanted, a whole number",
    Col.SEEDS: "seeds in one portion",
    Col.MEAN: "expected germination now, per cent",
    Col.LOW: "nine times in ten a sowing shows at least this, per cent",
    Col.HIGH: "nine times in ten a sowing shows at most this, per cent",
    Col.TESTED_ON: "day of the latest germination test; empty: untested",
    Col.TESTED_SEEDS: "seeds in that test",
    Col.GERMINATED: "seeds that germinated in that test",
    Col.PRINTED: "germination printed on the packet it was bought in, per cent",
    Col.PRINTED_ON: "day of that printed figure",
    Col.HARVEST: "year of harvest",
    Col.PACKED: "year in which it was packed, else bought, where the harvest is not known",
    Col.TREATMENT: "none, dressed, pelleted or primed",
    Col.HYBRID: "yes for an F1 hybrid, no otherwise",
    Col.CAUTIONS: f"cautions that go with the seed, parted by “{PARTED.strip()}”",
    Col.WORTH: "how dear a want is: 1 nice to have, 5 badly wanted",
    Col.GROWER: "who made the list; only if they said so",
    Col.TOWN: "where they live; only if they said so",
    Col.MADE_ON: "the day the list was made",
    Col.NOTE: "the owner's note on the packet; only if they said so, else there is no such column",
}
# Headings of lists that others keep; common practice, no source.
_HEADINGS: dict[Col, tuple[str, ...]] = {
    Col.WHAT: ("what", "offer or want", "have or want", "offered or wanted", "kind"),
    Col.CODE: (*WORDS[Field.CODE], "ref", "reference", "reference number"),
    Col.CROP: tuple(word for word in WORDS[Field.CROP] if word != "what"),
    Col.CROP_ID: WORDS[Field.CROP_ID],
    Col.VARIETY: (*WORDS[Field.VARIETY], "name", "description"),
    Col.PORTIONS: (
        "portions", "packets", "packs", "shares", "number of packets", "how many", "available",
        "number", "quantity", "qty", "spare", "portions offered", "portions wanted",
    ),
    Col.SEEDS: (
        "seeds per portion", "seeds per packet", "seeds each", "seeds in a portion",
        "seeds a portion", "seeds", "seed count",
    ),
    Col.MEAN: WORDS[Field.GERMINATION],
    Col.LOW: ("low percent", "low", "at least"),
    Col.HIGH: ("high percent", "high", "at most"),
    Col.TESTED_ON: ("tested on", "tested", "test date", "date tested"),
    Col.TESTED_SEEDS: ("tested seeds", "seeds tested"),
    Col.GERMINATED: ("tested germinated", "germinated"),
    Col.PRINTED: ("printed percent",),
    Col.PRINTED_ON: ("printed on",),
    Col.HARVEST: (*WORDS[Field.HARVEST_YEAR], "year"),
    Col.PACKED: (*WORDS[Field.PACKED_YEAR], *WORDS[Field.BOUGHT_YEAR]),
    Col.TREATMENT: WORDS[Field.TREATMENT],
    Col.HYBRID: ("hybrid", "f1", "f1 hybrid"),
    Col.CAUTIONS: ("cautions", "caution", "warnings", "warning", "mind"),
    Col.WORTH: ("worth", "how badly", "how dear", "priority", "wanted"),
    Col.GROWER: ("grower", "member", "person", "who"),
    Col.TOWN: ("town", "village", "place"),
    Col.MADE_ON: ("made on", "list of", "as of"),
    Col.NOTE: WORDS[Field.NOTE],
}  # fmt: skip
# Which column a heading names, and how surely: the first words name it best.
COLUMN_OF = {
    word: (column, rank)
    for column in reversed(Col)
    for rank, word in enumerate((folded(column.value), *_HEADINGS[column]))
}
KNOWN = tuple(COLUMN_OF)
OFFER, WANT = "offer", "want"
_OFFER_WORDS = {"offer", "offers", "offered", "have", "give", "giving", "spare", "to give", "swap"}
_WANT_WORDS = {
    "want",
    "wants",
    "wanted",
    "wish",
    "need",
    "looking for",
    "seek",
    "seeking",
    "would like",
}
_WHOLE = re.compile(r"(\d{1,9})\s*(?:portions?|packets?|packs?|pkts?|seeds?)?$")


def is_what(text: str) -> bool:
    """Whether a cell says offer or want."""
    return text.casefold().strip() in _OFFER_WORDS | _WANT_WORDS


def what(text: str) -> str:
    word = text.casefold().strip()
    if word in _WANT_WORDS:
        return WANT
    if word in _OFFER_WORDS:
        return OFFER
    raise CellFaultError(f"{shown(text)} is neither offer nor want.")


def crop(text: str) -> str:
    name = line(text)
    if not any(character.isalpha() for character in name):
        raise CellFaultError(f"{shown(text)} is no crop.")
    return name


def code(text: str) -> str:
    """A packet's code in its plain form; another person's own number as it is."""
    try:
        return codes.parse(text)
    except SeedboxError:
        return line(text, LONGEST_CODE)


def portions(text: str) -> int:
    found = _whole(text, MOST_PORTIONS, "portions")
    if not found:
        raise CellFaultError("No portion is offered or wanted here.")
    return found


def seeds(text: str) -> int:
    found = _whole(text, MOST_SEEDS, "seeds")
    if not found:
        raise CellFaultError("A portion without a seed is none.")
    return found


def counted(text: str) -> int:
    return _whole(text, MOST_SEEDS, "seeds")


def worth(text: str) -> int:
    found = text.strip()
    if found not in map(str, WORTHS):
        raise CellFaultError(f"{shown(text)} is no worth: 1 (nice to have) to 5 (badly wanted).")
    return int(found)


def cautions(text: str) -> tuple[str, ...]:
    """Sentences, each once; no list needs more than twenty of them."""
    said = [line(part, 1000) for part in text.split(PARTED.strip())]
    kept = tuple(dict.fromkeys(filter(None, said)))
    if len(kept) > MOST_CAUTIONS:
        raise CellFaultError(f"There are {len(kept)} cautions; {MOST_CAUTIONS} are the most.")
    return kept


def _whole(text: str, most: int, of_what: str) -> int:
    found = _WHOLE.match(" ".join(text.casefold().split()))
    if not found:
        raise CellFaultError(f"{shown(text)} is no whole number of {of_what}.")
    number = int(found[1])
    if number > most:
        raise CellFaultError(f"{number:,} {of_what} are more than {most:,}, the most there can be.")
    return number
