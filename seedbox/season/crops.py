"""Crop names as one person uses them: the almanac's crops and their own, in their English."""

from __future__ import annotations

from collections.abc import Iterable

from seedbox import almanac
from seedbox.errors import NotFoundError
from seedbox.season.cautions import hazard_sentences
from seedbox.season.searching import search_key
from seedbox.tin.frozen import record
from seedbox.tin.preferences import Settings
from seedbox.tin.records import OwnCrop


@record
class CropAnswer:
    """What a typed name means: one crop, several to choose from, or none with the nearest names.

    `remark` says why a name is shared, where that is worth knowing. `is_id` says that the text is
    the id of a crop, whatever it means as a name.
    """

    crop_id: str | None
    clashes: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    remark: str = ""
    is_id: bool = False


class CropBook:
    """Looks names up, both ways, for one tin."""

    def __init__(self, settings: Settings, own_crops: Iterable[OwnCrop] = ()) -> None:
        self._english = "us" if settings.names == "american" else "eu"
        self._own = {crop.id: crop for crop in own_crops}
        self._own_by_name = {search_key(crop.name): crop for crop in self._own.values()}

    def name(self, crop_id: str) -> str:
        """The name shown for a crop: British or American as the tin's settings say.

        A crop that nobody knows (an own crop struck out, a newer almanac) is shown by its id.
        """
        own = self._own.get(crop_id)
        if own:
            return own.name
        known = almanac.is_crop_id(crop_id)
        return almanac.crop(crop_id).name(self._english) if known else crop_id

    def family(self, crop_id: str) -> str:
        """Botanical family, or an empty string for a crop that has none here."""
        own = self._own.get(crop_id)
        if own:
            return own.family
        return almanac.crop(crop_id).family if almanac.is_crop_id(crop_id) else ""

    def botanical_name(self, crop_id: str) -> str:
        """Botanical name, or an empty string for a crop that the almanac does not know."""
        return almanac.crop(crop_id).botanical_name if almanac.is_crop_id(crop_id) else ""

    def all_names(self, crop_id: str) -> tuple[str, ...]:
        """Every name under which a person may look for the crop."""
        if almanac.is_crop_id(crop_id):
            return almanac.crop(crop_id).all_names
        return (self.name(crop_id),)

    def answer(self, text: str) -> CropAnswer:
        """What `text` means, without guessing. An own crop's name comes before the almanac's."""
        own = self._own.get(text.strip()) or self._own_by_name.get(search_key(text.strip()))
        if own:
            return CropAnswer(own.id, is_id=own.id == text.strip())
        found = almanac.find(text)
        return CropAnswer(
            crop_id=found.crop.id if found.crop else None,
            clashes=tuple(almanac.sure_name(crop, self._english) for crop in found.clashes),
            near=tuple(almanac.sure_name(crop, self._english) for crop in found.near),
            remark=found.remark,
            is_id=almanac.is_crop_id(text.strip()),
        )

    def crop_id(self, text: str) -> str:
        """The crop that `text` names, as an id.

        Raises:
            NotFoundError: when it names none or several; the hint offers names that would do.
        """
        answer = self.answer(text)
        if answer.crop_id:
            return answer.crop_id
        if answer.clashes:
            remark = f" ({answer.remark})" if answer.remark else ""
            raise NotFoundError(
                f"“{text}” is used for several plants{remark}.",
                hint=f"Say which one: {', '.join(answer.clashes)}.",
            )
        near = f"Did you mean {' or '.join(answer.near)}?" if answer.near else ""
        raise NotFoundError(
            f"No crop is known as “{text}”.",
            hint=" ".join(filter(None, (near, *hazard_sentences(text)))),
        )

    def complete(self, prefix: str, limit: int = 8) -> list[tuple[str, str]]:
        """Names that begin with `prefix` or have a word that does, each with its crop id."""
        wanted = search_key(prefix.strip())
        if not wanted:
            return []
        own = [(crop.name, crop.id) for name, crop in self._own_by_name.items() if wanted in name]
        known = almanac.complete(prefix, limit, self._english)
        return (own + [(name, crop.id) for name, crop in known])[:limit]
