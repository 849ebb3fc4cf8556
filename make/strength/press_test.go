package strength

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/certified"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// fitCase is one press fit, in the words of the independent program.
type fitCase struct {
	Inside       float64    `json:"inside"`
	Diameter     float64    `json:"diameter"`
	Outside      float64    `json:"outside"`
	Interference float64    `json:"interference"`
	Inner        [2]float64 `json:"inner"`
	Outer        [2]float64 `json:"outer"`
}

func (f fitCase) rings() (outer, inner ring) {
	return ring{f.Diameter, f.Outside, f.Outer[0], f.Outer[1]}, ring{f.Inside, f.Diameter, f.Inner[0], f.Inner[1]}
}

func (f fitCase) pressure() float64 {
	outer, inner := f.rings()
	return pressPressure(outer, inner, f.Interference)
}

func TestPressFitOfTwoMetals(t *testing.T) {
	f := fitCase{0, 50, 100, 0.05, [2]float64{207e3, 0.292}, [2]float64{100e3, 0.211}}
	outer, _ := f.rings()
	hoop, _ := outer.boreStress(f.pressure())
	const friction, length = 0.12, 60
	certified.Example(t, "fit-lame-mixed").Figures(t, map[string]float64{
		"p": f.pressure(), "hoop stress": hoop, "torque": friction * f.pressure() * math.Pi * f.Diameter * length * f.Diameter / 2 / 1000,
	})
}

func TestPressFitOfOneMetal(t *testing.T) {
	steel := [2]float64{200e3, 0.3}
	f := fitCase{0, 50, 80, 0.04, steel, steel}
	outer, _ := f.rings()
	hoop, _ := outer.boreStress(f.pressure())
	certified.Example(t, "fit-lame-same").Figures(t, map[string]float64{"p": f.pressure(), "hoop stress": hoop})
}

// TestTheTrapOfPlaneStrain: the published shrink pressure of two tubes, 16.9 MPa,
// is that of plane strain, as if their ends were held; the text has open ends, which
// is plane stress: 15.625 MPa, and what this program gives.
func TestTheTrapOfPlaneStrain(t *testing.T) {
	const poisson = 0.28
	steel := [2]float64{200e3, poisson}
	f := fitCase{100, 150, 300, 2 * 0.025, steel, steel}
	certified.Example(t, "fit-x-compound-cylinder").Figures(t, map[string]float64{
		"p plane stress (open ends)": f.pressure(), "p printed": f.pressure() / (1 - poisson*poisson),
	})
}

// TestPressFitsAgainstFiniteDifferences compares with testdata/oracle/strength.py,
// which solves the equilibrium of the rings on a grid, to eight digits.
func TestPressFitsAgainstFiniteDifferences(t *testing.T) {
	program := oracle.Python(t, "scipy")
	steel, iron, bronze, light := [2]float64{210e3, 0.29}, [2]float64{98e3, 0.26}, [2]float64{83e3, 0.34}, [2]float64{70e3, 0.33}
	fits := []fitCase{
		{0, 50, 100, 0.05, steel, iron},
		{30, 50, 80, 0.03, steel, steel},
		{22, 30, 45, 0.02, bronze, iron},
		{10, 12, 60, 0.01, light, steel},
		{0, 6, 8, 0.004, steel, light},
	}
	type rings struct{ Pressure, Hoop, Inner float64 }
	want := oracle.Answers[rings](t, program, fits, oracle.Script(t, "strength.py"))
	for i, f := range fits {
		outer, inner := f.rings()
		hoop, _ := outer.boreStress(f.pressure())
		for _, c := range [][2]float64{{f.pressure(), want[i].Pressure}, {hoop, want[i].Hoop}, {inner.pressedStress(f.pressure()), want[i].Inner}} {
			if !(math.Abs(c[0]/c[1]-1) < 1e-8) {
				t.Errorf("%+v: %.10g MPa, by finite differences %.10g MPa", f, c[0], c[1])
			}
		}
	}
}

// TestWarming: aluminium grows 23.4 and steel 12 millionths per K, so a fit of 50
// mm loses 0.0342 mm in 60 K where the steel is inside (by hand: 11.4e-6·50·60).
func TestWarming(t *testing.T) {
	if got := growth(50, 60, 12e-6, 23.4e-6); math.Abs(got+0.0342) > 1e-12 {
		t.Errorf("the interference grows by %.6f mm, want -0.0342 mm", got)
	}
}
