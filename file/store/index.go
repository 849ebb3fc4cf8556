package store

import (
	"context"
	"database/sql"
	"errors"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// What is searched comes from these tables.
const (
	fromJobs        = "jobs"
	fromShelf       = "shelf"
	fromPhotographs = "photographs"
	fromKit         = "kit"
)

// putIndex makes a job what its new current revision says.
func putIndex(ctx context.Context, tx *sql.Tx, x record.Index, r record.Revision) error {
	machine, err := machineID(ctx, tx, x.Machine)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, "UPDATE jobs SET name = ?, machine = ?, part = ?, current = ? WHERE id = ?", x.Name, machine, x.Part, r.Number, r.Job)
	if err != nil {
		return err
	}
	if err := forget(ctx, tx, fromJobs, r.Job); err != nil {
		return err
	}
	words := append([]string{x.Name, x.Part, machineText(x.Machine)}, x.Words...)
	return findable(ctx, tx, fromJobs, r.Job, words, x.Sizes, x.Threads)
}

// machineID returns the key of a machine, which is added if it is new.
func machineID(ctx context.Context, tx *sql.Tx, m trade.Machine) (id int64, err error) {
	_, err = tx.ExecContext(ctx, "INSERT OR IGNORE INTO machines (what, built, country) VALUES (?, ?, ?)", m.What, m.Built, m.Country)
	if err != nil {
		return 0, err
	}
	return id, tx.QueryRowContext(ctx, "SELECT id FROM machines WHERE what = ? AND built = ? AND country = ?", m.What, m.Built, m.Country).Scan(&id)
}

// Machines returns the machines that are mended by the jobs not put away.
func (s *Store) Machines(ctx context.Context) ([]trade.Machine, error) {
	all, err := list(ctx, s.db, func(r row) (m trade.Machine, err error) { return m, r.Scan(&m.What, &m.Built, &m.Country) },
		"SELECT what, built, country FROM machines WHERE id IN (SELECT machine FROM jobs WHERE NOT put_away) AND what <> '' ORDER BY what, built, country")
	return all, s.told(err)
}

// forget takes what one table says of something out of the search.
func forget(ctx context.Context, tx *sql.Tx, source, ref string) error {
	var wrong error
	for _, table := range []string{"documents", "sizes", "threads"} {
		_, err := tx.ExecContext(ctx, "DELETE FROM "+table+" WHERE ref = ? AND source = ?", ref, source)
		wrong = errors.Join(wrong, err)
	}
	return wrong
}

// findable puts what one table says of something into the search.
func findable(ctx context.Context, tx *sql.Tx, source, ref string, words []string, sizes []record.Size, threads []record.Thread) error {
	text := strings.ReplaceAll(strings.ToValidUTF8(strings.Join(words, "\n"), "?"), "\x00", " ")
	if _, err := tx.ExecContext(ctx, "INSERT INTO documents (source, ref, text) VALUES (?, ?, ?)", source, ref, text); err != nil {
		return err
	}
	for _, size := range sizes {
		if _, err := tx.ExecContext(ctx, "INSERT INTO sizes (source, ref, name, text, mm) VALUES (?, ?, ?, ?, ?)",
			source, ref, size.Name, size.Text, size.MM); err != nil {
			return err
		}
	}
	for _, thread := range threads {
		if _, err := tx.ExecContext(ctx, "INSERT INTO threads (source, ref, name, designation) VALUES (?, ?, ?, ?)",
			source, ref, thread.Name, thread.Designation); err != nil {
			return err
		}
	}
	return nil
}
