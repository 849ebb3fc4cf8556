package lsq

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// network is a plane network of distances, in metres, as its file gives it.
type network struct {
	CSV  string `yaml:"csv"`
	Free bool   `yaml:"free_network"`

	columns map[string]int // of the x of a new point; its y is the next
	places  map[string][2]float64
	problem Problem
	names   []string // of the observations
}

// read reads the file and makes the problem.
func (n *network) read(t *testing.T) {
	n.columns, n.places = map[string]int{}, map[string][2]float64{}
	for _, row := range table(t, n.CSV) {
		if row[0] != "distance" {
			n.place(t, row)
			continue
		}
		e := leg{n.end(row[1]), n.end(row[2]), number(t, row[3])}
		sigma := number(t, row[4]) / 1000 // mm
		n.problem.Observations = append(n.problem.Observations, Observation{e, sigma})
		n.names = append(n.names, row[1]+"-"+row[2])
	}
	if n.Free {
		n.innerConstraints()
	}
}

func (n *network) place(t *testing.T, row []string) {
	x, y, _ := strings.Cut(row[3], ";")
	at := [2]float64{number(t, x), number(t, y)}
	n.places[row[1]] = at
	if row[0] == "new_point_approx" {
		n.columns[row[1]] = len(n.problem.Start)
		n.problem.Start = append(n.problem.Start, at[0], at[1])
	}
}

func (n *network) end(name string) end {
	if column, isNew := n.columns[name]; isNew {
		return end{column: column}
	}
	return end{column: -1, at: n.places[name]}
}

// innerConstraints asks that the corrections to the approximate places neither
// shift nor turn the network: those of least norm.
func (n *network) innerConstraints() {
	start := n.problem.Start
	shiftX, shiftY, turn := linear{}, linear{}, linear{}
	for c := 0; c < len(start); c += 2 {
		shiftX.add(c, 1, start[c])
		shiftY.add(c+1, 1, start[c+1])
		turn.add(c, -start[c+1], start[c])
		turn.add(c+1, start[c], start[c+1])
	}
	n.problem.Constraints = []Equation{&shiftX, &shiftY, &turn}
}

// end is a point of a network: two unknowns, or a fixed place.
type end struct {
	column int // -1: fixed
	at     [2]float64
}

func (e end) xy(x []float64) (float64, float64) {
	if e.column < 0 {
		return e.at[0], e.at[1]
	}
	return x[e.column], x[e.column+1]
}

func (e end) slope(row *Row, dx, dy float64) {
	if e.column >= 0 {
		row.Add(e.column, dx)
		row.Add(e.column+1, dy)
	}
}

// leg is a distance less what was read.
type leg struct {
	from, to end
	saw      float64
}

func (l leg) Eval(x []float64, row *Row) float64 {
	x1, y1 := l.from.xy(x)
	x2, y2 := l.to.xy(x)
	d := math.Hypot(x2-x1, y2-y1)
	l.from.slope(row, (x1-x2)/d, (y1-y2)/d)
	l.to.slope(row, (x2-x1)/d, (y2-y1)/d)
	return d - l.saw
}

// linear is a sum of multiples of unknowns less a constant.
type linear struct {
	row  Row
	less float64
}

// add adds a term that is zero where the unknown is at.
func (l *linear) add(column int, factor, at float64) {
	l.row.Add(column, factor)
	l.less += factor * at
}

func (l *linear) Eval(x []float64, row *Row) float64 {
	for i, c := range l.row.Columns {
		row.Add(c, l.row.Values[i])
	}
	return l.row.times(x) - l.less
}

func TestNetworks(t *testing.T) {
	for _, id := range []string{
		"ls-net-strang-borre-fixed", "ls-net-strang-borre-free", "ls-net-benning-8-2", "ls-net-benning-8-8",
	} {
		t.Run(id, func(t *testing.T) {
			var n network
			e := published(t, id, &n)
			n.read(t)
			s, err := Solve(n.problem)
			if n.Free && err == nil {
				// The published deviations belong to the datum at the adjusted places.
				n.problem.Start = s.X
				n.innerConstraints()
				s, err = Solve(n.problem)
			}
			if err != nil {
				t.Fatal(err)
			}
			for name, column := range n.columns {
				e.comparePoint(t, name, column, s)
			}
			e.compare(t, "degrees of freedom", float64(s.Dof))
			e.compareAnalysis(t, s, n.names)
		})
	}
}

