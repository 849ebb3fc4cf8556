package store

import (
	"bytes"
	"context"
	"database/sql"
	"embed"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// migrations bring a store from each version to the next: 0001 makes version 1
// of nothing.
//
//go:embed migrations/*.sql
var migrations embed.FS

// applicationID marks a data base as a store: "odlg".
const applicationID = 0x6f646c67

// Where the header of the file has what is looked at (SQLite, Database File
// Format, section 1.3).
const (
	headerLength  = 100
	headerMagic   = "SQLite format 3\x00"
	headerVersion = 60
	headerApp     = 68
)

// look reads the header of a file before anything else touches it.
func look(path string) error {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer file.Close()
	header := make([]byte, headerLength)
	n, err := io.ReadFull(file, header)
	switch {
	case n == 0 && errors.Is(err, io.EOF):
		return nil // an empty file is an empty data base
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return fmt.Errorf("reading %s: %w", path, err)
	case n < headerLength || !bytes.HasPrefix(header, []byte(headerMagic)):
		return refused("%s is no record of this program", path)
	}
	app := binary.BigEndian.Uint32(header[headerApp:])
	return fits(path, app, int(binary.BigEndian.Uint32(header[headerVersion:])))
}

// fits refuses what is no store, and a store that this program does not know.
func fits(path string, app uint32, version int) error {
	switch {
	case app == 0 && version == 0:
		return nil // nothing in it yet: migrate looks whether that is so
	case app != applicationID:
		return refused("%s is a data base, but no record of this program", path)
	case version > newest():
		return refused("the record %s is of version %d and this program knows versions up to %d: use a newer oddleg; nothing in it was touched", path, version, newest())
	}
	return nil
}

// steps returns the migrations in order.
func steps() []fs.DirEntry {
	list, err := migrations.ReadDir("migrations")
	if err != nil {
		panic("store: the migrations are not embedded")
	}
	return list
}

// newest is the version of the store that this program makes.
func newest() int { return len(steps()) }

// migrate brings the store up to date, in one change. Until its version is known
// nothing is written to the file, not even that it has a log.
func (s *Store) migrate(ctx context.Context) error {
	version, err := s.version(ctx, s.db)
	if err != nil {
		return err
	}
	if _, err := s.db.ExecContext(ctx, "PRAGMA journal_mode = WAL"); err != nil || version == newest() {
		return err
	}
	if err := s.write(ctx, s.climb); err != nil {
		return err
	}
	// The header in the file itself must tell the version from now on.
	_, err = s.db.ExecContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)")
	return err
}

// climb takes the steps that are still to be taken: another program may have
// taken them meanwhile.
func (s *Store) climb(tx *sql.Tx) error {
	ctx := context.Background()
	version, err := s.version(ctx, tx)
	if err != nil {
		return err
	}
	for _, step := range steps()[version:] {
		text, err := migrations.ReadFile("migrations/" + step.Name())
		if err != nil {
			panic("store: a migration is not embedded")
		}
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("%s: %w", step.Name(), err)
		}
	}
	_, err = tx.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, newest()))
	return err
}

// version returns that of the store, 0 for one with nothing in it.
func (s *Store) version(ctx context.Context, db asker) (int, error) {
	var app uint32
	var version, tables int
	err := db.QueryRowContext(ctx, `SELECT application_id, user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id, pragma_user_version`).Scan(&app, &version, &tables)
	if err != nil {
		return 0, err
	}
	if version == 0 && tables > 0 {
		return 0, refused("%s is a data base, but no record of this program", s.path)
	}
	return version, fits(s.path, app, version)
}
