package main

import (
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// TestExamplesAreFound keeps each example and finds it by what is in it.
func TestExamplesAreFound(t *testing.T) {
	record := filepath.Join(t.TempDir(), "shop.db")
	for _, job := range examples.Jobs() {
		output(t, []string{"keep", "../../examples/" + job.Name, "--shop", record})
	}
	for asked, want := range map[string]string{
		"7/16 BSW 1936":  "Index plunger and its bush",
		"19.07 mm guide": "Index plunger and its bush",
		"gib planer":     "Planer slide and its gib",
	} {
		if said := output(t, []string{"find", asked, "--shop", record}); !strings.HasPrefix(said, want) {
			t.Errorf("%q finds:\n%s", asked, said)
		}
	}
	if said := output(t, []string{"find", "--shop", record}); strings.Count(said, "revision 1") != 3 {
		t.Errorf("not all examples are listed:\n%s", said)
	}
}

// TestLabelIsRead has an independent reader (zbar 0.23) read the code of a label.
func TestLabelIsRead(t *testing.T) {
	folder := t.TempDir()
	record, label, picture := filepath.Join(folder, "shop.db"), filepath.Join(folder, "label.svg"), filepath.Join(folder, "label.png")
	output(t, []string{"keep", "../../examples/index-plunger.yaml", "--shop", record})
	output(t, []string{"label", "plunger", label, "--shop", record})
	oracle.Find(t, "rsvg-convert", "librsvg2-bin").Output(t, nil, "--zoom", "4", "--background-color", "white", "-o", picture, label)
	read := oracle.Find(t, "zbarimg", "zbar-tools").Output(t, nil, "--quiet", "--raw", picture)
	before, id, _ := strings.Cut(strings.TrimSpace(string(read)), "oddleg ")
	if before != "Index plunger\ndividing table, 1936, GB\nrevision 1\n" || len(id) != 6 {
		t.Errorf("the code says %q", read)
	}
	if said := output(t, []string{"history", id, "--shop", record}); !strings.HasPrefix(said, "Index plunger and its bush") {
		t.Errorf("the id on the label leads to:\n%s", said)
	}
}
