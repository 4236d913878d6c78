-- A bench of schema 0001, as sqlite3's iterdump wrote it; opened by test_migrations.py.
PRAGMA application_id = 1146049863;
BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE document (
	id INTEGER NOT NULL, 
	kind VARCHAR(20) NOT NULL, 
	name VARCHAR(100) NOT NULL, 
	"key" VARCHAR(200) NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT document_key UNIQUE (kind, "key")
);
INSERT INTO "document" VALUES(1,'recipe','leek-and-rye-flat-pie.toml','leek-and-rye-flat-pie.toml');
INSERT INTO "document" VALUES(2,'recipe','loaf.toml','loaf.toml');
INSERT INTO "document" VALUES(3,'kitchen','boathouse.toml','boathouse.toml');
CREATE TABLE draft (
	kind VARCHAR(20) NOT NULL, 
	"key" VARCHAR(200) NOT NULL, 
	window VARCHAR(100) NOT NULL, 
	name VARCHAR(100) NOT NULL, 
	text TEXT NOT NULL, 
	based_on INTEGER, 
	at VARCHAR(40) NOT NULL, 
	PRIMARY KEY (kind, "key", window)
);
INSERT INTO "draft" VALUES('recipe','loaf.toml','window','loaf.toml','unsaved',2,'2026-11-28T12:00:00Z');
CREATE TABLE version (
	document_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	text TEXT NOT NULL, 
	who VARCHAR(100) NOT NULL, 
	at VARCHAR(40) NOT NULL, 
	note TEXT NOT NULL, 
	origin INTEGER NOT NULL, 
	removed BOOLEAN NOT NULL, 
	PRIMARY KEY (document_id, number), 
	FOREIGN KEY(document_id) REFERENCES document (id)
);
INSERT INTO "version" VALUES(1,1,'schema = 1
title = "Leek and rye flat pie"
','Ines','2026-11-28T12:00:00Z','as cooked on Sunday',1,0);
INSERT INTO "version" VALUES(1,2,'schema = 1
title = "Leek''s pie"
','Tam','2026-11-28T12:00:00Z','',2,0);
INSERT INTO "version" VALUES(1,3,'schema = 1
title = "Leek and rye flat pie"
','Ines','2026-11-28T12:00:00Z','undo: back to version 1',1,0);
INSERT INTO "version" VALUES(2,1,'','Ines','2026-11-28T12:00:00Z','',1,0);
INSERT INTO "version" VALUES(2,2,'','Ines','2026-11-28T12:00:00Z','',2,1);
INSERT INTO "version" VALUES(3,1,'kitchen = "Boathouse"','Ines','2026-11-28T12:00:00Z','',1,0);
CREATE TRIGGER version_kept_from_update BEFORE UPDATE ON version BEGIN SELECT RAISE(ABORT, 'a version is never changed or deleted'); END;
CREATE TRIGGER version_kept_from_delete BEFORE DELETE ON version BEGIN SELECT RAISE(ABORT, 'a version is never changed or deleted'); END;
COMMIT;
