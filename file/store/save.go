package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/record"
)

// MaxSource is the most bytes of a job's text.
const MaxSource = 1 << 20

// Save keeps a job as a new revision. One that was made from the current
// revision becomes the current one; one made from the latest revision of an
// open branch continues that; any other begins a branch. The same save sent
// twice is kept once.
func (s *Store) Save(ctx context.Context, save record.Save) (saved record.Saved, err error) {
	if err := checkSave(save); err != nil {
		return record.Saved{}, err
	}
	err = s.write(ctx, func(tx *sql.Tx) (err error) {
		saved, err = saveIn(ctx, tx, save)
		return err
	})
	return saved, err
}

func checkSave(v record.Save) error {
	switch {
	case len(v.Source) > MaxSource:
		return refused("the job has %d bytes of text; the most is %d", len(v.Source), MaxSource)
	case !utf8.Valid(v.Source):
		return refused("the job's text is not UTF-8")
	case v.Job != "" && !isID(v.Job, jobIDLength):
		return refused("no job has the id %q: one has %d letters and figures", v.Job, jobIDLength)
	case v.When.IsZero():
		panic("store: a save has no time")
	}
	return nil
}

func saveIn(ctx context.Context, tx *sql.Tx, save record.Save) (record.Saved, error) {
	if save.Job == "" {
		save.Job = newID(jobIDLength)
	}
	job, found, err := jobByID(ctx, tx, save.Job)
	if err != nil {
		return record.Saved{}, err
	}
	if !found {
		return firstSave(ctx, tx, save)
	}
	if twin, err := twinOf(ctx, tx, save); err != nil || twin.Number != 0 {
		return record.Saved{Revision: twin, Unchanged: true}, errors.Join(err, noteSaved(ctx, tx, save, twin.Number))
	}
	return laterSave(ctx, tx, job, save)
}

// firstSave begins a job.
func firstSave(ctx context.Context, tx *sql.Tx, save record.Save) (record.Saved, error) {
	if save.From != 0 || save.Merges != 0 {
		return record.Saved{}, refused("job %s is not in the record: it can be made from no revision", save.Job)
	}
	// The job comes before its revision, which names it; the other way round is
	// looked at when the change is done.
	machine, err := machineID(ctx, tx, save.Index.Machine)
	if err != nil {
		return record.Saved{}, err
	}
	if _, err := tx.ExecContext(ctx, "INSERT INTO jobs (id, name, machine, part, current, example) VALUES (?, ?, ?, ?, 1, ?)",
		save.Job, save.Index.Name, machine, save.Index.Part, save.Example); err != nil {
		return record.Saved{}, err
	}
	v := record.Revision{Stamp: save.Stamp, Job: save.Job, Number: 1}
	return record.Saved{Revision: v}, putRevision(ctx, tx, save, v)
}

// laterSave adds to a job that is there.
func laterSave(ctx context.Context, tx *sql.Tx, job record.Job, save record.Save) (record.Saved, error) {
	last, err := lastNumber(ctx, tx, job.ID)
	if err != nil {
		return record.Saved{}, err
	}
	switch {
	case save.From < 0 || save.From > last:
		return record.Saved{}, refused("job %s has no revision %d; the latest is %d", job.ID, save.From, last)
	case save.Example && !job.Example:
		return record.Saved{}, refused("job %s is the shop's own and cannot become an example", job.ID)
	}
	v := record.Revision{Stamp: save.Stamp, Job: job.ID, Number: last + 1, From: save.From, Merges: save.Merges}
	if err := mayMerge(save, job); err != nil {
		return record.Saved{}, err
	}
	if v.Branch, err = branchFor(ctx, tx, job, v); err != nil {
		return record.Saved{}, err
	}
	saved := record.Saved{Revision: v}
	if v.Branch == v.Number {
		saved.Later, err = list(ctx, tx, readRevision, revisionColumns+"WHERE job = ? AND branch = 0 AND number > ? ORDER BY number", job.ID, save.From)
		if err != nil {
			return record.Saved{}, err
		}
	}
	return saved, putRevision(ctx, tx, save, v)
}

func lastNumber(ctx context.Context, db asker, job string) (last int, err error) {
	return last, db.QueryRowContext(ctx, "SELECT max(number) FROM revisions WHERE job = ?", job).Scan(&last)
}

// mayMerge refuses to take in a branch that is not there, or into anything but
// the current revision: what was saved since would be overwritten unseen.
func mayMerge(v record.Save, job record.Job) error {
	switch {
	case v.Merges == 0:
		return nil
	case !slices.Contains(job.Branches, v.Merges):
		return refused("job %s has no open branch %d", job.ID, v.Merges)
	case v.From != job.Revision:
		return refused("branch %d is taken into the current revision, %d, and this was made from %d", v.Merges, job.Revision, v.From)
	}
	return nil
}

// branchFor says on which branch a new revision goes.
func branchFor(ctx context.Context, tx *sql.Tx, job record.Job, v record.Revision) (int, error) {
	if v.From == job.Revision {
		return 0, nil
	}
	if v.From == 0 {
		return v.Number, nil
	}
	from, err := revision(ctx, tx, job.ID, v.From)
	if err != nil || !slices.Contains(job.Branches, from.Branch) {
		return v.Number, err
	}
	var tip int
	err = tx.QueryRowContext(ctx, "SELECT max(number) FROM revisions WHERE job = ? AND branch = ?", job.ID, from.Branch).Scan(&tip)
	if err != nil || tip != v.From {
		return v.Number, err
	}
	return from.Branch, nil
}

