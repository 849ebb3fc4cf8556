package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

const revisionColumns = `SELECT job, number, coalesce(origin, 0), branch, coalesce(merges, 0), coalesce(restores, 0), at, who, note FROM revisions `

func readRevision(r row) (record.Revision, error) {
	var v record.Revision
	var at moment
	err := r.Scan(&v.Job, &v.Number, &v.From, &v.Branch, &v.Merges, &v.Restores, &at, &v.Who, &v.Note)
	v.When = at.Time
	return v, err
}

// History returns all revisions of a job, the first first.
func (s *Store) History(ctx context.Context, job string) ([]record.Revision, error) {
	all, err := list(ctx, s.db, readRevision, revisionColumns+"WHERE job = ? ORDER BY number", job)
	if err == nil && len(all) == 0 {
		err = refused("no job has the id %q", job)
	}
	return all, s.told(err)
}

// AsOn returns the revision of the main line that was current at a time.
func (s *Store) AsOn(ctx context.Context, job string, at time.Time) (record.Revision, error) {
	v, err := readRevision(s.db.QueryRowContext(ctx,
		revisionColumns+"WHERE job = ? AND branch = 0 AND at <= ? ORDER BY number DESC LIMIT 1", job, written(at)))
	if errors.Is(err, sql.ErrNoRows) {
		return v, refused("job %s was not in the record yet on %s", job, at.Format("2006-01-02 15:04"))
	}
	return v, s.told(err)
}

// Source returns the text of a revision, as it was saved.
func (s *Store) Source(ctx context.Context, job string, number int) ([]byte, error) {
	var source []byte
	err := s.db.QueryRowContext(ctx, "SELECT source FROM revisions WHERE job = ? AND number = ?", job, number).Scan(&source)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, refused("job %s has no revision %d", job, number)
	}
	return source, s.told(err)
}

// revision returns one revision of a job.
func revision(ctx context.Context, db asker, job string, number int) (record.Revision, error) {
	v, err := readRevision(db.QueryRowContext(ctx, revisionColumns+"WHERE job = ? AND number = ?", job, number))
	if errors.Is(err, sql.ErrNoRows) {
		return v, refused("job %s has no revision %d", job, number)
	}
	return v, err
}
