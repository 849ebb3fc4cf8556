package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"image"
	_ "image/jpeg" // the two kinds that are taken
	_ "image/png"
	"slices"

	"codeberg.org/oddleg/oddleg/job/record"
)

// The bounds of a photograph: its bytes, and its points once it is unpacked.
const (
	MaxPhotograph = 20 << 20
	maxPoints     = 64_000_000
)

// PictureKind returns the MIME type of a picture that may be kept. It is an
// error if the bytes are none, are cut short, or unpack to something huge.
func PictureKind(data []byte) (string, error) {
	if len(data) > MaxPhotograph {
		return "", refused("the picture has %d bytes; the most is %d MB", len(data), MaxPhotograph>>20)
	}
	head, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return "", refused("this is no picture of a kind that can be kept: JPEG and PNG are")
	}
	if head.Width < 1 || head.Height < 1 || head.Width > maxPoints/head.Height {
		return "", refused("the picture is %d × %d points; the most is %d million", head.Width, head.Height, maxPoints/1_000_000)
	}
	if _, _, err := image.Decode(bytes.NewReader(data)); err != nil {
		return "", refused("the picture is broken: %v", err)
	}
	return "image/" + kind, nil
}

// AddPhotograph keeps a picture with a job. The same picture is kept once.
func (s *Store) AddPhotograph(ctx context.Context, p record.Photograph) (record.Photograph, error) {
	err := checkText(p.Who, p.Note)
	if err == nil {
		p.MIME, err = PictureKind(p.Data)
	}
	if err != nil {
		return p, err
	}
	p.SHA256 = digest(p.Data)
	return p, s.write(ctx, func(tx *sql.Tx) error {
		if _, err := needJob(ctx, tx, p.Job); err != nil {
			return err
		}
		return errors.Join(putPhotograph(ctx, tx, p), findablePictures(ctx, tx, p.Job))
	})
}

// Caption writes what is said under a picture anew.
func (s *Store) Caption(ctx context.Context, job, sha256, text string) error {
	if err := checkText(text); err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := needPhotograph(ctx, tx, job, sha256); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, "UPDATE photographs SET caption = ? WHERE job = ? AND sha256 = ?", text, job, sha256)
		return errors.Join(err, findablePictures(ctx, tx, job))
	})
}

// putPhotograph writes a picture; one that is there already stays as it is.
func putPhotograph(ctx context.Context, tx *sql.Tx, p record.Photograph) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO photographs (job, sha256, mime, caption, at, who, data) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (job, sha256) DO NOTHING`, p.Job, p.SHA256, p.MIME, p.Note, written(p.When), p.Who, p.Data)
	return err
}

// findablePictures puts what is said of a job's pictures into the search.
func findablePictures(ctx context.Context, tx *sql.Tx, job string) error {
	words, err := list(ctx, tx, func(r row) (text string, err error) { return text, r.Scan(&text) },
		"SELECT caption FROM photographs WHERE job = ?1 UNION ALL SELECT size || ' ' || say FROM pins WHERE job = ?1", job)
	if err != nil {
		return err
	}
	return errors.Join(forget(ctx, tx, fromPhotographs, job), findable(ctx, tx, fromPhotographs, job, words, nil, nil))
}

const photographColumns = "SELECT job, sha256, mime, caption, at, who FROM photographs "

func readPhotograph(r row) (record.Photograph, error) {
	var p record.Photograph
	var at moment
	err := r.Scan(&p.Job, &p.SHA256, &p.MIME, &p.Note, &at, &p.Who)
	p.When = at.Time
	return p, err
}

// Photographs returns the pictures of a job without their bytes, the first first.
func (s *Store) Photographs(ctx context.Context, job string) ([]record.Photograph, error) {
	all, err := list(ctx, s.db, readPhotograph, photographColumns+"WHERE job = ? ORDER BY at, sha256", job)
	if err != nil {
		return nil, s.told(err)
	}
	pins, err := pinsOf(ctx, s.db, job)
	for i := range all {
		all[i].Pins = pins[all[i].SHA256]
	}
	return all, s.told(err)
}

// needPhotograph refuses a picture that is not there.
func needPhotograph(ctx context.Context, db asker, job, sha256 string) error {
	var there bool
	err := db.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM photographs WHERE job = ? AND sha256 = ?)", job, sha256).Scan(&there)
	if err == nil && !there {
		err = refused("job %s has no such photograph", job)
	}
	return err
}

// Photograph returns one picture of a job.
func (s *Store) Photograph(ctx context.Context, job, sha256 string) (record.Photograph, error) {
	all, err := s.Photographs(ctx, job)
	if err != nil {
		return record.Photograph{}, err
	}
	i := slices.IndexFunc(all, func(p record.Photograph) bool { return p.SHA256 == sha256 })
	if i < 0 {
		return record.Photograph{}, refused("job %s has no such photograph", job)
	}
	p := all[i]
	err = s.db.QueryRowContext(ctx, "SELECT data FROM photographs WHERE job = ? AND sha256 = ?", job, sha256).Scan(&p.Data)
	if errors.Is(err, sql.ErrNoRows) {
		return p, refused("job %s has no such photograph", job)
	}
	return p, s.told(err)
}
