package limits_test

import (
	"fmt"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/tables/limits"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// readApart is what testdata/oracle/limits.py makes of the same tables.
type readApart struct {
	Letter string
	Size   int       // µm
	Grades []*[2]int // hundredths of a µm; nil where the standard has none
}

// TestTheWholeTableAgrees asks every letter and grade just inside and outside
// both ends of every band, and compares with a second reading of the tables, in
// exact arithmetic, by another program.
func TestTheWholeTableAgrees(t *testing.T) {
	cases := oracle.Answer[[]readApart](t, oracle.Python(t), nil, oracle.Script(t, "limits.py"), "../../tables/facts")
	given, refused := 0, 0
	for _, c := range cases {
		for i, want := range c.Grades {
			if compare(t, c, limits.Code{Letter: c.Letter, Grade: i + 1}, want) {
				given++
			} else {
				refused++
			}
		}
	}
	t.Logf("%d limits compared, %d refusals", given, refused)
	if given < 50000 || refused < 10000 {
		t.Errorf("%d limits and %d refusals: too few of one sort", given, refused)
	}
}

// compare reports whether there are limits. Deviations agree to the last digit
// of the table: half a hundredth of a µm.
func compare(t *testing.T, c readApart, code limits.Code, want *[2]int) bool {
	t.Helper()
	in, err := limits.Of(float64(c.Size)/1000, code)
	if (err == nil) != (want != nil) {
		t.Errorf("%d µm %v: %v, the other reading has %v", c.Size, code, err, fmt.Sprint(want))
		return false
	}
	if want == nil {
		return false
	}
	const hundredth = 1e5 // in a mm
	for i, got := range []struct{ deviation, limit float64 }{{in.Lower, in.Low}, {in.Upper, in.High}} {
		exact := float64(c.Size*100+want[i]) / hundredth
		if math.Round(got.deviation*hundredth) != float64(want[i]) || got.limit != exact {
			t.Errorf("%d µm %v: %v and %v mm, the other reading has %v and %v", c.Size, code, got.deviation, got.limit, float64(want[i])/hundredth, exact)
		}
	}
	return true
}
