"""A whole tin as tables of text, in an order that does not depend on chance."""

from __future__ import annotations

from seedbox.tin.exchange.answers import NameOfCrop
from seedbox.tin.exchange.garden_snapshot import garden_tables
from seedbox.tin.exchange.list_snapshot import list_tables
from seedbox.tin.exchange.shapes import number_text, percent_text
from seedbox.tin.file import Tin
from seedbox.tin.records import Dossier, GerminationTest, Packet

Rows = list[tuple[str, ...]]


def snapshot(tin: Tin, name_of_crop: NameOfCrop) -> dict[str, Rows]:
    """Every table of `shapes.TABLES`; packets in order of entry, what belongs to them likewise."""
    dossiers = tin.dossiers()
    codes = {one.packet.id: one.packet.code for one in dossiers}
    tests = _sorted_tests(tin, codes)
    return {
        "stores": _stores(tin),
        "packets": packet_rows(tin, dossiers, codes, name_of_crop),
        "movements": _movements(tin, codes),
        "storage": _storage(tin, codes),
        "tests": [_test(one, codes[one.packet_id]) for one in tests],
        "test_counts": _test_counts(tin, tests),
        "tray_counts": _tray_counts(tin, codes),
        **garden_tables(tin, codes),
        **list_tables(tin, codes),
        "own_crops": [(one.id, one.name, one.family, one.note) for one in tin.own_crops()],
        "own_figures": [
            (one.crop_id, one.figure, one.value, one.note) for one in tin.own_figures()
        ],
        "settings": tin.database.rows("SELECT name, value FROM setting ORDER BY name"),
    }


def packet_rows(
    tin: Tin, dossiers: list[Dossier], codes: dict[int, str], name_of_crop: NameOfCrop
) -> Rows:
    keys: dict[int, str] = dict(
        tin.database.rows("SELECT id, coalesce(import_key, '') FROM packet")
    )
    names: dict[str, str] = {}
    for one in dossiers:
        crop_id = one.packet.crop_id
        if crop_id not in names:
            names[crop_id] = name_of_crop(crop_id)
    return [
        (*_packet(one.packet, names), *_whereabouts(one, codes), keys.get(one.packet.id, ""))
        for one in dossiers
    ]


def _packet(packet: Packet, names: dict[str, str]) -> tuple[str, ...]:
    return (
        packet.code,
        names[packet.crop_id],
        packet.crop_id,
        packet.variety,
        packet.kind,
        packet.origin or "",
        packet.source,
        number_text(packet.harvest_year),
        number_text(packet.packed_year),
        number_text(packet.bought_year),
        str(packet.sow_by or ""),
        percent_text(packet.printed_germination),
        str(packet.printed_on or ""),
        packet.treatment,
        packet.ean,
        packet.unit or "",
    )


def _whereabouts(one: Dossier, codes: dict[int, str]) -> tuple[str, ...]:
    packet = one.packet
    return (
        number_text(one.left),
        one.store.name if one.store else "",
        codes[packet.parent_id] if packet.parent_id is not None else "",
        tags_text(packet.tags),
        packet.note,
        str(packet.received_on or ""),
    )


def tags_text(tags: tuple[str, ...]) -> str:
    """Tags between commas, which no tag holds. A lone tag with a semicolon gets a comma behind it,
    since a text without any comma may be parted at semicolons."""
    text = ", ".join(tags)
    return f"{text}," if len(tags) == 1 and any(mark in text for mark in ";|") else text


def _stores(tin: Tin) -> Rows:
    return [
        (
            one.name,
            number_text(one.coolest_c),
            number_text(one.warmest_c),
            percent_text(one.relative_humidity),
            _yes_no(one.sealed),
            number_text(one.sealed_moisture),
            one.note,
        )
        for one in tin.stores()
    ]


def _movements(tin: Tin, codes: dict[int, str]) -> Rows:
    place = {packet_id: number for number, packet_id in enumerate(codes)}
    journal = sorted(tin.movements(), key=lambda one: (place[one.packet_id], one.on, one.id))
    return [
        (codes[one.packet_id], str(one.on), one.kind, number_text(one.amount), one.note)
        for one in journal
    ]


def _storage(tin: Tin, codes: dict[int, str]) -> Rows:
    place = {packet_id: number for number, packet_id in enumerate(codes)}
    names = {store.id: store.name for store in tin.stores()}
    periods = sorted(tin.storage(), key=lambda one: (place[one.packet_id], one.from_date))
    return [
        (
            codes[one.packet_id],
            str(one.from_date),
            names[one.store_id],
            _yes_no(one.sealed),
            number_text(one.moisture),
        )
        for one in periods
    ]


def _sorted_tests(tin: Tin, codes: dict[int, str]) -> list[GerminationTest]:
    """Tests in any state, by the place of their packet, then by date."""
    place = {packet_id: number for number, packet_id in enumerate(codes)}
    tests = tin.tests(state=None)
    return sorted(tests, key=lambda one: (place[one.packet_id], one.on, one.id))


def _test(one: GerminationTest, packet: str) -> tuple[str, ...]:
    return (
        one.code,
        packet,
        str(one.on),
        str(one.seeds),
        str(one.germinated),
        str(one.hard),
        one.note,
        one.state,
        str(one.started_on or ""),
        str(one.replicates),
        one.substrate or "",
        number_text(one.temperature_c),
        number_text(one.night_c),
        number_text(one.first_count_day),
        number_text(one.final_count_day),
        one.pretreatment,
        number_text(one.abnormal),
        number_text(one.fresh),
        number_text(one.dead),
        one.reported_by,
    )


def _test_counts(tin: Tin, tests: list[GerminationTest]) -> Rows:
    order = {test.id: (number, test.code) for number, test in enumerate(tests)}
    counts = sorted(tin.test_counts(), key=lambda one: (order[one.test_id], one.on, one.replicate))
    return [
        (
            order[one.test_id][1],
            str(one.on),
            *map(str, (one.replicate, one.normal, one.abnormal, one.hard, one.fresh, one.dead)),
        )
        for one in counts
    ]


def _tray_counts(tin: Tin, codes: dict[int, str]) -> Rows:
    place = {packet_id: number for number, packet_id in enumerate(codes)}
    trays = sorted(tin.tray_counts(), key=lambda one: (place[one.packet_id], one.on, one.id))
    return [
        (codes[one.packet_id], str(one.on), one.place, str(one.sown), str(one.emerged), one.note)
        for one in trays
    ]


def _yes_no(value: bool) -> str:
    return "yes" if value else "no"
