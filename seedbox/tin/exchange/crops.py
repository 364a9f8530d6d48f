"""Which crop a cell means. Nothing is guessed: what is not clear is a fault with an offer."""

from __future__ import annotations

import re
from collections.abc import Iterable

from seedbox.tin.drafts import LONGEST_LINE
from seedbox.tin.exchange.answers import CropAnswer, ResolveCrop
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.own import free_id
from seedbox.tin.records import OwnCrop
from seedbox.tin.text import clean_line

_PARTED = re.compile(r"^(.+?)(?:\s+[-–—]\s+|\s*[:,/(\[]\s*|\s+(?=['‘\"“]))(.+)$")
_MOST_WORDS = 8
# Names that nobody knows cost the resolver a search for near ones: this many, then no splitting.
_MOST_SEARCHES = 1_500


class CropReader:
    """Turns the text of a crop cell into a crop id, and a variety where the cell holds one too."""

    def __init__(
        self, resolve: ResolveCrop, own_crops: Iterable[OwnCrop] = (), *, keep_unknown: bool = False
    ) -> None:
        self._resolve = resolve
        self._keep_unknown = keep_unknown
        self._answers: dict[str, CropAnswer] = {}
        self._searches = 0
        self._own = {crop.id: crop for crop in own_crops}
        self._own_names = {crop.name.casefold(): crop.id for crop in self._own.values()}
        self.to_add: list[OwnCrop] = []
        self.notes: list[str] = []
        self.split: list[str] = []

    def whole(self, text: str) -> str:
        """The id of the crop that the whole cell names, which may be a new one of the person's own.

        Raises CellFaultError with the names to choose from.
        """
        name = _named(text)
        answer = self._answer(name)
        if answer.crop_id:
            return answer.crop_id
        if self._keep_unknown and not answer.clashes:
            return self._own_crop(name, answer)
        raise CellFaultError(_unresolved(name, answer))

    def with_variety(self, text: str) -> tuple[str, str]:
        """Crop and variety of a cell that may hold both: `Tomato - Weir Lamp`, `runner bean X`."""
        name = _named(text)
        if self._answer(name).crop_id is None:
            found = self._parted(name) or self._by_words(name)
            if found:
                self.split.append(name)
                return found
        return self.whole(text), ""

    def by_id(self, text: str) -> str:
        """A crop by the id that an export wrote."""
        crop_id = text.strip()
        if crop_id in self._own or self._answer(crop_id).is_id:
            return crop_id
        raise CellFaultError(f"{shown(text)} is the id of no crop.")

    def _answer(self, name: str) -> CropAnswer:
        answer = self._answers.get(name)
        if answer is None:
            answer = self._answers[name] = self._resolve(name)
            self._searches += answer.crop_id is None
        return answer

    def _parted(self, name: str) -> tuple[str, str] | None:
        found = _PARTED.match(name)
        if not found or self._searches > _MOST_SEARCHES:
            return None
        crop_id = self._answer(found[1]).crop_id
        return (crop_id, _bare(found[2])) if crop_id else None

    def _by_words(self, name: str) -> tuple[str, str] | None:
        """The most words from the left, else from the right, that name a crop."""
        words = name.split()
        if not 1 < len(words) <= _MOST_WORDS or self._searches > _MOST_SEARCHES:
            return None
        for count in range(len(words) - 1, 0, -1):
            crop_id = self._answer(" ".join(words[:count])).crop_id
            if crop_id:
                return crop_id, _bare(" ".join(words[count:]))
        for count in range(len(words) - 1, 0, -1):
            crop_id = self._answer(" ".join(words[-count:])).crop_id
            if crop_id:
                return crop_id, _bare(" ".join(words[:-count]))
        return None

    def _own_crop(self, name: str, answer: CropAnswer) -> str:
        known = self._own_names.get(name.casefold())
        if known:
            return known
        crop = OwnCrop(free_id(name, self._own), name)
        self._own[crop.id] = crop
        self._own_names[name.casefold()] = crop.id
        self.to_add.append(crop)
        if answer.near:
            self.notes.append(
                f"{shown(name)} is kept as a crop of your own, though it is close to "
                f"{' and '.join(answer.near)}."
            )
        return crop.id


def _named(text: str) -> str:
    if len(text) > LONGEST_LINE:
        raise CellFaultError(f"The cell holds {len(text):,} characters; a crop was expected.")
    name = clean_line(text)
    if not name or not any(character.isalpha() for character in name):
        raise CellFaultError(f"{shown(text)} is no crop.")
    return name


def _unresolved(name: str, answer: CropAnswer) -> str:
    if answer.clashes:
        return (
            f"{shown(name)} is the name of several crops. Say which: {', '.join(answer.clashes)}."
        )
    if answer.near:
        return f"{shown(name)} is no crop that Seedbox knows. Did you mean {_either(answer.near)}?"
    return f"{shown(name)} is no crop that Seedbox knows."


def _either(names: tuple[str, ...]) -> str:
    return " or ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]


def _bare(variety: str) -> str:
    """Without the quotation marks and brackets that set a variety apart."""
    return variety.strip(" '‘’\"“”()[]-–—,:;")
