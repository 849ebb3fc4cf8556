package store

import (
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/record/recordtest"
)

// TestContract asks of the store what every record must do.
func TestContract(t *testing.T) {
	recordtest.Keeps(t, func(t *testing.T) record.Keeper {
		s := must[*Store](t)(Make(filepath.Join(t.TempDir(), "shop.db")))
		t.Cleanup(func() {
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
		return s
	})
}
