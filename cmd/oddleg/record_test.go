package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
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
	for _, program := range []string{"rsvg-convert", "zbarimg"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatal(err)
			}
			t.Skip(err)
		}
	}
	if out, err := exec.Command("rsvg-convert", "--zoom", "4", "--background-color", "white", "-o", picture, label).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert: %v, %s", err, out)
	}
	read, err := exec.Command("zbarimg", "--quiet", "--raw", picture).Output()
	if err != nil {
		t.Fatal(err)
	}
	before, id, _ := strings.Cut(strings.TrimSpace(string(read)), "oddleg ")
	if before != "Index plunger\ndividing table, 1936, GB\nrevision 1\n" || len(id) != 6 {
		t.Errorf("the code says %q", read)
	}
	if said := output(t, []string{"history", id, "--shop", record}); !strings.HasPrefix(said, "Index plunger and its bush") {
		t.Errorf("the id on the label leads to:\n%s", said)
	}
}
