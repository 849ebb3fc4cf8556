-- Jobs out of the lists, examples, pins on photographs, and the devices that may
-- come in.

ALTER TABLE jobs ADD COLUMN example INTEGER NOT NULL DEFAULT 0;
ALTER TABLE jobs ADD COLUMN put_away INTEGER NOT NULL DEFAULT 0;

-- Open branches of many jobs at once.
CREATE INDEX revisions_beside ON revisions (job, branch) WHERE branch <> 0;
CREATE INDEX revisions_merging ON revisions (job, merges) WHERE merges IS NOT NULL;

-- The same text again, without reading past the texts of a long history.
CREATE INDEX revisions_by_text ON revisions (job, sha256, number);

-- Each time a job was put away, or brought back.
CREATE TABLE moves (
    job  TEXT NOT NULL REFERENCES jobs (id),
    away INTEGER NOT NULL,
    at   TEXT NOT NULL,
    who  TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;

CREATE INDEX moves_by_job ON moves (job, at);

-- X and y are parts of the picture's width and height, from its upper left.
CREATE TABLE pins (
    id     TEXT PRIMARY KEY,
    job    TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    x      REAL NOT NULL CHECK (x BETWEEN 0 AND 1),
    y      REAL NOT NULL CHECK (y BETWEEN 0 AND 1),
    size   TEXT NOT NULL,      -- id of a size of the job, empty: only say
    say    TEXT NOT NULL,
    at     TEXT NOT NULL,
    who    TEXT NOT NULL,
    FOREIGN KEY (job, sha256) REFERENCES photographs (job, sha256)
) STRICT;

CREATE INDEX pins_by_photograph ON pins (job, sha256);

-- Of keys only the SHA-256 is kept, in hexadecimal.
CREATE TABLE invitations (
    hash  TEXT PRIMARY KEY,
    guest INTEGER NOT NULL,
    until TEXT NOT NULL,
    used  TEXT              -- when, once it was
) STRICT;

CREATE TABLE devices (
    id      TEXT PRIMARY KEY,
    hash    TEXT NOT NULL UNIQUE,
    name    TEXT NOT NULL,
    guest   INTEGER NOT NULL,
    joined  TEXT NOT NULL,
    seen    TEXT NOT NULL,
    revoked TEXT            -- when, once it was
) STRICT;
