package store

import (
	"context"
	"database/sql"

	"codeberg.org/oddleg/oddleg/job/record"
)

// PutAway takes a job out of the lists and the search, or brings it back. It
// keeps its revisions and photographs, and what is on the shelf of it stays
// listed there. A save brings it back too.
func (s *Store) PutAway(ctx context.Context, job string, away bool, stamp record.Stamp) error {
	if stamp.When.IsZero() {
		panic("store: a job is put away at no time")
	}
	if err := checkText(stamp.Who, stamp.Note); err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if _, err := needJob(ctx, tx, job); err != nil {
			return err
		}
		return move(ctx, tx, job, away, stamp)
	})
}

// move puts a job away or brings it back, and notes who did, unless it is there
// already.
func move(ctx context.Context, tx *sql.Tx, job string, away bool, stamp record.Stamp) error {
	done, err := tx.ExecContext(ctx, "UPDATE jobs SET put_away = ?1 WHERE id = ?2 AND put_away <> ?1", away, job)
	if err != nil {
		return err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return err
	}
	_, err = tx.ExecContext(ctx, "INSERT INTO moves (job, away, at, who, note) VALUES (?, ?, ?, ?, ?)", job, away, written(stamp.When), stamp.Who, stamp.Note)
	return err
}

// PutAwayJobs returns the jobs that are put away, the one saved last first.
func (s *Store) PutAwayJobs(ctx context.Context) ([]record.Job, error) {
	jobs, err := jobsWhere(ctx, s.db, "WHERE j.put_away ORDER BY r.at DESC, j.id")
	return jobs, s.told(err)
}

// Fresh reports whether no job was ever in the store.
func (s *Store) Fresh(ctx context.Context) (fresh bool, err error) {
	err = s.db.QueryRowContext(ctx, "SELECT NOT EXISTS (SELECT 1 FROM jobs)").Scan(&fresh)
	return fresh, s.told(err)
}

// awayIDs returns the jobs that are put away.
func awayIDs(ctx context.Context, db asker) (map[string]bool, error) {
	ids, err := list(ctx, db, func(r row) (id string, err error) { return id, r.Scan(&id) }, "SELECT id FROM jobs WHERE put_away")
	away := map[string]bool{}
	for _, id := range ids {
		away[id] = true
	}
	return away, err
}
