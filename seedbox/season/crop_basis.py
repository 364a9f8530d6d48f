"""What a forecast takes from the almanac for one crop, once for all packets of that crop."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from seedbox import almanac
from seedbox.science.ageing import Climate, bounded, store_rate, unsupported
from seedbox.science.prior import Prior, initial_viability, lot_prior, rate_spread
from seedbox.science.viability import days_per_probit
from seedbox.tin.records import OwnCrop, OwnFigure

if TYPE_CHECKING:
    from seedbox.almanac import OilContent, StorageLife

_REGION = {"eu": "EU", "us": "US"}


class CropBasis:
    """A crop's figures and the beliefs and store rates that follow from them."""

    def __init__(
        self,
        life: StorageLife,
        oil: OilContent,
        standard: float,
        standard_basis: str,
        *,
        standard_known: bool,
    ) -> None:
        self.life = life
        self.oil = oil
        self.standard = standard
        self.standard_basis = standard_basis
        self.standard_known = standard_known
        self._sigma = days_per_probit(life.years)
        self._rates: dict[Climate, tuple[float, str]] = {}
        self._priors: dict[tuple[str, bool], Prior] = {}

    def rate(self, climate: Climate) -> tuple[float, str]:
        """Ageing dose of a typical lot [probits per day], and why it is unsupported, if it is."""
        if climate not in self._rates:
            oil = self.oil.fraction
            rate = store_rate(bounded(climate), oil) / self._sigma
            self._rates[climate] = (rate, unsupported(climate, oil))
        return self._rates[climate]

    def prior(self, origin: str, primed: bool) -> Prior:
        """Belief in a lot of this crop before any test."""
        key = (origin, primed)
        if key not in self._priors:
            viability = initial_viability(origin, self.standard, standard_known=self.standard_known)
            spread = rate_spread(self.life.sd_ln, self.life.basis)
            self._priors[key] = lot_prior(viability, spread, primed=primed)
        return self._priors[key]

    def life_sentence(self) -> str:
        """Which storage life this rests on, and from how many independent tables."""
        unit = "year" if self.life.years == 1 else "years"
        years = f"{self.life.years:.2g} {unit} from 90 to 60 % in a dry room"
        if self.life.basis is almanac.Basis.YOURS:
            return f"Storage life: {years}, your own figure."
        if self.life.basis is almanac.Basis.CROP:
            tables = _tables(self.life.lineages)
            return f"Storage life: {years}, by {tables}."
        if self.life.basis is almanac.Basis.FAMILY:
            return f"Storage life: {years}, by its family; no table names this crop."
        return f"Storage life: {years}, the middle of all crops; nothing is known of this one."


class CropBases:
    """The basis of every crop in a tin, worked out when first asked for."""

    def __init__(
        self,
        region: str,
        fallback_standard: float,
        own_figures: Iterable[OwnFigure],
        own_crops: Iterable[OwnCrop],
    ) -> None:
        self._region = region
        self._fallback = fallback_standard
        self._families = {crop.id: crop.family for crop in own_crops}
        self._own: dict[str, dict[str, str]] = {}
        for figure in own_figures:
            self._own.setdefault(figure.crop_id, {})[figure.figure] = figure.value
        self._known: dict[str, CropBasis] = {}

    def basis(self, crop_id: str) -> CropBasis:
        """Figures of a crop, the person's own first; a crop nobody knows rests on its family."""
        if crop_id not in self._known:
            own = self.own(crop_id)
            self._known[crop_id] = crop_basis(
                crop_id, self._families.get(crop_id, ""), self._region, self._fallback, own
            )
        return self._known[crop_id]

    def own(self, crop_id: str) -> Mapping[str, str]:
        """A person's own figures for a crop."""
        return self._own.get(crop_id, {})


def crop_basis(
    crop_id: str, family: str, region: str, fallback: float, own: Mapping[str, str]
) -> CropBasis:
    """Looks up what a forecast needs of a crop."""
    life = almanac.storage_life(crop_id, family, own)
    oil = almanac.oil_fraction(crop_id, family, own)
    standard = almanac.standard(crop_id, region, own)
    if standard is None:
        fraction = fallback
        basis = "from your settings; none is known for this crop"
    else:
        fraction = standard.fraction
        yours = standard.mark is almanac.Mark.YOURS
        basis = "your own figure" if yours else f"{_REGION.get(region, region)} minimum for sale"
    known = standard is not None
    return CropBasis(life, oil, min(max(fraction, 0.01), 0.99), basis, standard_known=known)


def _tables(count: int) -> str:
    return "one table" if count == 1 else f"{count} independent tables"
