"""What a shell may offer: crops, stores and codes. A tin that cannot be read offers nothing."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from seedbox.cli.session import Session
from seedbox.errors import SeedboxError

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from seedbox.tin.file import Tin
    from seedbox.tin.records import Packet

_MOST = 40
T = TypeVar("T")
Offer = Callable[[click.Context, click.Parameter, str], "list[CompletionItem]"]


def crops(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Crop names, British and American, with the person's own."""
    from seedbox.cli.lookup import crop_book, plain_crop_book

    book = _asked(ctx, crop_book) or plain_crop_book()
    return [_item(name, "") for name, _ in book.complete(begun, _MOST)]


def stores(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Names of stores."""
    known = _asked(ctx, lambda tin: tin.stores()) or []
    return [
        _item(store.name, store.note)
        for store in known
        if store.name.casefold().startswith(begun.casefold())
    ]


def codes(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Codes of packets, each with what it is."""
    known = _asked(ctx, lambda tin: tin.packets()) or []
    return [
        _item(packet.code, _told(packet))
        for packet in known
        if packet.code.startswith(begun.upper())
    ][:_MOST]


def tests(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Codes of germination tests, those that run first, each with what is tested."""
    known = _asked(ctx, _tests) or []
    return [_item(code, told) for code, told in known if code.startswith(begun.upper())][:_MOST]


def _tests(tin: Tin) -> list[tuple[str, str]]:
    packets = {packet.id: packet for packet in tin.packets()}
    found = sorted(tin.tests(state=None), key=lambda test: (test.state != "running", test.on))
    return [(test.code, f"{test.state} {_told(packets[test.packet_id])}") for test in found]


def places(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Names of places."""
    known = _asked(ctx, lambda tin: tin.places()) or []
    return [
        _item(place.name, place.kind.value)
        for place in known
        if place.name.casefold().startswith(begun.casefold())
    ]


def sowings(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Codes of sowings, the latest first, each with what was sown."""
    known = _asked(ctx, _sowings) or []
    return [_item(code, told) for code, told in known if code.startswith(begun.upper())][:_MOST]


def packets_and_sowings(
    ctx: click.Context, param: click.Parameter, begun: str
) -> list[CompletionItem]:
    """Codes of packets and of sowings."""
    return [*codes(ctx, param, begun), *sowings(ctx, param, begun)][:_MOST]


def jobs(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Jobs of sowings, those due first, each with its day and what was sown."""
    day = _session(ctx).today
    known = _asked(ctx, lambda tin: _jobs(tin, day)) or []
    wanted = begun.upper()
    return [_item(job, told) for job, told in known if job.upper().startswith(wanted)][:_MOST]


def _sowings(tin: Tin) -> list[tuple[str, str]]:
    packets = {packet.id: packet for packet in tin.packets()}
    return [(one.code, _told(packets[one.packet_id])) for one in reversed(tin.sowings())]


def _jobs(tin: Tin, day: date) -> list[tuple[str, str]]:
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sowing_jobs import jobs_of

    return [(job.id, f"{job.when.due} {job.growing.what}") for job in jobs_of(Desk(tin, day))]


def _asked(ctx: click.Context, question: Callable[[Tin], T]) -> T | None:
    session = _session(ctx)
    try:
        if not session.tin_path.exists():
            return None
        with session.tin() as tin:
            return question(tin)
    except (SeedboxError, OSError):
        return None


def _told(packet: Packet) -> str:
    return " ".join(filter(None, (packet.crop_id, packet.variety)))


def _session(ctx: click.Context) -> Session:
    """While a line is completed no command has run, so the options are looked up one by one."""
    given: dict[str, object] = {}
    step: click.Context | None = ctx
    while step is not None:
        given = {**step.params, **given}
        step = step.parent
    tin, day = given.get("tin"), given.get("today")
    return Session(tin if isinstance(tin, Path) else None, day if isinstance(day, date) else None)


def _item(value: str, told: str) -> CompletionItem:
    from click.shell_completion import CompletionItem

    return CompletionItem(value, help=told or None)
