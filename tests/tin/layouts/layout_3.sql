-- A tin of layout 3 as the program of that layout wrote it; never to be changed.
PRAGMA application_id = 1416195633;
PRAGMA user_version = 3;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'seedbox','001_first_layout','2026-11-25 02:24:36.864135+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'seedbox','002_running_tests_and_trays','2026-11-25 02:24:36.871148+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'seedbox','003_places_plans_and_sowings','2026-11-25 02:24:36.871800+00:00');
CREATE TABLE change (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        made_at TEXT NOT NULL,
        label TEXT NOT NULL,
        state TEXT NOT NULL DEFAULT 'done' CHECK (state = 'done' OR state = 'undone' OR state = 'dropped')
    ) STRICT;
INSERT INTO "change" VALUES(1,'2026-03-01T09:30:00+00:00','Set region to us','done');
INSERT INTO "change" VALUES(2,'2026-03-01T09:30:00+00:00','Add store Shed','done');
INSERT INTO "change" VALUES(3,'2026-03-01T09:30:00+00:00','Add leek Ferry Blue (P73C 42CY)','done');
INSERT INTO "change" VALUES(4,'2026-03-01T09:30:00+00:00','Add kale =Ruffle (PXSR 7H8T)','done');
INSERT INTO "change" VALUES(5,'2026-03-01T09:30:00+00:00','Test P73C 42CY: 17 of 20','done');
INSERT INTO "change" VALUES(6,'2026-03-01T09:30:00+00:00','Test P73C 42CY: 9 of 10','done');
INSERT INTO "change" VALUES(7,'2026-03-01T09:30:00+00:00','Remove test TS69 MQVZ','done');
INSERT INTO "change" VALUES(8,'2026-03-01T09:30:00+00:00','Start test TW2K NG50 of P73C 42CY: 15 seeds','done');
INSERT INTO "change" VALUES(9,'2026-03-01T09:30:00+00:00','Count test TW2K NG50, replicate 1, 2026-03-06: 5 normal','done');
INSERT INTO "change" VALUES(10,'2026-03-01T09:30:00+00:00','Add place Sill','done');
INSERT INTO "change" VALUES(11,'2026-03-01T09:30:00+00:00','Plan 12 of leek','done');
INSERT INTO "change" VALUES(12,'2026-03-01T09:30:00+00:00','Sow 12 of P73C 42CY (SF2X VH97)','done');
INSERT INTO "change" VALUES(13,'2026-03-01T09:30:00+00:00','Sowing SF2X VH97: emerged 7','done');
INSERT INTO "change" VALUES(14,'2026-03-01T09:30:00+00:00','Add store Jar','done');
INSERT INTO "change" VALUES(15,'2026-03-01T09:30:00+00:00','Move P73C 42CY to Jar','done');
INSERT INTO "change" VALUES(16,'2026-03-01T09:30:00+00:00','Plan 4 of kale','undone');
CREATE TABLE change_step (
        id INTEGER PRIMARY KEY,
        change_id INTEGER NOT NULL REFERENCES change(id),
        action TEXT NOT NULL CHECK (action = 'insert' OR action = 'update' OR action = 'delete'),
        table_name TEXT NOT NULL,
        first_id INTEGER,
        last_id INTEGER,
        columns TEXT,
        kept TEXT
    ) STRICT;
