package gauge

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// thousandths returns n/1000 in unit u.
func thousandths(t *testing.T, n int64, u unit.Unit) unit.Quantity {
	t.Helper()
	q, err := unit.New(n, 1000, u)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestErrorOf has mpe/√6 twice for a rectangle ±mpe, and the working figures of
// the kinds: common practice, no source.
func TestErrorOf(t *testing.T) {
	mm := func(n int64) unit.Quantity { return thousandths(t, n, unit.Millimetre) }
	root6 := math.Sqrt(6)
	for _, c := range []struct {
		name string
		in   trade.Instrument
		want Error
	}{
		{"mpe", trade.Instrument{Kind: trade.Micrometer, Resolution: mm(10), MPE: mm(10)}, Error{0.01 / root6, 0.01 / root6, 0.01}},
		{"zero and mpe", trade.Instrument{Kind: trade.Scale, Zero: mm(3), MPE: mm(6)}, Error{0.003, 0.006 / root6, 0}},
		{"repeat and mpe", trade.Instrument{Kind: trade.OtherInstrument, Repeat: mm(3), MPE: mm(6)}, Error{0.006 / root6, 0.003, 0}},
		{"zero and repeat", trade.Instrument{Kind: trade.DepthGauge, Zero: mm(2), Repeat: mm(4)}, Error{0.002, 0.004, 0}},
		{"zero alone", trade.Instrument{Kind: trade.Dial, Zero: mm(2)}, Error{0.002, 0.015 / root6, 0}},
		{"no repeat", trade.Instrument{Kind: trade.Readout, Resolution: mm(5), Repeat: mm(0)}, Error{0.01 / root6, 0, 0.005}},
		{"no error but its scale", trade.Instrument{Kind: trade.Rule, Resolution: mm(500), MPE: mm(0)}, Error{0, 0, 0.5}},
		{"caliper", trade.Instrument{Kind: trade.Caliper}, Error{0.03 / root6, 0.03 / root6, 0}},
		{"fine caliper", trade.Instrument{Kind: trade.Caliper, Resolution: mm(20)}, Error{0.03 / root6, 0.03 / root6, 0.02}},
		{"coarse caliper", trade.Instrument{Kind: trade.Caliper, Resolution: mm(50)}, Error{0.05 / root6, 0.05 / root6, 0.05}},
		{"thou caliper", trade.Instrument{Kind: trade.Caliper, Resolution: thousandths(t, 1, unit.Inch)}, Error{0.03 / root6, 0.03 / root6, 0.0254}},
		{"micrometer", trade.Instrument{Kind: trade.Micrometer}, Error{0.005 / root6, 0.005 / root6, 0}},
		{"depth micrometer", trade.Instrument{Kind: trade.DepthMicrometer}, Error{0.01 / root6, 0.01 / root6, 0}},
		{"height gauge", trade.Instrument{Kind: trade.HeightGauge}, Error{0.05 / root6, 0.05 / root6, 0}},
		{"bore gauge", trade.Instrument{Kind: trade.BoreGauge}, Error{0.015 / root6, 0.015 / root6, 0}},
		{"rule", trade.Instrument{Kind: trade.Rule}, Error{0.25 / root6, 0.25 / root6, 0}},
		{
			"protractor",
			trade.Instrument{Kind: trade.Protractor, Resolution: thousandths(t, 500, unit.Degree)},
			Error{0.5 * degree / root6, 0.5 * degree / root6, 0.5 * degree},
		},
		{
			"protractor with mpe",
			trade.Instrument{Kind: trade.Protractor, MPE: thousandths(t, 100, unit.Degree)},
			Error{0.1 * degree / root6, 0.1 * degree / root6, 0},
		},
	} {
		got, err := ErrorOf(&c.in)
		if err != nil || !sameError(got, c.want) {
			t.Errorf("%s: %+v, %v; want %+v", c.name, got, err, c.want)
		}
	}
}

func sameError(a, b Error) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-15*math.Abs(y) }
	return near(a.Zero, b.Zero) && near(a.Repeat, b.Repeat) && near(a.Resolution, b.Resolution)
}

func TestErrorOfSaysWhatToWrite(t *testing.T) {
	mm := func(n int64) unit.Quantity { return thousandths(t, n, unit.Millimetre) }
	for _, c := range []struct {
		in    trade.Instrument
		wants string
	}{
		{trade.Instrument{Kind: trade.DepthGauge}, "kind depth-gauge: write mpe, or zero and repeat"},
		{trade.Instrument{Kind: trade.Scale, Zero: mm(1)}, "kind scale: write mpe, or zero and repeat"},
		{trade.Instrument{Kind: trade.OtherInstrument}, "kind other: write mpe, or zero and repeat"},
		{trade.Instrument{Kind: trade.Protractor}, "write its resolution, or mpe"},
		{trade.Instrument{Kind: trade.Micrometer, Repeat: mm(0)}, "write its resolution too"},
		{trade.Instrument{Kind: trade.Micrometer, MPE: mm(0)}, "write its resolution too"},
		{trade.Instrument{Kind: trade.Micrometer, MPE: mm(-10)}, "its mpe is -0.01 mm: write it without the sign"},
		{trade.Instrument{Kind: trade.Micrometer, Zero: mm(-10)}, "its zero is -0.01 mm"},
		{trade.Instrument{Kind: trade.Micrometer, Resolution: mm(0)}, "its resolution is 0 mm: write a step above 0"},
	} {
		c.in.ID = "mic"
		_, err := ErrorOf(&c.in)
		if err == nil || !strings.Contains(err.Error(), c.wants) || !strings.HasPrefix(err.Error(), "instrument mic: ") {
			t.Errorf("%+v: %v, want %q", c.in, err, c.wants)
		}
	}
}
