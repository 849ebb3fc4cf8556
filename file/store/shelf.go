package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
)

const entryColumns = `SELECT id, job, number, at, who, made, fitted, scrapped, place, drawing, material, how, better, sizes FROM shelf `

func readEntry(r row) (record.Entry, error) {
	var e record.Entry
	var at moment
	var sizes string
	err := r.Scan(&e.ID, &e.Job, &e.Revision, &at, &e.Who, &e.Made, &e.Fitted, &e.Scrapped, &e.Place, &e.Drawing, &e.Material, &e.How, &e.Better, &sizes)
	if err == nil {
		err = json.Unmarshal([]byte(sizes), &e.Sizes)
	}
	e.When = at.Time
	return e, err
}

// Shelve records an entry. More cannot be fitted or scrapped than are there. One
// that has an id already is kept once, however often it is sent.
func (s *Store) Shelve(ctx context.Context, e record.Entry) (record.Entry, error) {
	err := s.write(ctx, func(tx *sql.Tx) error {
		job, err := needJob(ctx, tx, e.Job)
		if err != nil {
			return err
		}
		if e.Revision == 0 {
			e.Revision = job.Revision
		}
		if e.ID == "" {
			e.ID = newID(longIDLength)
		}
		known, found, err := knownEntry(ctx, tx, e)
		if err != nil || found {
			e = known
			return err
		}
		if err := checkEntry(e, job); err != nil {
			return err
		}
		return putEntry(ctx, tx, e)
	})
	return e, err
}

// knownEntry returns what was recorded under the id of an entry already.
func knownEntry(ctx context.Context, tx *sql.Tx, e record.Entry) (known record.Entry, found bool, err error) {
	if !isID(e.ID, longIDLength) {
		return known, false, refused("%q is no id of an entry of the shelf", e.ID)
	}
	all, err := list(ctx, tx, readEntry, entryColumns+"WHERE id = ?", e.ID)
	switch {
	case err != nil || len(all) == 0:
		return known, false, err
	case all[0].Job != e.Job:
		return known, false, refused("the entry %s of the shelf belongs to job %s", e.ID, all[0].Job)
	}
	return all[0], true, nil
}

// mostParts bounds a count of parts, so that sums stay whole numbers.
const mostParts = 1_000_000

func checkEntry(e record.Entry, job record.Job) error {
	for _, n := range []int{e.Made, e.Fitted, e.Scrapped} {
		if n < 0 || n > mostParts {
			return refused("%d parts: a number from 0 to %d is wanted", n, mostParts)
		}
	}
	if left := job.OnShelf + e.Made - e.Fitted - e.Scrapped; left < 0 {
		return refused("%s: %d on the shelf and %d made now are not enough to fit %d and scrap %d",
			job.Name, job.OnShelf, e.Made, e.Fitted, e.Scrapped)
	}
	return nil
}

// putEntry writes an entry; one that is there already stays as it is.
func putEntry(ctx context.Context, tx *sql.Tx, e record.Entry) error {
	sizes, err := json.Marshal(append([]record.Size{}, e.Sizes...))
	if err != nil {
		panic("store: a size on the shelf is no number")
	}
	done, err := tx.ExecContext(ctx, `INSERT INTO shelf (id, job, number, at, who, made, fitted, scrapped, place, drawing, material, how, better, sizes)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING`,
		e.ID, e.Job, e.Revision, written(e.When), e.Who, e.Made, e.Fitted, e.Scrapped, e.Place, e.Drawing, e.Material, e.How, e.Better, string(sizes))
	if err != nil {
		return err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return err
	}
	return findable(ctx, tx, fromShelf, e.Job, []string{e.Place, e.Drawing, e.Material, e.How, e.Better}, e.Sizes, nil)
}

// Shelf returns all entries of a job, the first first.
func (s *Store) Shelf(ctx context.Context, job string) ([]record.Entry, error) {
	all, err := entries(ctx, s.db, job)
	return all, s.told(err)
}

func entries(ctx context.Context, db asker, job string) ([]record.Entry, error) {
	return list(ctx, db, readEntry, entryColumns+"WHERE job = ? ORDER BY at, rowid", job)
}

// OnShelf returns the jobs of which there are spares, and of which there were.
func (s *Store) OnShelf(ctx context.Context) ([]record.Hit, error) {
	jobs, err := jobsWhere(ctx, s.db, "WHERE EXISTS (SELECT 1 FROM shelf WHERE job = j.id) ORDER BY j.name, j.id")
	var hits []record.Hit
	for i := range jobs {
		if err == nil {
			hit := record.Hit{Job: &jobs[i]}
			hit.Places, err = places(ctx, s.db, jobs[i].ID)
			hits = append(hits, hit)
		}
	}
	return hits, s.told(err)
}

// places returns where parts of a job were put, the last first.
func places(ctx context.Context, db asker, job string) ([]string, error) {
	all, err := entries(ctx, db, job)
	var found []string
	seen := map[string]bool{"": true}
	for i := len(all) - 1; i >= 0; i-- {
		if place := strings.TrimSpace(all[i].Place); !seen[place] {
			seen[place] = true
			found = append(found, place)
		}
	}
	return found, err
}
