package store

import (
	"context"
	"database/sql"
	"errors"
	"math"
	"slices"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

const toolColumns = "SELECT id, class, kind, size, coalesce(mm, 0), tolerance, calibrated, written, say FROM kit "

func readTool(r row) (t record.Tool, err error) {
	return t, r.Scan(&t.ID, &t.Class, &t.Kind, &t.Size.Text, &t.Size.MM, &t.Tolerance, &t.Calibrated, &t.Written, &t.Say)
}

// PutTool adds something to the kit, or takes the place of what had its id.
func (s *Store) PutTool(ctx context.Context, t record.Tool) error {
	if err := checkTool(t); err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := dropTool(ctx, tx, t.ID); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO kit (id, class, kind, size, mm, tolerance, calibrated, written, say)
			VALUES (?1, ?2, ?3, ?4, CASE WHEN ?4 <> '' THEN ?5 END, ?6, ?7, ?8, ?9)`,
			t.ID, string(t.Class), t.Kind, t.Size.Text, t.Size.MM, t.Tolerance, t.Calibrated, t.Written, t.Say)
		if err != nil {
			return err
		}
		var sizes []record.Size
		if t.Size.Text != "" {
			sizes = []record.Size{t.Size}
		}
		return findable(ctx, tx, fromKit, t.ID, []string{t.ID, t.Kind, t.Size.Text, t.Say}, sizes, nil)
	})
}

// checkTool refuses what has no place in the kit.
func checkTool(t record.Tool) error {
	_, undated := time.Parse(time.DateOnly, t.Calibrated)
	switch {
	case t.ID == "":
		return refused("what is put in the kit needs an id")
	case !slices.Contains([]record.Class{record.Instrument, record.Piece, record.Machine}, t.Class):
		return refused("%s: %q is no class of the kit: %s, %s and %s are", t.ID, t.Class, record.Instrument, record.Piece, record.Machine)
	case t.Calibrated != "" && undated != nil:
		return refused("%s: %q is no date: write the year, month and day as 2024-03-01", t.ID, t.Calibrated)
	case t.Size.Text != "" && !(t.Size.MM > 0 && t.Size.MM <= math.MaxFloat64):
		return refused("%s: its size is %g mm: more than 0 is wanted", t.ID, t.Size.MM)
	}
	return checkText(t.ID, t.Kind, t.Size.Text, t.Tolerance, t.Written, t.Say)
}

// DropTool takes something out of the kit. The jobs keep what they say of it.
func (s *Store) DropTool(ctx context.Context, id string) error {
	return s.write(ctx, func(tx *sql.Tx) error { return dropTool(ctx, tx, id) })
}

func dropTool(ctx context.Context, tx *sql.Tx, id string) error {
	if _, err := tx.ExecContext(ctx, "DELETE FROM kit WHERE id = ?", id); err != nil {
		return err
	}
	return forget(ctx, tx, fromKit, id)
}

// Kit returns the shop's kit.
func (s *Store) Kit(ctx context.Context) ([]record.Tool, error) {
	all, err := list(ctx, s.db, readTool, toolColumns+"ORDER BY class, kind, mm, id")
	return all, s.told(err)
}

func toolByID(ctx context.Context, db asker, id string) (record.Tool, error) {
	t, err := readTool(db.QueryRowContext(ctx, toolColumns+"WHERE id = ?", id))
	if errors.Is(err, sql.ErrNoRows) {
		return t, refused("nothing in the kit is called %q", id)
	}
	return t, err
}
