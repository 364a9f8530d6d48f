"""What can be sown now, beside the jobs of Today: the most urgent packets in a few words."""

from __future__ import annotations

from seedbox.season.sowing.now import SowingNow
from seedbox.season.sowing.offers import Offer

SHOWN = 3
# Looking through a tin takes some milliseconds a packet, too long for a list opened so often.
MOST_PACKETS = 1_000
LOOKING = "To sow now: looking through the packets …"
MANY = "To sow now: press n to look through the packets."


def sow_now_words(found: SowingNow) -> str:
    """The first packets to sow now, how many more there are, or what must be set first."""
    if found.missing:
        return "To sow now: set the garden's frosts and latitude first, on the Garden tab with f."
    if not found.offers:
        return "To sow now: nothing today; n says why not."
    first = "; ".join(map(_named, found.offers[:SHOWN]))
    more = len(found.offers) - SHOWN
    return f"To sow now: {first}" + (f"; n shows {more} more." if more > 0 else ".")


def _named(offer: Offer) -> str:
    name = f"{offer.line.crop} {offer.line.packet.variety}".strip()
    return f"{name} {offer.choice.method.value}"
