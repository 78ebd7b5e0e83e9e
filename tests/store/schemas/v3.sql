-- A kitchen's file of format 3, frozen: this is how files of that format look; never change it.
PRAGMA foreign_keys = OFF;
BEGIN TRANSACTION;
CREATE TABLE cooking_days (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            start TEXT,
            kept TEXT NOT NULL,
            session TEXT NOT NULL,
            answer TEXT NOT NULL,
            in_force TEXT NOT NULL
        ) STRICT
        ;
INSERT INTO "cooking_days" VALUES(1,1,1,'2026-12-06T17:30:00','2026-12-06T17:30:00','{"day": 1}','{"status": "proven shortest"}','{}');
CREATE TABLE day_entries (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            activity TEXT NOT NULL CHECK (activity <> ''),
            what TEXT NOT NULL CHECK (what IN ('began', 'ended')),
            at TEXT NOT NULL,
            entered TEXT NOT NULL,
            act INTEGER NOT NULL REFERENCES day_entries (number),
            takes_back INTEGER UNIQUE REFERENCES day_entries (number)
        ) STRICT
        ;
INSERT INTO "day_entries" VALUES(1,1,1,'Rice bowl: 1','began','2026-12-06T17:30:00','2026-12-06T17:30:00',1,NULL);
INSERT INTO "day_entries" VALUES(2,1,1,'Rice bowl: 1','ended','2026-12-06T17:35:00','2026-12-06T17:36:00',2,NULL);
INSERT INTO "day_entries" VALUES(3,1,1,'Rice bowl: 1','ended','2026-12-06T17:35:00','2026-12-06T17:37:00',3,2);
CREATE TABLE lots (
            position INTEGER PRIMARY KEY,
            id TEXT NOT NULL UNIQUE CHECK (id <> ''),
            item TEXT NOT NULL,
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece', 'portion')),
            spot TEXT NOT NULL CHECK (spot IN ('cupboard', 'fridge', 'freezer')),
            got_on TEXT NOT NULL,
            quantity INTEGER NOT NULL CHECK (quantity > 0),
            cents INTEGER NOT NULL CHECK (cents >= 0),
            use_by TEXT,
            opened_on TEXT,
            packages INTEGER NOT NULL CHECK (packages >= 1),
            shop TEXT NOT NULL,
            offer TEXT NOT NULL,
            gift INTEGER NOT NULL CHECK (gift IN (0, 1)),
            shelf_cents INTEGER CHECK (shelf_cents >= 0),
            split_from TEXT REFERENCES lots (id)
        ) STRICT
        ;
INSERT INTO "lots" VALUES(1,'rice-white-long-grain','rice-white-long-grain','mg','cupboard','2026-12-06',1200000,180,NULL,NULL,1,'','',0,NULL,NULL);
INSERT INTO "lots" VALUES(2,'egg','egg','piece','cupboard','2026-12-06',5,110,'2026-12-12',NULL,1,'','',0,NULL,NULL);
CREATE TABLE meta (
            key TEXT NOT NULL PRIMARY KEY,
            value TEXT NOT NULL
        ) STRICT, WITHOUT ROWID
        ;
INSERT INTO "meta" VALUES('format','1');
CREATE TABLE movements (
            id INTEGER PRIMARY KEY CHECK (id >= 1),
            day TEXT NOT NULL,
            kind TEXT NOT NULL,
            lot TEXT NOT NULL REFERENCES lots (id),
            quantity INTEGER NOT NULL,
            cents INTEGER NOT NULL,
            batch TEXT,
            who TEXT NOT NULL,
            note TEXT NOT NULL,
            cause TEXT,
            after_spot TEXT CHECK (after_spot IN ('cupboard', 'fridge', 'freezer')),
            after_use_by TEXT,
            after_opened_on TEXT,
            bound INTEGER REFERENCES movements (id),
            reverses INTEGER UNIQUE REFERENCES movements (id)
        ) STRICT
        ;
