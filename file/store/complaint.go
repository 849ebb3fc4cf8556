package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// plainCode takes the details off a result code of SQLite.
const plainCode = 0xff

// troubles says what a result code of SQLite means to the user.
var troubles = map[int]error{
	sqlite3.SQLITE_FULL:     record.ErrFull,
	sqlite3.SQLITE_READONLY: record.ErrReadOnly,
	sqlite3.SQLITE_BUSY:     record.ErrBusy,
	sqlite3.SQLITE_CANTOPEN: errors.New("it cannot be opened; look whether its folder is there"),
	sqlite3.SQLITE_PERM:     errors.New("it may not be opened by this user"),
	sqlite3.SQLITE_NOTADB:   errors.New("it is no record of this program"),
	sqlite3.SQLITE_CORRUPT:  errors.New("it is broken; go back to a backup, and keep this file"),
	sqlite3.SQLITE_IOERR:    errors.New("the disk failed"),
	sqlite3.SQLITE_TOOBIG:   errors.New("what was to be kept is too large for it"),
}

// told puts what the data base complains of into plain words.
func (s *Store) told(err error) error { return told(s.path, err) }

func told(path string, err error) error {
	var fault *sqlite.Error
	if !errors.As(err, &fault) {
		return err
	}
	trouble, known := troubles[fault.Code()&plainCode]
	switch fault.Code() & plainCode {
	case sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_IOERR:
		// SQLite says no more than that it could not: the disk is asked.
		if found := tryDisk(filepath.Dir(path)); found != nil {
			trouble = found
		}
	}
	if !known {
		return fmt.Errorf("the record %s: %w", path, err)
	}
	return fmt.Errorf("the record %s: %w (%w)", path, trouble, err)
}

// tryDisk writes a little to a folder and returns what stands in the way of it,
// nil for nothing, or nothing known. The record itself is not opened for that:
// closing it again would let go of the locks that this program has on it.
func tryDisk(folder string) error {
	file, err := os.CreateTemp(folder, ".oddleg-*")
	if err == nil {
		const little = 64 << 10
		_, err = file.Write(make([]byte, little))
		err = errors.Join(err, file.Close(), os.Remove(file.Name()))
	}
	switch {
	case errors.Is(err, syscall.EROFS), errors.Is(err, fs.ErrPermission):
		return record.ErrReadOnly
	case errors.Is(err, syscall.ENOSPC):
		return record.ErrFull
	}
	return nil
}

// refused returns what is wrong with what the user gave.
func refused(format string, args ...any) error {
	return trade.Faults{{Text: fmt.Sprintf(format, args...)}}
}

// mostText is the most bytes of a note, a caption or a name.
const mostText = 16 << 10

// checkText refuses texts that are no text, or huge.
func checkText(texts ...string) error {
	for _, text := range texts {
		switch {
		case len(text) > mostText:
			return refused("a text of %d bytes is too long: the most is %d", len(text), mostText)
		case !utf8.ValidString(text):
			return refused("the text %.40q is not UTF-8", text)
		}
	}
	return nil
}
