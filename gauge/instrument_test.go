package gauge

import (
	"math"
	"strings"
	"testing"

	"oddleg"
	"oddleg/unit"
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
		in   oddleg.Instrument
		want Error
	}{
		{"mpe", oddleg.Instrument{Kind: oddleg.Micrometer, Resolution: mm(10), MPE: mm(10)}, Error{0.01 / root6, 0.01 / root6, 0.01}},
		{"zero and mpe", oddleg.Instrument{Kind: oddleg.Scale, Zero: mm(3), MPE: mm(6)}, Error{0.003, 0.006 / root6, 0}},
		{"repeat and mpe", oddleg.Instrument{Kind: oddleg.OtherInstrument, Repeat: mm(3), MPE: mm(6)}, Error{0.006 / root6, 0.003, 0}},
		{"zero and repeat", oddleg.Instrument{Kind: oddleg.DepthGauge, Zero: mm(2), Repeat: mm(4)}, Error{0.002, 0.004, 0}},
		{"zero alone", oddleg.Instrument{Kind: oddleg.Dial, Zero: mm(2)}, Error{0.002, 0.015 / root6, 0}},
		{"no repeat", oddleg.Instrument{Kind: oddleg.Readout, Resolution: mm(5), Repeat: mm(0)}, Error{0.01 / root6, 0, 0.005}},
		{"no error but its scale", oddleg.Instrument{Kind: oddleg.Rule, Resolution: mm(500), MPE: mm(0)}, Error{0, 0, 0.5}},
		{"caliper", oddleg.Instrument{Kind: oddleg.Caliper}, Error{0.03 / root6, 0.03 / root6, 0}},
		{"fine caliper", oddleg.Instrument{Kind: oddleg.Caliper, Resolution: mm(20)}, Error{0.03 / root6, 0.03 / root6, 0.02}},
		{"coarse caliper", oddleg.Instrument{Kind: oddleg.Caliper, Resolution: mm(50)}, Error{0.05 / root6, 0.05 / root6, 0.05}},
		{"thou caliper", oddleg.Instrument{Kind: oddleg.Caliper, Resolution: thousandths(t, 1, unit.Inch)}, Error{0.03 / root6, 0.03 / root6, 0.0254}},
		{"micrometer", oddleg.Instrument{Kind: oddleg.Micrometer}, Error{0.005 / root6, 0.005 / root6, 0}},
		{"depth micrometer", oddleg.Instrument{Kind: oddleg.DepthMicrometer}, Error{0.01 / root6, 0.01 / root6, 0}},
		{"height gauge", oddleg.Instrument{Kind: oddleg.HeightGauge}, Error{0.05 / root6, 0.05 / root6, 0}},
		{"bore gauge", oddleg.Instrument{Kind: oddleg.BoreGauge}, Error{0.015 / root6, 0.015 / root6, 0}},
		{"rule", oddleg.Instrument{Kind: oddleg.Rule}, Error{0.25 / root6, 0.25 / root6, 0}},
		{
			"protractor",
			oddleg.Instrument{Kind: oddleg.Protractor, Resolution: thousandths(t, 500, unit.Degree)},
			Error{0.5 * degree / root6, 0.5 * degree / root6, 0.5 * degree},
		},
		{
			"protractor with mpe",
			oddleg.Instrument{Kind: oddleg.Protractor, MPE: thousandths(t, 100, unit.Degree)},
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
		in    oddleg.Instrument
		wants string
	}{
		{oddleg.Instrument{Kind: oddleg.DepthGauge}, "kind depth-gauge: write mpe, or zero and repeat"},
		{oddleg.Instrument{Kind: oddleg.Scale, Zero: mm(1)}, "kind scale: write mpe, or zero and repeat"},
		{oddleg.Instrument{Kind: oddleg.OtherInstrument}, "kind other: write mpe, or zero and repeat"},
		{oddleg.Instrument{Kind: oddleg.Protractor}, "write its resolution, or mpe"},
		{oddleg.Instrument{Kind: oddleg.Micrometer, Repeat: mm(0)}, "write its resolution too"},
		{oddleg.Instrument{Kind: oddleg.Micrometer, MPE: mm(0)}, "write its resolution too"},
		{oddleg.Instrument{Kind: oddleg.Micrometer, MPE: mm(-10)}, "its mpe is -0.01 mm: write it without the sign"},
		{oddleg.Instrument{Kind: oddleg.Micrometer, Zero: mm(-10)}, "its zero is -0.01 mm"},
		{oddleg.Instrument{Kind: oddleg.Micrometer, Resolution: mm(0)}, "its resolution is 0 mm: write a step above 0"},
	} {
		c.in.ID = "mic"
		_, err := ErrorOf(&c.in)
		if err == nil || !strings.Contains(err.Error(), c.wants) || !strings.HasPrefix(err.Error(), "instrument mic: ") {
			t.Errorf("%+v: %v, want %q", c.in, err, c.wants)
		}
	}
}
