package store

import (
	"context"
	"database/sql"
	"errors"
	"slices"

	"codeberg.org/oddleg/oddleg/job/record"
)

// mostPins bounds those on one photograph.
const mostPins = 200

// PutPin sticks a pin into a photograph, or moves the one with its id. The same
// pin sent twice is kept once.
func (s *Store) PutPin(ctx context.Context, job, sha256 string, p record.Pin, stamp record.Stamp) (record.Pin, error) {
	if err := errors.Join(checkPin(p), checkText(stamp.Who)); err != nil {
		return p, err
	}
	err := s.write(ctx, func(tx *sql.Tx) error {
		if err := needPhotograph(ctx, tx, job, sha256); err != nil {
			return err
		}
		all, err := pinsOf(ctx, tx, job)
		if err != nil {
			return err
		}
		if p, err = placed(p, all[sha256]); err != nil {
			return err
		}
		photo := record.Photograph{Stamp: stamp, Job: job, SHA256: sha256}
		return errors.Join(putPin(ctx, tx, photo, p), movePin(ctx, tx, p), findablePictures(ctx, tx, job))
	})
	return p, err
}

// movePin makes a pin that is there what it is now.
func movePin(ctx context.Context, tx *sql.Tx, p record.Pin) error {
	_, err := tx.ExecContext(ctx, "UPDATE pins SET x = ?, y = ?, size = ?, say = ? WHERE id = ?", p.X, p.Y, p.Size, p.Say, p.ID)
	return err
}

// checkPin refuses a pin that is beside its picture, or says nothing.
func checkPin(p record.Pin) error {
	inside := func(x float64) bool { return x >= 0 && x <= 1 } // not so for NaN
	switch {
	case !inside(p.X) || !inside(p.Y):
		return refused("the pin is at %g, %g of the picture: from 0 to 1 of its width and height is wanted", p.X, p.Y)
	case p.Size == "" && p.Say == "":
		return refused("a pin needs a size or a few words")
	}
	return checkText(p.Size, p.Say)
}

// placed gives a new pin its id among those that are there.
func placed(p record.Pin, all []record.Pin) (record.Pin, error) {
	same := func(q record.Pin) bool {
		q.ID = ""
		return q == p
	}
	known := func(q record.Pin) bool { return q.ID == p.ID }
	switch {
	case p.ID != "" && !slices.ContainsFunc(all, known):
		return p, refused("the photograph has no pin %q", p.ID)
	case p.ID != "":
		return p, nil
	}
	if i := slices.IndexFunc(all, same); i >= 0 {
		return all[i], nil
	}
	if len(all) >= mostPins {
		return p, refused("the photograph has %d pins; that is the most", len(all))
	}
	p.ID = newID(longIDLength)
	return p, nil
}

// putPin writes a pin; one that is there already stays as it is.
func putPin(ctx context.Context, tx *sql.Tx, photo record.Photograph, p record.Pin) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO pins (id, job, sha256, x, y, size, say, at, who) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (id) DO NOTHING`, p.ID, photo.Job, photo.SHA256, p.X, p.Y, p.Size, p.Say, written(photo.When), photo.Who)
	return err
}

// DropPin pulls a pin out of a photograph. One that is not there does no harm.
func (s *Store) DropPin(ctx context.Context, job, sha256, pinID string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := needPhotograph(ctx, tx, job, sha256); err != nil {
			return err
		}
		all, err := pinsOf(ctx, tx, job)
		if err != nil || !slices.ContainsFunc(all[sha256], func(p record.Pin) bool { return p.ID == pinID }) {
			return err
		}
		_, err = tx.ExecContext(ctx, "DELETE FROM pins WHERE id = ?", pinID)
		return errors.Join(err, findablePictures(ctx, tx, job))
	})
}

// pinsOf returns the pins on each photograph of a job, in the order in which they
// came.
func pinsOf(ctx context.Context, db asker, job string) (map[string][]record.Pin, error) {
	type placedPin struct {
		sha256 string
		record.Pin
	}
	all, err := list(ctx, db, func(r row) (p placedPin, err error) { return p, r.Scan(&p.sha256, &p.ID, &p.X, &p.Y, &p.Size, &p.Say) },
		"SELECT sha256, id, x, y, size, say FROM pins WHERE job = ? ORDER BY at, rowid", job)
	pins := map[string][]record.Pin{}
	for _, p := range all {
		pins[p.sha256] = append(pins[p.sha256], p.Pin)
	}
	return pins, err
}
