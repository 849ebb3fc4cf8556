package store

import (
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// plainCode takes the details off a result code of SQLite.
const plainCode = 0xff

// troubles says what a result code of SQLite means to the user.
var troubles = map[int]string{
	sqlite3.SQLITE_FULL:     "the disk is full, and nothing of this change was kept; make room and do it again",
	sqlite3.SQLITE_READONLY: "it may be read but not written to; look at who owns it, and whether the disk is read-only",
	sqlite3.SQLITE_CANTOPEN: "it cannot be opened; look whether its folder is there and may be written to",
	sqlite3.SQLITE_PERM:     "it may not be opened by this user",
	sqlite3.SQLITE_BUSY:     "another program is writing to it and does not come to an end; try again",
	sqlite3.SQLITE_NOTADB:   "it is no record of this program",
	sqlite3.SQLITE_CORRUPT:  "it is broken; go back to a backup, and keep this file",
	sqlite3.SQLITE_IOERR:    "the disk failed, or is full",
	sqlite3.SQLITE_TOOBIG:   "what was to be kept is too large for it",
}

// told puts what the data base complains of into plain words.
func (s *Store) told(err error) error { return told(s.path, err) }

func told(path string, err error) error {
	var fault *sqlite.Error
	if !errors.As(err, &fault) {
		return err
	}
	words, known := troubles[fault.Code()&plainCode]
	if !known {
		return fmt.Errorf("the record %s: %w", path, err)
	}
	return fmt.Errorf("the record %s: %s (%w)", path, words, err)
}
