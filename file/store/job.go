package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/near"
)

const jobColumns = `SELECT j.id, j.name, m.what, m.built, m.country, j.part, j.current, r.at,
	(SELECT coalesce(sum(made - fitted - scrapped), 0) FROM shelf WHERE job = j.id),
	(SELECT count(*) FROM photographs WHERE job = j.id), j.example, j.put_away,
	(SELECT json_group_array(DISTINCT branch ORDER BY branch) FROM revisions b WHERE job = j.id AND branch <> 0
		AND NOT EXISTS (SELECT 1 FROM revisions m WHERE m.job = b.job AND m.merges = b.branch))
	FROM jobs j JOIN machines m ON m.id = j.machine JOIN revisions r ON r.job = j.id AND r.number = j.current `

func readJob(r row) (record.Job, error) {
	var j record.Job
	var saved moment
	var branches string // that nobody has taken in
	err := r.Scan(&j.ID, &j.Name, &j.Machine.What, &j.Machine.Built, &j.Machine.Country, &j.Part, &j.Revision, &saved,
		&j.OnShelf, &j.Pictures, &j.Example, &j.PutAway, &branches)
	if err == nil {
		err = json.Unmarshal([]byte(branches), &j.Branches)
	}
	j.Saved = saved.Time
	return j, err
}

// Jobs returns the jobs that are not put away, the one saved last first.
func (s *Store) Jobs(ctx context.Context) ([]record.Job, error) {
	jobs, err := jobsWhere(ctx, s.db, "WHERE NOT j.put_away ORDER BY r.at DESC, j.id")
	return jobs, s.told(err)
}

// JobsOn returns those of them that mend one machine.
func (s *Store) JobsOn(ctx context.Context, machine trade.Machine) ([]record.Job, error) {
	jobs, err := jobsWhere(ctx, s.db, "WHERE NOT j.put_away AND "+onMachine+" ORDER BY r.at DESC, j.id", machine.What, machine.Built, machine.Country)
	return jobs, s.told(err)
}

const onMachine = "m.what = ? AND m.built = ? AND m.country = ?"

// Job returns the job with this id, this name, or a name with this in it; one
// that is put away only where no other is called so. It is an error if there is
// none or there are several.
func (s *Store) Job(ctx context.Context, called string) (record.Job, error) {
	for _, where := range []string{
		"WHERE j.id = upper(?) ORDER BY j.id",
		"WHERE NOT j.put_away AND j.name = ? COLLATE NOCASE ORDER BY j.id",
		"WHERE NOT j.put_away AND instr(lower(j.name), lower(?)) > 0 ORDER BY j.id",
		"WHERE j.name = ? COLLATE NOCASE ORDER BY j.id",
		"WHERE instr(lower(j.name), lower(?)) > 0 ORDER BY j.id",
	} {
		jobs, err := jobsWhere(ctx, s.db, where, strings.TrimSpace(called))
		switch {
		case err != nil:
			return record.Job{}, s.told(err)
		case len(jobs) > 1:
			return record.Job{}, refused("%d jobs are called %q; name one by its id: %s", len(jobs), called, named(jobs))
		case len(jobs) == 1:
			return jobs[0], nil
		}
	}
	return record.Job{}, s.noJob(ctx, called)
}

// JobsCalled returns the jobs with exactly this name on this machine that are
// not put away.
func (s *Store) JobsCalled(ctx context.Context, name string, machine trade.Machine) ([]record.Job, error) {
	jobs, err := jobsWhere(ctx, s.db, "WHERE NOT j.put_away AND j.name = ? AND "+onMachine+" ORDER BY j.id",
		name, machine.What, machine.Built, machine.Country)
	return jobs, s.told(err)
}

func (s *Store) noJob(ctx context.Context, called string) error {
	jobs, err := s.Jobs(ctx)
	if err != nil {
		return err
	}
	var names []string
	for _, j := range jobs {
		names = append(names, j.Name, j.ID)
	}
	hint := "`oddleg find` lists what there is"
	if word, ok := near.Word(called, names); ok {
		hint = "did you mean " + word + "?"
	}
	return refused("no job is called %q; %s", called, hint)
}

// named lists jobs for people, a few of them.
func named(jobs []record.Job) string {
	const most = 5
	var list []string
	for _, j := range jobs[:min(most, len(jobs))] {
		list = append(list, fmt.Sprintf("%s (%s)", j.ID, j.Name))
	}
	return strings.Join(list, ", ")
}

func jobsWhere(ctx context.Context, db asker, where string, args ...any) ([]record.Job, error) {
	return list(ctx, db, readJob, jobColumns+where, args...)
}

// jobByID returns the job with this id; found is false if there is none.
func jobByID(ctx context.Context, db asker, id string) (job record.Job, found bool, err error) {
	jobs, err := jobsWhere(ctx, db, "WHERE j.id = ?", id)
	if err != nil || len(jobs) == 0 {
		return record.Job{}, false, err
	}
	return jobs[0], true, nil
}

// needJob is jobByID where it is an error that there is none.
func needJob(ctx context.Context, db asker, id string) (record.Job, error) {
	job, found, err := jobByID(ctx, db, id)
	if err == nil && !found {
		err = refused("no job has the id %q", id)
	}
	return job, err
}

// idLetters are those of ids: none that is read as another when written by hand.
const idLetters = "23456789ABCDEFGHJKMNPQRSTVWXYZ"

// The lengths of ids: a job's is copied by hand, and 30⁶ are enough for a shop;
// those of entries of the shelf, pins and devices must differ from other shops'.
const (
	jobIDLength  = 6
	longIDLength = 16
)

// newID returns an id that has not been given out, as likely as can be.
func newID(length int) string {
	id := make([]byte, length)
	for i := range id {
		id[i] = letter()
	}
	return string(id)
}

// letter draws a letter of ids, each as likely as the others.
func letter() byte {
	const fair = 256 / len(idLetters) * len(idLetters)
	var one [1]byte
	for {
		rand.Read(one[:]) // never fails
		if int(one[0]) < fair {
			return idLetters[int(one[0])%len(idLetters)]
		}
	}
}

// isID reports whether a text can be an id of this length.
func isID(text string, length int) bool {
	return len(text) == length && strings.Trim(text, idLetters) == ""
}

// FileKept returns the revision that a file outside the store was last kept as
// or written from; found is false where it never was.
func (s *Store) FileKept(ctx context.Context, path string) (job string, number int, found bool, err error) {
	err = s.db.QueryRowContext(ctx, "SELECT job, number FROM files WHERE path = ?", path).Scan(&job, &number)
	if errors.Is(err, sql.ErrNoRows) {
		return "", 0, false, nil
	}
	return job, number, err == nil, s.told(err)
}

// NoteFile remembers which revision a file outside the store holds.
func (s *Store) NoteFile(ctx context.Context, path, job string, number int) error {
	return s.write(ctx, func(tx *sql.Tx) error { return noteFile(ctx, tx, path, job, number) })
}

func noteFile(ctx context.Context, tx *sql.Tx, path, job string, number int) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO files (path, job, number) VALUES (?, ?, ?)
		ON CONFLICT (path) DO UPDATE SET job = excluded.job, number = excluded.number`, path, job, number)
	return err
}
