"""The tables of a tin, layout by layout, and the two marks by which a tin is known."""

from __future__ import annotations

# "Tin1" as a big-endian number; SQLite keeps it at byte 68 of the file (database file format, 1.3).
APPLICATION_ID = 0x54696E31

# Tables whose rows a change may touch, parents before children. History tables are not among them.
TABLES = (
    "store",
    "packet",
    "storage_period",
    "movement",
    "germination_test",
    "test_count",
    "tray_count",
    "own_crop",
    "own_figure",
    "setting",
    "place",
    "plan",
    "sowing",
    "sowing_event",
    "want",
    "swap_choice",
    "label_queue",
)


def _one_of(column: str, *values: str | int) -> str:
    """`column IN (...)`, written out: SQLite builds a table for the list anew for every row."""
    return " OR ".join(f"{column} = {value!r}" for value in values)


FIRST_LAYOUT = (
    f"""CREATE TABLE store (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (name <> ''),
        coolest_c REAL NOT NULL,
        warmest_c REAL NOT NULL CHECK (warmest_c >= coolest_c),
        relative_humidity REAL CHECK (relative_humidity BETWEEN 0 AND 1),
        sealed INTEGER NOT NULL DEFAULT 0 CHECK ({_one_of("sealed", 0, 1)}),
        sealed_moisture REAL CHECK (sealed_moisture > 0 AND sealed_moisture < 100),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    f"""CREATE TABLE packet (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL UNIQUE CHECK (length(code) = 8),
        crop_id TEXT NOT NULL CHECK (crop_id <> ''),
        variety TEXT NOT NULL DEFAULT '',
        kind TEXT NOT NULL DEFAULT 'seed' CHECK ({_one_of("kind", "seed", "planting stock")}),
        origin TEXT CHECK ({_one_of("origin", "bought", "saved", "swapped", "gift")}),
        source TEXT NOT NULL DEFAULT '',
        harvest_year INTEGER,
        packed_year INTEGER,
        bought_year INTEGER,
        sow_by TEXT,
        printed_germination REAL CHECK (printed_germination BETWEEN 0 AND 1),
        printed_on TEXT,
        treatment TEXT NOT NULL DEFAULT 'none'
            CHECK ({_one_of("treatment", "none", "dressed", "pelleted", "primed")}),
        ean TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT '',
        tags TEXT NOT NULL DEFAULT '',
        parent_id INTEGER REFERENCES packet(id),
        unit TEXT CHECK ({_one_of("unit", "seeds", "grams")}),
        received_on TEXT,
        import_key TEXT -- by which the same row of the same table is known when it comes again
    ) STRICT""",
    "CREATE INDEX packet_parent ON packet(parent_id) WHERE parent_id IS NOT NULL",
    f"""CREATE TABLE storage_period (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        from_date TEXT NOT NULL,
        store_id INTEGER NOT NULL REFERENCES store(id),
        sealed INTEGER NOT NULL DEFAULT 0 CHECK ({_one_of("sealed", 0, 1)}),
        moisture REAL CHECK (moisture > 0 AND moisture < 100),
        UNIQUE (packet_id, from_date)
    ) STRICT""",
    "CREATE INDEX storage_period_store ON storage_period(store_id)",
    f"""CREATE TABLE movement (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        kind TEXT NOT NULL
            CHECK ({_one_of("kind", "received", "sown", "tested", "given", "lost", "recount")}),
        amount REAL CHECK (amount >= 0),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    "CREATE INDEX movement_packet ON movement(packet_id, on_date)",
    """CREATE TABLE germination_test (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL UNIQUE CHECK (length(code) = 8),
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        seeds INTEGER NOT NULL CHECK (seeds > 0),
        germinated INTEGER NOT NULL CHECK (germinated >= 0),
        hard INTEGER NOT NULL DEFAULT 0 CHECK (hard >= 0),
        note TEXT NOT NULL DEFAULT '',
        CHECK (germinated + hard <= seeds)
    ) STRICT""",
    "CREATE INDEX germination_test_packet ON germination_test(packet_id, on_date)",
    """CREATE TABLE own_crop (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL UNIQUE CHECK (crop_id GLOB 'own:?*'),
        name TEXT NOT NULL CHECK (name <> ''),
        family TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    """CREATE TABLE own_figure (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL,
        figure TEXT NOT NULL,
        value TEXT NOT NULL,
        note TEXT NOT NULL DEFAULT '',
        UNIQUE (crop_id, figure)
    ) STRICT""",
    """CREATE TABLE setting (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE,
        value TEXT NOT NULL
    ) STRICT""",
    f"""CREATE TABLE change (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        made_at TEXT NOT NULL,
        label TEXT NOT NULL,
        state TEXT NOT NULL DEFAULT 'done' CHECK ({_one_of("state", "done", "undone", "dropped")})
    ) STRICT""",
    "CREATE INDEX change_open ON change(state, id) WHERE state <> 'dropped'",
    f"""CREATE TABLE change_step (
        id INTEGER PRIMARY KEY,
        change_id INTEGER NOT NULL REFERENCES change(id),
        action TEXT NOT NULL CHECK ({_one_of("action", "insert", "update", "delete")}),
        table_name TEXT NOT NULL,
        first_id INTEGER,
        last_id INTEGER,
        columns TEXT,
        kept TEXT
    ) STRICT""",
    "CREATE INDEX change_step_change ON change_step(change_id)",
)

# Layout 2: tests that run, their counts, and emergence in trays. Rows of the first layout are
# finished tests; the history of an older tin puts such rows back, so each new column has a default.
_STATES = _one_of("state", "running", "finished", "dropped")
_ALL_CLASSED = (
    "germinated + hard + coalesce(abnormal, 0) + coalesce(fresh, 0) + coalesce(dead, 0) <= seeds"
)
_TEST_COLUMNS = (
    f"state TEXT NOT NULL DEFAULT 'finished' CHECK ({_STATES})",
    "started_on TEXT CHECK (started_on <= on_date)",
    "replicates INTEGER NOT NULL DEFAULT 1 CHECK (replicates BETWEEN 1 AND seeds)",
    f"substrate TEXT CHECK ({_one_of('substrate', 'paper', 'sand', 'mix')})",
    "temperature_c REAL",
    "night_c REAL CHECK (night_c <= temperature_c)",
    "first_count_day INTEGER CHECK (first_count_day > 0)",
    "final_count_day INTEGER CHECK (final_count_day >= coalesce(first_count_day, 1))",
    "pretreatment TEXT NOT NULL DEFAULT ''",
    "abnormal INTEGER CHECK (abnormal >= 0)",
    "fresh INTEGER CHECK (fresh >= 0)",
    f"dead INTEGER CHECK (dead >= 0) CHECK ({_ALL_CLASSED})",
)

SECOND_LAYOUT = (
    *(f"ALTER TABLE germination_test ADD COLUMN {column}" for column in _TEST_COLUMNS),
    "CREATE INDEX germination_test_open ON germination_test(state) WHERE state = 'running'",
    """CREATE TABLE test_count (
        id INTEGER PRIMARY KEY,
        test_id INTEGER NOT NULL REFERENCES germination_test(id),
        on_date TEXT NOT NULL,
        replicate INTEGER NOT NULL DEFAULT 1 CHECK (replicate > 0),
        normal INTEGER NOT NULL DEFAULT 0 CHECK (normal >= 0),
        abnormal INTEGER NOT NULL DEFAULT 0 CHECK (abnormal >= 0),
        hard INTEGER NOT NULL DEFAULT 0 CHECK (hard >= 0),
        fresh INTEGER NOT NULL DEFAULT 0 CHECK (fresh >= 0),
        dead INTEGER NOT NULL DEFAULT 0 CHECK (dead >= 0),
        UNIQUE (test_id, on_date, replicate)
    ) STRICT""",
    """CREATE TABLE tray_count (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        place TEXT NOT NULL DEFAULT '',
        sown INTEGER NOT NULL CHECK (sown > 0),
        emerged INTEGER NOT NULL CHECK (emerged >= 0 AND emerged <= sown),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    "CREATE INDEX tray_count_packet ON tray_count(packet_id, on_date)",
)

# Layout 3: where things grow, what the household wants, what was sown and what became of it.
_PLACE_KINDS = _one_of(
    "kind",
    "windowsill",
    "propagator",
    "lit shelf",
    "heated greenhouse",
    "greenhouse",
    "cold frame",
    "cover",
    "bed",
)
_EVENT_KINDS = _one_of(
    "kind",
    "emerged",
    "thinned",
    "potted on",
    "hardening off",
    "planted out",
    "harvested",
    "sown again",
    "moved",
    "failed",
    "ended",
    "put off",
    "skipped",
)

THIRD_LAYOUT = (
    f"""CREATE TABLE place (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (name <> ''),
        kind TEXT NOT NULL CHECK ({_PLACE_KINDS}),
        covered INTEGER NOT NULL CHECK ({_one_of("covered", 0, 1)}),
        coolest_c REAL NOT NULL,
        warmest_c REAL NOT NULL CHECK (warmest_c >= coolest_c),
        months_c TEXT NOT NULL DEFAULT '', -- twelve means with spaces between, or nothing
        ppfd REAL CHECK (ppfd >= 0),
        light_hours REAL CHECK (light_hours BETWEEN 0 AND 24),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    """CREATE TABLE plan (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL CHECK (crop_id <> ''),
        plants INTEGER NOT NULL CHECK (plants > 0),
        variety TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
        year INTEGER,
        again_days INTEGER CHECK (again_days > 0),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    "CREATE UNIQUE INDEX plan_of ON plan(crop_id, variety, coalesce(year, 0))",
    """CREATE TABLE sowing (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL UNIQUE CHECK (length(code) = 8),
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        place_id INTEGER NOT NULL REFERENCES place(id),
        seeds INTEGER NOT NULL CHECK (seeds > 0),
        cells INTEGER CHECK (cells > 0),
        per_cell INTEGER CHECK (per_cell > 0),
        row_m REAL CHECK (row_m > 0),
        left_per_cell INTEGER NOT NULL DEFAULT 1 CHECK (left_per_cell > 0),
        plants_wanted INTEGER CHECK (plants_wanted > 0),
        pot_depth_cm REAL CHECK (pot_depth_cm > 0),
        note TEXT NOT NULL DEFAULT '',
        CHECK ((cells IS NULL) = (per_cell IS NULL))
    ) STRICT""",
    "CREATE INDEX sowing_packet ON sowing(packet_id, on_date)",
    "CREATE INDEX sowing_place ON sowing(place_id)",
    f"""CREATE TABLE sowing_event (
        id INTEGER PRIMARY KEY,
        sowing_id INTEGER NOT NULL REFERENCES sowing(id),
        on_date TEXT NOT NULL,
        kind TEXT NOT NULL CHECK ({_EVENT_KINDS}),
        count INTEGER CHECK (count >= 0),
        place_id INTEGER REFERENCES place(id),
        pot_depth_cm REAL CHECK (pot_depth_cm > 0),
        job TEXT NOT NULL DEFAULT '',
        until_date TEXT CHECK (until_date > on_date),
        note TEXT NOT NULL DEFAULT '',
        CHECK (kind <> 'emerged' OR count IS NOT NULL)
    ) STRICT""",
    "CREATE INDEX sowing_event_sowing ON sowing_event(sowing_id, on_date)",
    "CREATE INDEX sowing_event_place ON sowing_event(place_id) WHERE place_id IS NOT NULL",
)

# Layout 4: what is wanted from others, a person's word over what is spare, labels that wait to be
# printed, and whose germination test it was.
FOURTH_LAYOUT = (
    "ALTER TABLE germination_test ADD COLUMN reported_by TEXT NOT NULL DEFAULT ''",
    """CREATE TABLE want (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL CHECK (crop_id <> ''),
        variety TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
        portions INTEGER NOT NULL CHECK (portions > 0),
        worth INTEGER NOT NULL DEFAULT 3 CHECK (worth BETWEEN 1 AND 5),
        note TEXT NOT NULL DEFAULT '',
        UNIQUE (crop_id, variety)
    ) STRICT""",
    f"""CREATE TABLE swap_choice (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL UNIQUE REFERENCES packet(id),
        choice TEXT NOT NULL CHECK ({_one_of("choice", "offer", "keep")}),
        portions INTEGER CHECK (portions > 0) CHECK (portions IS NULL OR choice = 'offer')
    ) STRICT""",
    """CREATE TABLE label_queue (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL CHECK (length(code) = 8),
        design TEXT NOT NULL DEFAULT '', -- nothing: the usual one for that kind of code
        copies INTEGER NOT NULL DEFAULT 1 CHECK (copies BETWEEN 1 AND 1000),
        UNIQUE (code, design)
    ) STRICT""",
)