// comparePoint checks a new point; standard deviations are published in cm and
// scaled by s0.
func (e *example) comparePoint(t *testing.T, name string, column int, s *Solution) {
	t.Helper()
	for k, axis := range []string{"x", "y"} {
		e.compare(t, name+" "+axis, s.X[column+k])
		e.compare(t, name+" sd "+axis, 100*math.Sqrt(s.Cofactor(column+k, column+k)*s.S2()))
	}
}

// compareAnalysis checks the residual analysis to the digits it is printed in;
// residuals are in mm, adjusted less observed.
func (e *example) compareAnalysis(t *testing.T, s *Solution, names []string) {
	t.Helper()
	s0 := math.Sqrt(s.S2())
	for i, a := range e.Analysis {
		if a.Obs != names[i] {
			t.Fatalf("analysis of %s in the place of %s", a.Obs, names[i])
		}
		near(t, a.Obs+" residual", 1000*s.Misclosures[i], a.Residual, 0.0005)
		decimals := 4
		if a.Prior == nil {
			decimals = 5 // this entry prints one more
		}
		near(t, a.Obs+" redundancy", s.Redundancy[i], a.Redundancy, 0.5*math.Pow10(-decimals))
		near(t, a.Obs+" w posterior", s.Normalised(i)/s0, a.Posterior, 0.0005)
		if a.Prior != nil {
			near(t, a.Obs+" w prior", s.Normalised(i), *a.Prior, 0.0005)
		}
		if a.Blunder != nil {
			// The published values are printed to four digits or to 0.01 mm.
			blunder := -1000 * s.Misclosures[i] / s.Redundancy[i]
			near(t, a.Obs+" blunder", blunder, *a.Blunder, max(0.005, 5e-4*math.Abs(blunder)))
		}
	}
}

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*(1+1e-9)) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", name, got, want, tolerance)
	}
}

func TestLevelGhilani(t *testing.T) {
	const id = "ls-level-ghilani-12-6"
	t.Run(id, func(t *testing.T) {
		var inputs struct {
			A            float64 `yaml:"A"`
			Observations [][]any `yaml:"observations"`
		}
		e := published(t, id, &inputs)
		columns := map[any]int{"B": 0, "C": 1, "D": 2}
		p := Problem{Start: []float64{440, 440, 440}}
		var names []string
		for _, o := range inputs.Observations {
			p.Observations = append(p.Observations, rise(columns, o[0], o[1], inputs.A, toFloat(o[2]), toFloat(o[3])/1000))
			names = append(names, fmt.Sprint(o[0], "-", o[1]))
		}
		s, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		for name, j := range columns {
			e.compare(t, name.(string), s.X[j])
			e.compare(t, "sd "+name.(string), 1000*math.Sqrt(s.Cofactor(j, j)*s.S2()))
		}
		e.compare(t, "s0", math.Sqrt(s.S2()))
		e.compareAnalysis(t, s, names)
	})
}

func TestLevelNiemeier(t *testing.T) {
	const id = "ls-level-niemeier"
	t.Run(id, func(t *testing.T) {
		var inputs struct {
			H6    float64     `yaml:"H6"`
			Lines [][]float64 `yaml:"lines"`
		}
		e := published(t, id, &inputs)
		columns := map[any]int{1.0: 0, 2.0: 1, 3.0: 2, 4.0: 3, 5.0: 4}
		p := Problem{Start: make([]float64, 5)}
		for _, l := range inputs.Lines {
			sigma := math.Sqrt(l[3]/1000) / 1000 // 1 mm on a kilometre
			p.Observations = append(p.Observations, rise(columns, l[0], l[1], inputs.H6, l[2], sigma))
		}
		s, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		for name, j := range columns {
			e.compare(t, fmt.Sprint("H", name), s.X[j])
			e.compare(t, fmt.Sprint("sd H", name), 1000*math.Sqrt(s.Cofactor(j, j)*s.S2()))
		}
	})
}

// rise is a difference of height, observed; a point without a column is the
// benchmark.
func rise(columns map[any]int, from, to any, benchmark, saw, sigma float64) Observation {
	e := &linear{less: saw}
	for end, sign := range map[any]float64{from: -1, to: 1} {
		if c, isNew := columns[end]; isNew {
			e.row.Add(c, sign)
		} else {
			e.less -= sign * benchmark
		}
	}
	return Observation{e, sigma}
}

func toFloat(v any) float64 {
	if i, whole := v.(uint64); whole {
		return float64(i)
	}
	return v.(float64)
}
