package store

import (
	"context"
	"database/sql"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Backup copies the whole store, as it stands at one moment, to a file that is
// not there yet. Others may save meanwhile. The copy has been read through and
// is on the disk when Backup returns; a copy that cannot be finished leaves no
// file behind. Devices and invitations are left out, and Recover leaves them out
// too: a backup is carried about, and who finds one must not come in by it.
func (s *Store) Backup(ctx context.Context, to string) error {
	return copyTo(ctx, s.db, s.path, to)
}

// WriteBackup writes what Backup copies.
func (s *Store) WriteBackup(ctx context.Context, w io.Writer) error {
	folder, err := os.MkdirTemp("", "oddleg")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "shop.db")
	if err := s.Backup(ctx, path); err != nil {
		return err
	}
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = io.Copy(w, file)
	return err
}

// Recover makes a store of a backup, in a file that is not there yet. The backup
// is only read. It is brought up to date when the new store is opened.
func Recover(ctx context.Context, from, to string) error {
	if _, err := os.Stat(from); err != nil {
		return err
	}
	if err := look(from); err != nil {
		return err
	}
	db, err := connect(from)
	if err != nil {
		return err
	}
	s := &Store{db: db, path: from}
	version, err := s.version(ctx, db)
	switch {
	case err != nil:
		err = s.told(err)
	case version == 0:
		err = refused("%s is no record of this program", from)
	default:
		err = copyTo(ctx, db, from, to)
	}
	return errors.Join(err, db.Close())
}

// IsStore reports whether a file begins as a data base does.
func IsStore(path string) (bool, error) {
	file, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer file.Close()
	head := make([]byte, len(headerMagic))
	n, _ := file.Read(head)
	return string(head[:n]) == headerMagic, nil
}

// copyTo writes beside the target and renames at the end, so that there is never
// half a copy under its name.
func copyTo(ctx context.Context, db *sql.DB, path, to string) (err error) {
	if err := absent(to); err != nil {
		return err
	}
	part, err := os.CreateTemp(filepath.Dir(to), ".oddleg-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(part.Name())
		}
	}()
	if err := part.Close(); err != nil {
		return err
	}
	if _, err := db.ExecContext(ctx, "VACUUM INTO ?", part.Name()); err != nil {
		return told(path+" and its copy "+to, err)
	}
	if err := errors.Join(withoutDevices(ctx, part.Name()), proven(ctx, part.Name())); err != nil {
		return err
	}
	if err := absent(to); err != nil {
		return err
	}
	return os.Rename(part.Name(), to)
}

// withoutDevices takes devices and invitations out of a copy, so that no trace is
// left. A store of version 1 has none.
func withoutDevices(ctx context.Context, path string) error {
	db, err := connect(path, "secure_delete(1)")
	if err != nil {
		return err
	}
	tables, err := list(ctx, db, func(r row) (name string, err error) { return name, r.Scan(&name) },
		"SELECT name FROM sqlite_schema WHERE type = 'table' AND name IN ('devices', 'invitations')")
	for _, table := range tables {
		if err == nil {
			_, err = db.ExecContext(ctx, "DELETE FROM "+table)
		}
	}
	return errors.Join(told(path, err), db.Close())
}

// absent refuses a target that is there already.
func absent(path string) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return errors.Join(err, refused("%s is there already and is left alone", path))
	}
	return nil
}

// proven flushes a copy to the disk and reads it through.
func proven(ctx context.Context, path string) error {
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err := errors.Join(file.Sync(), file.Close()); err != nil {
		return err
	}
	db, err := connect(path, "query_only(1)")
	if err != nil {
		return err
	}
	return errors.Join(told(path, check(ctx, db, path)), db.Close())
}
