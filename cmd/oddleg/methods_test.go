package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// TestHandbookIsUpToDate writes the handbook and compares it with the one that
// stands in docs.
func TestHandbookIsUpToDate(t *testing.T) {
	fresh, kept := t.TempDir(), "../../docs"
	output(t, []string{"methods", "--handbook", fresh})
	files := map[string]bool{}
	err := filepath.WalkDir(fresh, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(fresh, path)
		if err != nil {
			return err
		}
		files[name] = true
		compare(t, path, filepath.Join(kept, name))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	sketches, err := filepath.Glob(filepath.Join(kept, sketchFolder, "*"))
	if err != nil || len(sketches) < 40 {
		t.Fatalf("%d sketches in docs (%v)", len(sketches), err)
	}
	for _, path := range sketches {
		if !files[filepath.Join(sketchFolder, filepath.Base(path))] {
			t.Errorf("%s is of no method", path)
		}
	}
}

// compare wants two files to be the same.
func compare(t *testing.T, fresh, kept string) {
	t.Helper()
	want, err := os.ReadFile(fresh)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(kept); err != nil || !bytes.Equal(got, want) {
		t.Errorf("%s is not what it should say now (%v): write it again by oddleg methods (or help job) --handbook docs", kept, err)
	}
}
