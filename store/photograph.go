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

	"oddleg/record"
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
	var err error
	if p.MIME, err = PictureKind(p.Data); err != nil {
		return p, err
	}
	p.SHA256 = digest(p.Data)
	return p, s.write(ctx, func(tx *sql.Tx) error {
		if _, err := needJob(ctx, tx, p.Job); err != nil {
			return err
		}
		return putPhotograph(ctx, tx, p)
	})
}

func putPhotograph(ctx context.Context, tx *sql.Tx, p record.Photograph) error {
	done, err := tx.ExecContext(ctx, `INSERT INTO photographs (job, sha256, mime, caption, at, who, data) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (job, sha256) DO NOTHING`, p.Job, p.SHA256, p.MIME, p.Note, written(p.When), p.Who, p.Data)
	if err != nil {
		return err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return err
	}
	return findable(ctx, tx, fromPhotographs, p.Job, []string{p.Note}, nil, nil)
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
	return all, s.told(err)
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