INSERT INTO "movements" VALUES(1,'2026-12-06','counted','rice-white-long-grain',1200000,180,NULL,'','top, shelf',NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "movements" VALUES(2,'2026-12-06','counted','egg',5,110,NULL,'','first count',NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE offers (
            position INTEGER PRIMARY KEY,
            id TEXT NOT NULL UNIQUE CHECK (id <> ''),
            food TEXT NOT NULL,
            shop TEXT NOT NULL,
            quantity INTEGER NOT NULL CHECK (quantity > 0),
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece')),
            price_cents INTEGER NOT NULL CHECK (price_cents >= 0),
            seen TEXT NOT NULL,
            name TEXT NOT NULL,
            most INTEGER CHECK (most >= 0),
            UNIQUE (food, shop, unit, quantity, name, seen)
        ) STRICT
        ;
INSERT INTO "offers" VALUES(1,'rice-white-long-grain','rice-white-long-grain','Mart',1000000,'mg',210,'2026-12-06','',NULL);
INSERT INTO "offers" VALUES(2,'egg','egg','Mart',12,'piece',289,'2026-12-06','',2);
CREATE TABLE papers (
            path TEXT NOT NULL PRIMARY KEY,
            text TEXT NOT NULL
        ) STRICT
        ;
INSERT INTO "papers" VALUES('dishes.yaml','dish: Rice bowl
per_portion: {rice: 80 g}
swaps: [{swap: egg, per_portion: {egg: 1}}, {swap: without, lines: []}]
');
INSERT INTO "papers" VALUES('foods.yaml','- food: egg
  piece: 65 g
  keep_days: 28
');
INSERT INTO "papers" VALUES('kitchen.yaml','ladleworth: 1
currency: USD
start: 2026-12-06
days: 7
eaters: [{name: Ada}, {name: Ben, never: [egg]}]
slots: [{meals: [dinner]}]
sessions: [{day: sunday, minutes: 90}]
');
INSERT INTO "papers" VALUES('prices.csv','shop,food,package,price,most
Mart,rice,1 kg,2.10,
Mart,egg,12,2.89,2
');
INSERT INTO "papers" VALUES('stock.csv','food,amount,cost,use_by,note
rice,1.2 kg,1.80,none,"top, shelf"
egg,5,1.10,2026-12-12,
');
CREATE TABLE plan_marks (
            plan INTEGER NOT NULL REFERENCES plans (id),
            position INTEGER NOT NULL,
            deed TEXT NOT NULL CHECK (deed IN ('bought', 'cooked')),
            day INTEGER NOT NULL CHECK (day >= 1),
            what TEXT NOT NULL,
            PRIMARY KEY (plan, position),
            UNIQUE (plan, deed, day, what)
        ) STRICT, WITHOUT ROWID
        ;
INSERT INTO "plan_marks" VALUES(1,0,'bought',1,'egg');
CREATE TABLE plans (
            id INTEGER PRIMARY KEY CHECK (id >= 1),
            made_on TEXT NOT NULL,
            start TEXT NOT NULL,
            question TEXT NOT NULL,
            answer TEXT NOT NULL,
            accepted INTEGER NOT NULL CHECK (accepted IN (0, 1))
        ) STRICT
        ;
INSERT INTO "plans" VALUES(1,'2026-12-06','2026-12-06','{"days": 7}','{
 "status": "proven best",
 "plan": {
  "batches": [
   {
    "day": 1,
    "dish": "Rice bowl",
    "version": "egg",
    "portions": 2
   }
  ],
  "helpings": [
   {
    "day": 1,
    "eater": "Ada",
    "meal": "dinner",
    "dish": "Rice bowl",
    "cooked_day": 1,
    "frozen": false,
    "version": null,
    "lot": null
   }
  ],
  "purchases": [
   {
    "day": 1,
    "offer": "egg",
    "packages": 1
   }
  ],
  "drawings": []
 },
 "costs": {
  "tills": "289/1",
  "trips": "0/1",
  "spoilt": "0/1",
  "meals_out": "0/1",
  "carried": "2/3",
  "repeats": "0/1",
  "minutes": "0/1",
  "liking": "0/1",
  "reserve": "0/1",
  "sessions": "0/1"
 },
 "bound": 288.0,
 "seconds": 0.5,
 "solver": "solver",
 "seed": 0
}',1);
CREATE TABLE yield_readings (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            dish TEXT NOT NULL CHECK (dish <> ''),
            version TEXT NOT NULL CHECK (version <> ''),
            portions INTEGER NOT NULL CHECK (portions >= 1),
            parts TEXT NOT NULL,
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece')),
            gross INTEGER NOT NULL CHECK (gross > 0),
            tare INTEGER NOT NULL CHECK (tare >= 0 AND tare < gross),
            entered TEXT NOT NULL
        ) STRICT
        ;
INSERT INTO "yield_readings" VALUES(1,1,1,'Rice bowl','egg',2,'["all"]','mg',4100000,1200000,'2026-12-06T17:30:00');
INSERT INTO "yield_readings" VALUES(2,1,1,'Rice bowl','egg',2,'["all"]','piece',7,0,'2026-12-06T17:30:00');
CREATE INDEX lots_split_from ON lots (split_from);
CREATE INDEX movements_lot ON movements (lot);
CREATE INDEX movements_bound ON movements (bound);
CREATE TRIGGER movements_stay BEFORE UPDATE ON movements
        BEGIN SELECT RAISE (ABORT, 'an entry of the ledger is never changed'); END;
CREATE TRIGGER movements_are_kept BEFORE DELETE ON movements
        BEGIN SELECT RAISE (ABORT, 'an entry of the ledger is never taken out'); END;
CREATE INDEX cooking_days_plan ON cooking_days (plan);
CREATE INDEX day_entries_plan ON day_entries (plan);
CREATE INDEX day_entries_act ON day_entries (act);
CREATE TRIGGER day_entries_stay BEFORE UPDATE ON day_entries
        BEGIN SELECT RAISE (ABORT, 'an entry of a cooking day is never changed'); END;
CREATE TRIGGER day_entries_are_kept BEFORE DELETE ON day_entries
        BEGIN SELECT RAISE (ABORT, 'an entry of a cooking day is never taken out'); END;
CREATE INDEX yield_readings_plan ON yield_readings (plan);
CREATE TRIGGER yield_readings_stay BEFORE UPDATE ON yield_readings
        BEGIN SELECT RAISE (ABORT, 'a reading of the scale is never changed'); END;
CREATE TRIGGER yield_readings_are_kept BEFORE DELETE ON yield_readings
        BEGIN SELECT RAISE (ABORT, 'a reading of the scale is never taken out'); END;
PRAGMA application_id = 1281451116;
PRAGMA user_version = 3;
COMMIT;
