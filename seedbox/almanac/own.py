"""A person's own figures for a crop: a mapping from the figure's name to what they typed."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

NO_OWN: Mapping[str, str] = MappingProxyType({})


def own_span(own: Mapping[str, str], name: str) -> tuple[float, float] | None:
    """A person's own range for a figure, or None when they set none.

    Raises BadDataError with a sentence when the text is no such figure.
    """
    if name not in own:
        return None
    # Most tins have no own figure: the rules are loaded for those that do.
    from seedbox.almanac.overrides import parse_override

    return parse_override(name, own[name])


def own_number(own: Mapping[str, str], name: str) -> float | None:
    """A person's own figure as one number, or None when they set none."""
    span = own_span(own, name)
    return None if span is None else (span[0] + span[1]) / 2
