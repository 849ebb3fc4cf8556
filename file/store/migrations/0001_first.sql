-- The record of a shop. Times are UTC, 2006-01-02T15:04:05.000Z: their order is
-- that of their letters. Sizes are kept as written, and in mm to be searched.

CREATE TABLE machines (
    id      INTEGER PRIMARY KEY,
    what    TEXT NOT NULL,
    built   INTEGER NOT NULL,  -- year, 0: not known
    country TEXT NOT NULL,
    UNIQUE (what, built, country)
) STRICT;

-- A job as its current revision has it.
CREATE TABLE jobs (
    id      TEXT PRIMARY KEY,
    name    TEXT NOT NULL,
    machine INTEGER NOT NULL REFERENCES machines (id),
    part    TEXT NOT NULL,
    current INTEGER NOT NULL,
    FOREIGN KEY (id, current) REFERENCES revisions (job, number) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE INDEX jobs_by_name ON jobs (name COLLATE NOCASE);

-- Branch is 0 on the main line, else the number of the branch's first revision.
CREATE TABLE revisions (
    job      TEXT NOT NULL REFERENCES jobs (id),
    number   INTEGER NOT NULL CHECK (number >= 1),
    origin   INTEGER,           -- the revision it was made from
    branch   INTEGER NOT NULL,
    merges   INTEGER,           -- the branch it takes in
    restores INTEGER,           -- the revision whose text it brings back
    at       TEXT NOT NULL,
    who      TEXT NOT NULL,
    note     TEXT NOT NULL,
    source   BLOB NOT NULL,
    sha256   TEXT NOT NULL,
    entry    TEXT NOT NULL,     -- what it is found by, JSON
    PRIMARY KEY (job, number),
    FOREIGN KEY (job, origin) REFERENCES revisions (job, number),
    FOREIGN KEY (job, merges) REFERENCES revisions (job, number),
    FOREIGN KEY (job, restores) REFERENCES revisions (job, number)
) STRICT;

CREATE TRIGGER revisions_stay BEFORE DELETE ON revisions
BEGIN SELECT RAISE(ABORT, 'a revision is kept for ever'); END;

CREATE TRIGGER revisions_stand BEFORE UPDATE ON revisions
BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END;

-- Which revision a file outside the store was last kept as or written from.
CREATE TABLE files (
    path   TEXT PRIMARY KEY,
    job    TEXT NOT NULL,
    number INTEGER NOT NULL,
    FOREIGN KEY (job, number) REFERENCES revisions (job, number)
) STRICT;

-- What was made of a job's part, and what became of it: the balance is what is
-- on the shelf.
CREATE TABLE shelf (
    id       TEXT PRIMARY KEY,
    job      TEXT NOT NULL,
    number   INTEGER NOT NULL,  -- revision of the job it was made to
    at       TEXT NOT NULL,
    who      TEXT NOT NULL,
    made     INTEGER NOT NULL CHECK (made >= 0),
    fitted   INTEGER NOT NULL CHECK (fitted >= 0),
    scrapped INTEGER NOT NULL CHECK (scrapped >= 0),
    place    TEXT NOT NULL,
    drawing  TEXT NOT NULL,
    material TEXT NOT NULL,
    how      TEXT NOT NULL,
    better   TEXT NOT NULL,
    sizes    TEXT NOT NULL,     -- JSON
    FOREIGN KEY (job, number) REFERENCES revisions (job, number)
) STRICT;

CREATE INDEX shelf_by_job ON shelf (job, at);

CREATE TABLE photographs (
    job     TEXT NOT NULL REFERENCES jobs (id),
    sha256  TEXT NOT NULL,
    mime    TEXT NOT NULL,
    caption TEXT NOT NULL,
    at      TEXT NOT NULL,
    who     TEXT NOT NULL,
    data    BLOB NOT NULL,
    PRIMARY KEY (job, sha256)
) STRICT;

-- The shop's own instruments, gauge pieces and machines.
CREATE TABLE kit (
    id         TEXT PRIMARY KEY,
    class      TEXT NOT NULL CHECK (class IN ('instrument', 'piece', 'machine')),
    kind       TEXT NOT NULL,
    size       TEXT NOT NULL,
    mm         REAL,
    tolerance  TEXT NOT NULL,
    calibrated TEXT NOT NULL,   -- date, empty: not known
    written    TEXT NOT NULL,   -- the rest, as a job file has it
    say        TEXT NOT NULL
) STRICT;

-- What is searched. Source is the table a text was taken from; ref is the id of
-- the job or of the thing in the kit that it leads to.
CREATE TABLE documents (
    id     INTEGER PRIMARY KEY,
    source TEXT NOT NULL,
    ref    TEXT NOT NULL,
    text   TEXT NOT NULL
) STRICT;

CREATE INDEX documents_by_ref ON documents (ref, source);

CREATE VIRTUAL TABLE words USING fts5 (text, content = 'documents', content_rowid = 'id', tokenize = 'porter unicode61 remove_diacritics 2');

CREATE TRIGGER documents_come AFTER INSERT ON documents
BEGIN INSERT INTO words (rowid, text) VALUES (new.id, new.text); END;

CREATE TRIGGER documents_go AFTER DELETE ON documents
BEGIN INSERT INTO words (words, rowid, text) VALUES ('delete', old.id, old.text); END;

CREATE TABLE sizes (
    source TEXT NOT NULL,
    ref    TEXT NOT NULL,
    name   TEXT NOT NULL,
    text   TEXT NOT NULL,
    mm     REAL NOT NULL
) STRICT;

CREATE INDEX sizes_by_mm ON sizes (mm);
CREATE INDEX sizes_by_ref ON sizes (ref, source);

CREATE TABLE threads (
    source      TEXT NOT NULL,
    ref         TEXT NOT NULL,
    name        TEXT NOT NULL,
    designation TEXT NOT NULL COLLATE NOCASE
) STRICT;

CREATE INDEX threads_by_designation ON threads (designation);
CREATE INDEX threads_by_ref ON threads (ref, source);
