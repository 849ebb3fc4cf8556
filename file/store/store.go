// Package store keeps the record of a shop in one file: every revision of every
// job, parts made and spares on the shelf, photographs, machines and kit.
//
// It keeps what was written and parses none of it: what a job is found by is
// handed in beside its text. A revision is never changed nor lost; a save that
// was not made from the latest one is kept beside it as a branch, and said to
// be so. What has been answered is on the disk: the data base (SQLite, a log
// written ahead and flushed at each save) outlasts a program that is killed.
// Times are handed in too. What is wrong with what the user gave is
// trade.Faults; other errors are those of the disk, record.ErrFull and its like.
package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	_ "modernc.org/sqlite" // registers the driver
)

// Store is an open store, for use by any number of goroutines.
type Store struct {
	db      *sql.DB
	path    string
	writing sync.Mutex // writers of one program queue here, in fairness; those of several wait for the file
}

// Open opens the store in a file. It brings one of an older version of the
// program up to date, and refuses a newer one and a file that is no store,
// both untouched.
func Open(path string) (*Store, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, refused("there is no record at %s yet; `oddleg keep FILE` makes one", path)
	}
	return Make(path)
}

// Make is Open that makes a new store where there is none.
func Make(path string) (*Store, error) {
	if err := look(path); err != nil {
		return nil, err
	}
	db, err := connect(path, "synchronous(FULL)", "foreign_keys(1)")
	if err != nil {
		return nil, err
	}
	s := &Store{db: db, path: path}
	if err := s.migrate(context.Background()); err != nil {
		return nil, errors.Join(s.told(err), db.Close())
	}
	return s, nil
}

// The most connections of one program, and how long one waits for another
// program that writes, in ms.
const (
	mostConnections = 8
	patience        = 20_000
)

// connect opens the data base in a file with these settings.
func connect(path string, pragmas ...string) (*sql.DB, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	slashed := filepath.ToSlash(full)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	settings := url.Values{"_txlock": {"immediate"}, "_pragma": {fmt.Sprintf("busy_timeout(%d)", patience)}}
	for _, pragma := range pragmas {
		settings.Add("_pragma", pragma)
	}
	db, err := sql.Open("sqlite", (&url.URL{Scheme: "file", Path: slashed, RawQuery: settings.Encode()}).String())
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(mostConnections)
	return db, nil
}

// Close closes the store.
func (s *Store) Close() error { return s.told(s.db.Close()) }

// Check reads the whole store and returns what is broken in it.
func (s *Store) Check(ctx context.Context) error { return s.told(check(ctx, s.db, s.path)) }

func check(ctx context.Context, db *sql.DB, path string) error {
	for _, question := range []string{
		"SELECT integrity_check FROM pragma_integrity_check WHERE integrity_check <> 'ok'",
		`SELECT "table" || ' names what is not there' FROM pragma_foreign_key_check`,
	} {
		found, err := list(ctx, db, func(r row) (string, error) { var text string; return text, r.Scan(&text) }, question)
		if err != nil {
			return err
		}
		if len(found) > 0 {
			return fmt.Errorf("the record %s is broken: %s", path, strings.Join(found, "; "))
		}
	}
	return nil
}

// write makes one change whole or not at all.
func (s *Store) write(ctx context.Context, change func(tx *sql.Tx) error) error {
	s.writing.Lock()
	defer s.writing.Unlock()
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return s.told(err)
	}
	if err := change(tx); err != nil {
		return errors.Join(s.told(err), undone(tx))
	}
	return s.told(tx.Commit())
}

// undone takes back a change. The data base may have done so already, as it
// does where the disk is full.
func undone(tx *sql.Tx) error {
	if err := tx.Rollback(); err != nil && !errors.Is(err, sql.ErrTxDone) && !strings.Contains(err.Error(), "no transaction is active") {
		return err
	}
	return nil
}

// asker is a data base or a change to it.
type asker interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// row is what is read from one row.
type row interface{ Scan(into ...any) error }

// list returns what each row of an answer holds.
func list[T any](ctx context.Context, db asker, read func(row) (T, error), query string, args ...any) ([]T, error) {
	rows, err := db.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var found []T
	for rows.Next() {
		one, err := read(rows)
		if err != nil {
			return nil, err
		}
		found = append(found, one)
	}
	return found, rows.Err()
}

// timeForm writes times so that their order is that of their letters.
const timeForm = "2006-01-02T15:04:05.000Z"

func written(t time.Time) string { return t.UTC().Format(timeForm) }

// moment reads a time of the store.
type moment struct{ time.Time }

// Scan reads what written wrote.
func (m *moment) Scan(value any) error {
	text, _ := value.(string)
	t, err := time.Parse(timeForm, text)
	if err != nil {
		return fmt.Errorf("the record has %q where a time should be", text)
	}
	m.Time = t
	return nil
}
