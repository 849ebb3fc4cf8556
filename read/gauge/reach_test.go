package gauge_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/read/gauge"
)

// TestReaches proves that every method is found by what one reaches for, and
// that each question leads to methods.
func TestReaches(t *testing.T) {
	found := map[string]bool{}
	for _, r := range gauge.Reaches() {
		if r.Title == "" || r.Say == "" || len(r.Methods) == 0 {
			t.Errorf("%s: a question needs a title, a sentence and methods", r.ID)
		}
		seen := map[*gauge.Method]bool{}
		for _, m := range r.Methods {
			switch {
			case m == nil:
				t.Fatalf("%s names a method that the catalogue does not have", r.ID)
			case seen[m]:
				t.Errorf("%s names %s twice", r.ID, m.ID)
			}
			seen[m], found[m.ID] = true, true
		}
	}
	for _, m := range gauge.Methods() {
		if !found[m.ID] {
			t.Errorf("%s: nothing leads to it; give it a place in reaches", m.ID)
		}
	}
}
