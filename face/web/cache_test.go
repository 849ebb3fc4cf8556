package web

import (
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// edge is a bore read by a ball on its mouth, of which a warning always says what a
// chamfer of 0.1 mm would do. By hand that is 0.0039 in.
const edge = `oddleg: 1
job: An edge
units: mm
kit:
  depth: {kind: depth-micrometer, resolution: 0.01 mm}
  ball: {kind: ball, size: 25 mm}
sizes: {bore: {kind: diameter, surface: inside}}
readings: [{id: r, by: ball-on-mouth, of: {bore: bore, ball: ball}, with: depth, saw: 20 mm}]
`

// TestOneWorkingOutServesBothUnits: a text is worked out once, whoever asks for it, and
// each is told in the units of their own.
func TestOneWorkingOutServesBothUnits(t *testing.T) {
	s := &desk{cache: newCache()}
	inch, mm, asWritten := s.work([]byte(edge), unit.Inch), s.work([]byte(edge), unit.Millimetre), s.work([]byte(edge), unit.One)
	if s.cache.misses != 1 || inch.Found == nil || inch.Found != mm.Found || mm.Found != asWritten.Found {
		t.Fatalf("worked out %d times, want once for all: %v", s.cache.misses, inch.Faults)
	}
	for _, c := range []struct {
		seen worked
		want string
	}{{inch, "a chamfer of 0.0039 in"}, {mm, "a chamfer of 0.100 mm"}, {asWritten, "a chamfer of 0.100 mm"}} {
		said := ""
		for _, w := range c.seen.Found.Result.Warnings {
			said += w.Text.Shown(c.seen.view()) + "\n"
		}
		if !strings.Contains(said, c.want) {
			t.Errorf("warned %q, want %q in it", said, c.want)
		}
	}
	if s.work([]byte(strings.Replace(edge, "20 mm", "20.1 mm", 1)), unit.Inch); s.cache.misses != 2 {
		t.Errorf("another text: worked out %d times in all, want 2", s.cache.misses)
	}
}
