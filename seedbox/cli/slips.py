"""Slips for the bags of germination tests, printed and read back as every label is."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.codes import parse, shown
from seedbox.tin.records import GerminationTest, TestState

if TYPE_CHECKING:
    from seedbox.printing.content import LabelContent, Printed
    from seedbox.tin.file import Tin
    from seedbox.tin.preferences import Settings

DESIGN = "test"
# Room for blanks that a pencil fills in; cut from plain paper.
_SHEET = {"a4": "a4-8-99x68-gap", "letter": "letter-6-4x3.333"}


def slips_wanted(codes: Sequence[str], design: str | None) -> bool:
    """Whether labels are asked for tests: by their codes, or by the design for them."""
    return design == DESIGN or any(code.lstrip()[:1] in "Tt" for code in codes)


def tests_for(tin: Tin, codes: Sequence[str]) -> list[GerminationTest]:
    """The tests that codes name, a packet's code meaning its running ones; none names all that
    run."""
    running = tin.tests(state=TestState.RUNNING)
    if not codes:
        if not running:
            raise NotFoundError(
                "No germination test is running, so there is no slip to print.",
                hint="Start one with: seedbox test start CODE",
            )
        return sorted(running, key=lambda test: (test.on, test.id))
    return [test for code in codes for test in _named(tin, running, code)]


def _named(tin: Tin, running: Sequence[GerminationTest], code: str) -> list[GerminationTest]:
    if parse(code)[0] == "T":
        test = tin.test(code)
        if test.state is not TestState.RUNNING:
            raise BadDataError(f"{shown(test.code)} is {test.state}, so it wants no slip.")
        return [test]
    packet = tin.packet(code)
    found = [test for test in running if test.packet_id == packet.id]
    if not found:
        raise NotFoundError(
            f"No germination test of {shown(packet.code)} is running.",
            hint=f"Start one with: seedbox test start {packet.code}",
        )
    return found


def slip_contents(
    tin: Tin, tests: Sequence[GerminationTest], settings: Settings | None = None
) -> list[LabelContent]:
    """The words of each slip: one for each replicate of each test."""
    from seedbox.cli.lookup import crop_book
    from seedbox.printing.content import LabelContent
    from seedbox.season.testing.slip_fields import slip_fields

    packets, book = {packet.id: packet for packet in tin.packets()}, crop_book(tin)
    return [
        LabelContent(test.code, fields)
        for test in tests
        for fields in slip_fields(test, packets[test.packet_id], book, settings or tin.settings())
    ]


def print_slips(
    tin: Tin, tests: Sequence[GerminationTest], file: Path, given: dict[str, Any]
) -> Printed:
    """Slips as a PDF; without a sheet they are large enough to write on, to be cut out."""
    from seedbox.cli.label_jobs import printed_labels

    settings = tin.settings()
    items = slip_contents(tin, tests)
    return printed_labels(settings, file, items, with_usual(settings, given))


def with_usual(settings: Settings, given: dict[str, Any]) -> dict[str, Any]:
    """The options, with what is usual for slips where nothing was said."""
    usual = {"design": DESIGN, "sheet": _SHEET[settings.page], "outlines": True}
    return {**usual, **{name: value for name, value in given.items() if value is not None}}


def report_slips(printed: Printed, as_json: bool) -> None:
    """What was printed; a code that cannot be read back is an error."""
    from seedbox.cli.label_report import report

    report(printed, as_json)


def slip_facts(printed: Printed) -> dict[str, Any]:
    """What was printed, for programs; a code that cannot be read back is an error."""
    from seedbox.cli.label_report import facts, refuse_unreadable

    refuse_unreadable(printed)
    return facts(printed)


def refuse_place(file: Path) -> None:
    """Before a test is started: a slip that cannot be written stops it."""
    from seedbox.printing.labels import check_target

    check_target(file)