INSERT INTO "change_step" VALUES(1,1,'insert','setting',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(2,2,'insert','store',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(3,3,'insert','packet',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(4,3,'insert','movement',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(5,3,'insert','storage_period',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(6,4,'insert','packet',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(7,4,'insert','movement',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(8,5,'insert','movement',3,3,NULL,NULL);
INSERT INTO "change_step" VALUES(9,5,'insert','germination_test',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(10,6,'insert','movement',4,4,NULL,NULL);
INSERT INTO "change_step" VALUES(11,6,'insert','germination_test',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(12,7,'delete','germination_test',NULL,NULL,'id,code,packet_id,on_date,seeds,germinated,hard,note,state,started_on,replicates,substrate,temperature_c,night_c,first_count_day,final_count_day,pretreatment,abnormal,fresh,dead','[[2,"TS69MQVZ",1,"2026-03-01",10,9,0,"struck out","finished",null,1,null,null,null,null,null,"",null,null,null]]');
INSERT INTO "change_step" VALUES(13,8,'insert','movement',5,5,NULL,NULL);
INSERT INTO "change_step" VALUES(14,8,'insert','germination_test',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(15,9,'insert','test_count',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(16,10,'insert','place',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(17,11,'insert','plan',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(18,12,'insert','movement',6,6,NULL,NULL);
INSERT INTO "change_step" VALUES(19,12,'insert','sowing',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(20,13,'insert','sowing_event',1,1,NULL,NULL);
INSERT INTO "change_step" VALUES(21,14,'insert','store',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(22,15,'insert','storage_period',2,2,NULL,NULL);
INSERT INTO "change_step" VALUES(23,16,'insert','plan',2,2,'id,crop_id,plants,variety,year,again_days,note','[[2,"kale",4,"",null,null,""]]');
CREATE TABLE germination_test (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL UNIQUE CHECK (length(code) = 8),
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        seeds INTEGER NOT NULL CHECK (seeds > 0),
        germinated INTEGER NOT NULL CHECK (germinated >= 0),
        hard INTEGER NOT NULL DEFAULT 0 CHECK (hard >= 0),
        note TEXT NOT NULL DEFAULT '', state TEXT NOT NULL DEFAULT 'finished' CHECK (state = 'running' OR state = 'finished' OR state = 'dropped'), started_on TEXT CHECK (started_on <= on_date), replicates INTEGER NOT NULL DEFAULT 1 CHECK (replicates BETWEEN 1 AND seeds), substrate TEXT CHECK (substrate = 'paper' OR substrate = 'sand' OR substrate = 'mix'), temperature_c REAL, night_c REAL CHECK (night_c <= temperature_c), first_count_day INTEGER CHECK (first_count_day > 0), final_count_day INTEGER CHECK (final_count_day >= coalesce(first_count_day, 1)), pretreatment TEXT NOT NULL DEFAULT '', abnormal INTEGER CHECK (abnormal >= 0), fresh INTEGER CHECK (fresh >= 0), dead INTEGER CHECK (dead >= 0) CHECK (germinated + hard + coalesce(abnormal, 0) + coalesce(fresh, 0) + coalesce(dead, 0) <= seeds),
        CHECK (germinated + hard <= seeds)
    ) STRICT;
INSERT INTO "germination_test" VALUES(1,'T536XTS3',1,'2026-03-01',20,17,1,'by the boiler','finished',NULL,1,NULL,NULL,NULL,NULL,NULL,'',NULL,NULL,NULL);
INSERT INTO "germination_test" VALUES(2,'TW2KNG50',1,'2026-03-01',15,0,0,'','running','2026-03-01',2,'paper',NULL,NULL,NULL,14,'',NULL,NULL,NULL);
CREATE TABLE movement (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        kind TEXT NOT NULL
            CHECK (kind = 'received' OR kind = 'sown' OR kind = 'tested' OR kind = 'given' OR kind = 'lost' OR kind = 'recount'),
        amount REAL CHECK (amount >= 0),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
INSERT INTO "movement" VALUES(1,1,'2025-01-01','received',80.0,'');
INSERT INTO "movement" VALUES(2,2,'2026-03-01','received',NULL,'');
INSERT INTO "movement" VALUES(3,1,'2026-03-01','tested',20.0,'');
INSERT INTO "movement" VALUES(4,1,'2026-03-01','tested',10.0,'');
INSERT INTO "movement" VALUES(5,1,'2026-03-01','tested',15.0,'Test TW2K NG50');
INSERT INTO "movement" VALUES(6,1,'2026-03-01','sown',12.0,'Sowing SF2X VH97');
CREATE TABLE own_crop (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL UNIQUE CHECK (crop_id GLOB 'own:?*'),
        name TEXT NOT NULL CHECK (name <> ''),
        family TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
CREATE TABLE own_figure (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL,
        figure TEXT NOT NULL,
        value TEXT NOT NULL,
        note TEXT NOT NULL DEFAULT '',
        UNIQUE (crop_id, figure)
    ) STRICT;
CREATE TABLE packet (
        id INTEGER PRIMARY KEY,
        code TEXT NOT NULL UNIQUE CHECK (length(code) = 8),
        crop_id TEXT NOT NULL CHECK (crop_id <> ''),
        variety TEXT NOT NULL DEFAULT '',
        kind TEXT NOT NULL DEFAULT 'seed' CHECK (kind = 'seed' OR kind = 'planting stock'),
        origin TEXT CHECK (origin = 'bought' OR origin = 'saved' OR origin = 'swapped' OR origin = 'gift'),
        source TEXT NOT NULL DEFAULT '',
        harvest_year INTEGER,
        packed_year INTEGER,
        bought_year INTEGER,
        sow_by TEXT,
        printed_germination REAL CHECK (printed_germination BETWEEN 0 AND 1),
        printed_on TEXT,
        treatment TEXT NOT NULL DEFAULT 'none'
            CHECK (treatment = 'none' OR treatment = 'dressed' OR treatment = 'pelleted' OR treatment = 'primed'),
        ean TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT '',
        tags TEXT NOT NULL DEFAULT '',
        parent_id INTEGER REFERENCES packet(id),
        unit TEXT CHECK (unit = 'seeds' OR unit = 'grams'),
        received_on TEXT,
        import_key TEXT -- by which the same row of the same table is known when it comes again
    ) STRICT;
INSERT INTO "packet" VALUES(1,'P73C42CY','leek','Ferry Blue','seed','saved','',2024,NULL,NULL,NULL,NULL,NULL,'none','','','early',NULL,'seeds','2025-01-01',NULL);
INSERT INTO "packet" VALUES(2,'PXSR7H8T','kale','=Ruffle','seed',NULL,'',NULL,NULL,NULL,NULL,NULL,NULL,'none','','two
lines','',NULL,NULL,NULL,NULL);
CREATE TABLE place (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (name <> ''),
        kind TEXT NOT NULL CHECK (kind = 'windowsill' OR kind = 'propagator' OR kind = 'lit shelf' OR kind = 'heated greenhouse' OR kind = 'greenhouse' OR kind = 'cold frame' OR kind = 'cover' OR kind = 'bed'),
        covered INTEGER NOT NULL CHECK (covered = 0 OR covered = 1),
        coolest_c REAL NOT NULL,
        warmest_c REAL NOT NULL CHECK (warmest_c >= coolest_c),
        months_c TEXT NOT NULL DEFAULT '', -- twelve means with spaces between, or nothing
        ppfd REAL CHECK (ppfd >= 0),
        light_hours REAL CHECK (light_hours BETWEEN 0 AND 24),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
INSERT INTO "place" VALUES(1,'Sill','windowsill',1,17.5,17.5,'',90.0,12.0,'');
CREATE TABLE plan (
        id INTEGER PRIMARY KEY,
        crop_id TEXT NOT NULL CHECK (crop_id <> ''),
        plants INTEGER NOT NULL CHECK (plants > 0),
        variety TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
        year INTEGER,
        again_days INTEGER CHECK (again_days > 0),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
INSERT INTO "plan" VALUES(1,'leek',12,'',NULL,21,'');
CREATE TABLE setting (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE,
        value TEXT NOT NULL
    ) STRICT;
INSERT INTO "setting" VALUES(1,'region','us');
CREATE TABLE sowing (
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
    ) STRICT;
INSERT INTO "sowing" VALUES(1,'SF2XVH97',1,'2026-03-01',1,12,6,2,NULL,1,6,NULL,'');
CREATE TABLE sowing_event (
        id INTEGER PRIMARY KEY,
        sowing_id INTEGER NOT NULL REFERENCES sowing(id),
        on_date TEXT NOT NULL,
        kind TEXT NOT NULL CHECK (kind = 'emerged' OR kind = 'thinned' OR kind = 'potted on' OR kind = 'hardening off' OR kind = 'planted out' OR kind = 'harvested' OR kind = 'sown again' OR kind = 'moved' OR kind = 'failed' OR kind = 'ended' OR kind = 'put off' OR kind = 'skipped'),
        count INTEGER CHECK (count >= 0),
        place_id INTEGER REFERENCES place(id),
        pot_depth_cm REAL CHECK (pot_depth_cm > 0),
        job TEXT NOT NULL DEFAULT '',
        until_date TEXT CHECK (until_date > on_date),
        note TEXT NOT NULL DEFAULT '',
        CHECK (kind <> 'emerged' OR count IS NOT NULL)
    ) STRICT;
INSERT INTO "sowing_event" VALUES(1,1,'2026-03-10','emerged',7,NULL,NULL,'',NULL,'');
CREATE TABLE storage_period (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        from_date TEXT NOT NULL,
        store_id INTEGER NOT NULL REFERENCES store(id),
        sealed INTEGER NOT NULL DEFAULT 0 CHECK (sealed = 0 OR sealed = 1),
        moisture REAL CHECK (moisture > 0 AND moisture < 100),
        UNIQUE (packet_id, from_date)
    ) STRICT;
INSERT INTO "storage_period" VALUES(1,1,'2025-01-01',1,0,NULL);
INSERT INTO "storage_period" VALUES(2,1,'2026-03-01',2,1,6.0);
CREATE TABLE store (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (name <> ''),
        coolest_c REAL NOT NULL,
        warmest_c REAL NOT NULL CHECK (warmest_c >= coolest_c),
        relative_humidity REAL CHECK (relative_humidity BETWEEN 0 AND 1),
        sealed INTEGER NOT NULL DEFAULT 0 CHECK (sealed = 0 OR sealed = 1),
        sealed_moisture REAL CHECK (sealed_moisture > 0 AND sealed_moisture < 100),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
INSERT INTO "store" VALUES(1,'Shed',3.0,19.0,0.6,0,NULL,'');
INSERT INTO "store" VALUES(2,'Jar',4.0,4.0,NULL,1,6.0,'');
CREATE TABLE test_count (
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
    ) STRICT;
INSERT INTO "test_count" VALUES(1,2,'2026-03-06',1,5,0,0,0,0);
CREATE TABLE tray_count (
        id INTEGER PRIMARY KEY,
        packet_id INTEGER NOT NULL REFERENCES packet(id),
        on_date TEXT NOT NULL,
        place TEXT NOT NULL DEFAULT '',
        sown INTEGER NOT NULL CHECK (sown > 0),
        emerged INTEGER NOT NULL CHECK (emerged >= 0 AND emerged <= sown),
        note TEXT NOT NULL DEFAULT ''
    ) STRICT;
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX packet_parent ON packet(parent_id) WHERE parent_id IS NOT NULL;
CREATE INDEX storage_period_store ON storage_period(store_id);
CREATE INDEX movement_packet ON movement(packet_id, on_date);
CREATE INDEX germination_test_packet ON germination_test(packet_id, on_date);
CREATE INDEX change_open ON change(state, id) WHERE state <> 'dropped';
CREATE INDEX change_step_change ON change_step(change_id);
CREATE INDEX germination_test_open ON germination_test(state) WHERE state = 'running';
CREATE INDEX tray_count_packet ON tray_count(packet_id, on_date);
CREATE UNIQUE INDEX plan_of ON plan(crop_id, variety, coalesce(year, 0));
CREATE INDEX sowing_packet ON sowing(packet_id, on_date);
CREATE INDEX sowing_place ON sowing(place_id);
CREATE INDEX sowing_event_sowing ON sowing_event(sowing_id, on_date);
CREATE INDEX sowing_event_place ON sowing_event(place_id) WHERE place_id IS NOT NULL;
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('change',16);
COMMIT;
