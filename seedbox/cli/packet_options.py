"""What can be said of a packet, by the same options when it is added and when it is edited."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.filters import ORIGIN
from seedbox.cli.params import DAY, LAST_DAY, SHARE, WORDS, YEAR, Choice
from seedbox.errors import UsageError
from seedbox.tin.records import Origin, Treatment

if TYPE_CHECKING:
    from seedbox.tin.file import Tin

TREATMENT = Choice("treatment", tuple(treatment.value for treatment in Treatment))

# Option names that differ from the name of the packet's field.
_FIELDS = {
    "harvest": "harvest_year",
    "packed": "packed_year",
    "bought": "bought_year",
    "sow_by": "sow_by",
    "source": "source",
    "germination": "printed_germination",
    "tested_on": "printed_on",
    "ean": "ean",
    "note": "note",
    "received": "received_on",
}
_OPTIONS = (
    click.option("--harvest", type=YEAR, help="Year of harvest: the best thing to know."),
    click.option("--packed", type=YEAR, help="Year in which it was packed."),
    click.option("--bought", type=YEAR, help="Year in which it was bought."),
    click.option("--sow-by", type=LAST_DAY, help="Sow-by date as printed, such as 2027-12."),
    click.option("--origin", type=ORIGIN, help="One of: " + ", ".join(Origin) + "."),
    click.option("--from", "source", type=WORDS, help="Who it came from."),
    click.option("--treated", type=TREATMENT, help="One of: " + ", ".join(Treatment) + "."),
    click.option(
        "--germination", type=SHARE, help="Germination printed on the packet, such as 85%."
    ),
    click.option("--tested-on", type=LAST_DAY, help="When that germination was tested."),
    click.option("--ean", type=WORDS, help="The number under the packet's own bar code."),
    click.option("--note", type=WORDS, help="Anything worth knowing."),
    click.option("--tag", "tags", type=WORDS, multiple=True, help="A tag; may be repeated."),
    click.option("--parent", type=WORDS, help="Code of the packet it was grown from."),
    click.option("--received", type=DAY, help="The day it came into your hands."),
)


def packet_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options; the command receives them as keywords for `fields_of`."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


def fields_of(tin: Tin, given: dict[str, Any]) -> dict[str, Any]:
    """The fields of a packet that were given, ready for a draft or an edit."""
    found = {
        field: given[option] for option, field in _FIELDS.items() if given.get(option) is not None
    }
    if given.get("origin"):
        found["origin"] = Origin(given["origin"])
    if given.get("treated"):
        found["treatment"] = Treatment(given["treated"])
    if given.get("tags"):
        found["tags"] = tuple(given["tags"])
    if given.get("parent"):
        found["parent_id"] = tin.packet(given["parent"]).id
    return found


def refuse_test_date_alone(germination: float | None, tested_on: object) -> None:
    """A day on which nothing is said to have germinated tells nothing."""
    if tested_on is not None and germination is None:
        raise UsageError("--tested-on needs --germination: the share that was printed.")