// twinOf returns the revision that a save would only repeat: the one it was made
// from, or one made from that already. Its number is 0 if there is none.
func twinOf(ctx context.Context, tx *sql.Tx, save record.Save) (record.Revision, error) {
	if save.Merges != 0 {
		return record.Revision{}, nil
	}
	v, err := readRevision(tx.QueryRowContext(ctx,
		revisionColumns+"WHERE job = ? AND sha256 = ? AND (number = ? OR coalesce(origin, 0) = ? AND merges IS NULL) ORDER BY number DESC LIMIT 1",
		save.Job, digest(save.Source), save.From, save.From))
	if errors.Is(err, sql.ErrNoRows) {
		return record.Revision{}, nil
	}
	return v, err
}

// putRevision writes a revision, and on the main line makes it the current one.
// A job that was put away comes back: nothing saved is hidden from who saved it.
func putRevision(ctx context.Context, tx *sql.Tx, v record.Save, r record.Revision) error {
	entry, err := json.Marshal(v.Index)
	if err != nil {
		panic("store: a size to find a job by is no number")
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO revisions (job, number, origin, branch, merges, restores, at, who, note, source, sha256, entry)
		VALUES (?, ?, nullif(?, 0), ?, nullif(?, 0), nullif(?, 0), ?, ?, ?, ?, ?, ?)`,
		r.Job, r.Number, r.From, r.Branch, r.Merges, r.Restores, written(r.When), r.Who, r.Note, nonNil(v.Source), digest(v.Source), string(entry))
	if err != nil {
		return err
	}
	if err := errors.Join(noteSaved(ctx, tx, v, r.Number), move(ctx, tx, r.Job, false, r.Stamp)); err != nil || r.Branch != 0 {
		return err
	}
	return putIndex(ctx, tx, v.Index, r)
}

// noteSaved remembers which revision the file of a save holds now.
func noteSaved(ctx context.Context, tx *sql.Tx, v record.Save, number int) error {
	if v.File == "" || number == 0 {
		return nil
	}
	return noteFile(ctx, tx, v.File, v.Job, number)
}

// nonNil makes an empty text one that the data base does not take for none.
func nonNil(data []byte) []byte { return append([]byte{}, data...) }

func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// digestLength is that of a SHA-256 in hexadecimal.
const digestLength = 2 * sha256.Size

// isDigest reports whether a text can be a digest.
func isDigest(text string) bool {
	return len(text) == digestLength && strings.Trim(text, "0123456789abcdef") == ""
}

// Restore makes the text of an earlier revision the current one again, as a new
// revision.
func (s *Store) Restore(ctx context.Context, job string, number int, stamp record.Stamp) (saved record.Saved, err error) {
	err = s.write(ctx, func(tx *sql.Tx) (err error) {
		saved, err = restoreIn(ctx, tx, job, number, stamp)
		return err
	})
	return saved, err
}

func restoreIn(ctx context.Context, tx *sql.Tx, id string, number int, stamp record.Stamp) (record.Saved, error) {
	job, err := needJob(ctx, tx, id)
	if err != nil {
		return record.Saved{}, err
	}
	save := record.Save{Stamp: stamp, Job: id, From: job.Revision}
	if err := checkSave(save); err != nil {
		return record.Saved{}, err
	}
	var entry string
	err = tx.QueryRowContext(ctx, "SELECT source, entry FROM revisions WHERE job = ? AND number = ?", id, number).Scan(&save.Source, &entry)
	if errors.Is(err, sql.ErrNoRows) {
		return record.Saved{}, refused("job %s has no revision %d", id, number)
	}
	if err == nil {
		err = json.Unmarshal([]byte(entry), &save.Index)
	}
	if err != nil {
		return record.Saved{}, err
	}
	last, err := lastNumber(ctx, tx, id)
	if err != nil {
		return record.Saved{}, err
	}
	v := record.Revision{Stamp: stamp, Job: id, Number: last + 1, From: job.Revision, Restores: number}
	return record.Saved{Revision: v}, putRevision(ctx, tx, save, v)
}

// Undo takes back revision `number`, which must be the current one, so that
// nobody's later save is undone unseen: the text before it becomes current, as
// a new revision. To undo what an undo brought back goes one further back.
func (s *Store) Undo(ctx context.Context, job string, number int, stamp record.Stamp) (saved record.Saved, err error) {
	err = s.write(ctx, func(tx *sql.Tx) error {
		before, err := beforeIt(ctx, tx, job, number)
		if err == nil {
			saved, err = restoreIn(ctx, tx, job, before, stamp)
		}
		return err
	})
	return saved, err
}

// beforeIt returns the revision whose text stood before that of the current one.
func beforeIt(ctx context.Context, tx *sql.Tx, id string, number int) (int, error) {
	job, err := needJob(ctx, tx, id)
	if err != nil {
		return 0, err
	}
	if number != job.Revision {
		return 0, refused("revision %d is not the current one of job %s, which is %d: look at that before anything is undone", number, id, job.Revision)
	}
	v, err := original(ctx, tx, id, number)
	if err != nil {
		return 0, err
	}
	if v.From == 0 {
		return 0, refused("nothing was saved before revision %d of job %s: there is nothing to go back to", v.Number, id)
	}
	v, err = original(ctx, tx, id, v.From)
	return v.Number, err
}

// original returns the revision in which the text of this one was first saved.
func original(ctx context.Context, tx *sql.Tx, job string, number int) (record.Revision, error) {
	for {
		v, err := revision(ctx, tx, job, number)
		if err != nil || v.Restores == 0 {
			return v, err
		}
		number = v.Restores
	}
}
