package facts

import (
	"strconv"
	"strings"
	"testing"
)

// TestBoltClassesMeanWhatTheySay: the two numbers of a class are a hundredth of
// the nominal tensile strength and the tenfold ratio of yield to it (ISO 898-1,
// from memory). The least strengths are at or a little above the nominal ones.
func TestBoltClassesMeanWhatTheySay(t *testing.T) {
	bolts := 0
	for _, c := range BoltClasses() {
		if c.Nut {
			continue
		}
		bolts++
		hundreds, tenths, _ := strings.Cut(c.Class, ".")
		nominal, err := strconv.ParseFloat(hundreds, 64)
		ratio, err2 := strconv.ParseFloat(tenths, 64)
		if err != nil || err2 != nil {
			t.Fatalf("%q is no class", c.Class)
		}
		if over := c.Tensile / (100 * nominal); over < 1 || over > 1.05 {
			t.Errorf("class %s: tensile strength %g MPa", c.Class, c.Tensile)
		}
		if over := c.Yield / (10 * nominal * ratio); over < 1 || over > 1.07 {
			t.Errorf("class %s: yield %g MPa", c.Class, c.Yield)
		}
		if c.Proof >= c.Yield || c.Source == "" {
			t.Errorf("class %s: proof stress %g MPa of a yield of %g MPa, source %q", c.Class, c.Proof, c.Yield, c.Source)
		}
	}
	if bolts != 10 {
		t.Errorf("%d rows of bolts, want 10", bolts)
	}
}

// TestNutClassesHoldTheirBolts: a nut of class n is for bolts of class n.x, so
// its proof stress is about n hundred MPa or more (ISO 898-2, from memory).
func TestNutClassesHoldTheirBolts(t *testing.T) {
	nuts := 0
	for _, c := range BoltClasses() {
		if !c.Nut {
			continue
		}
		nuts++
		if n, err := strconv.ParseFloat(c.Class, 64); err != nil || c.Proof < 94*n || c.Proof > 128*n || !FromMemory(c.Source) {
			t.Errorf("nut class %s over %g mm: proof stress %g MPa", c.Class, c.Over, c.Proof)
		}
	}
	if nuts != 31 {
		t.Errorf("%d rows of nuts, want 31", nuts)
	}
}
