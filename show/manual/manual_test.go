package manual_test

import (
	"bytes"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/show/manual"
	"codeberg.org/oddleg/oddleg/show/term"
)

// help returns the help of a section as a terminal shows it, in one line.
func help(t *testing.T, file *keys.Entry, section string) string {
	t.Helper()
	d, found := manual.Section(file, section)
	if !found {
		t.Fatalf("there is no section %s", section)
	}
	var out bytes.Buffer
	if err := term.Write(&out, d, term.Options{}); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

func handbook(t *testing.T, file *keys.Entry) string {
	t.Helper()
	var out bytes.Buffer
	if err := manual.Handbook(&out, file); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// TestEveryKeyIsTold: help and handbook name each key, say what it is, and give its
// example.
func TestEveryKeyIsTold(t *testing.T) {
	file := keys.File()
	page := handbook(t, file)
	for _, e := range file.Described() {
		shown := help(t, file, e.Name)
		for _, k := range e.Keys {
			for _, text := range []string{k.Name + " " + k.Says, k.Example, k.Default} {
				if !strings.Contains(shown, strings.Join(strings.Fields(text), " ")) {
					t.Errorf("help %s does not say %q", e.Name, text)
				}
			}
			if !strings.Contains(page, "| `"+k.Name+"` | "+k.Says) {
				t.Errorf("the handbook does not say what %s in %s is", k.Name, e.Name)
			}
		}
	}
}

// TestKeysThatStoodNowhere: these keys were read and described in no document.
func TestKeysThatStoodNowhere(t *testing.T) {
	page := handbook(t, keys.File())
	for _, key := range []string{
		"set-aside", "seated", "feel", "at-temp", "with-temp", "in-machine", "gib-far", "gib-near", "gib-with", "sheared", "press",
		"leave", "form", "make", "rework", "gear-clearance", "edge-finder", "turned", "warmer", "around", "up-near", "side-far",
	} {
		if !strings.Contains(page, "| `"+key+"` | ") {
			t.Errorf("%s stands nowhere", key)
		}
	}
}

// TestNewKeyIsTold: an entry in the description is all that help and handbook need.
func TestNewKeyIsTold(t *testing.T) {
	file := keys.New()
	sizes := file.Find("sizes")
	sizes.Keys = append(sizes.Keys, keys.Key{
		Name: "hardness", Holds: keys.Holds{Kind: keys.Whole, Least: 20, Most: 70}, Default: "as delivered",
		Says: "How hard it is, HRC.", Example: "58",
	})
	const want = "hardness How hard it is, HRC. a whole number from 20 to 70; left out: as delivered. Example: hardness: 58"
	if shown := help(t, file, "sizes"); !strings.Contains(shown, want) {
		t.Errorf("help does not say: %s", want)
	}
	const row = "| `hardness` | How hard it is, HRC. | a whole number from 20 to 70<br>`hardness: 58` | as delivered |"
	if !strings.Contains(handbook(t, file), row) {
		t.Errorf("the handbook has no row: %s", row)
	}
	if strings.Contains(handbook(t, keys.File()), "hardness") {
		t.Error("it stands there without its entry too")
	}
}
