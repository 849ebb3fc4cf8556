package draw

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// worn is a graph with rows of both sorts, limits and an upright (constructed).
func worn(width, height float64) Graph {
	at := func(y ...float64) []geom.Point {
		var list []geom.Point
		for i := range y {
			list = append(list, geom.Point{X: 50 * float64(i), Y: y[i]})
		}
		return list
	}
	return Graph{
		Title: "worn", Width: width, Height: height,
		X: Axis{Name: "along the screw", Unit: "mm", Inside: 1}, Y: Axis{Name: "lost motion", Unit: "mm", Inside: 1, Zero: true},
		Rows: []Row{
			{Name: "lost motion", Points: at(0.1, 0.31, 0.12), Half: []float64{0.01, 0.02, 0.01}},
			{Name: "of the screw", Points: at(0, 0.2, 0.01), Half: []float64{0, 0.02, 0.02}},
			{Name: "of the nut", Points: at(0.1, 0.1, 0.1), Found: true},
			{Name: "year by year", Points: at(0.05, 0.06), Through: at(0.05, 0.07, 0.09)},
		},
		Limits:   []Limit{{"within 0.35 mm", geom.Point{X: 0, Y: -0.35}, geom.Point{X: 100, Y: -0.35}}, {"", geom.Point{X: 0, Y: 0.35}, geom.Point{X: 100, Y: 0.35}}},
		Uprights: []Upright{{"here", 80}},
		Caption:  "Lost motion of a screw, read at three places along it; bars are 95\u00a0%",
	}
}

func plotted(t *testing.T, g Graph) *ink.Sheet {
	t.Helper()
	sheet, err := Plot(g)
	if err != nil {
		t.Fatal(err)
	}
	return sheet
}

// wordsOf lists the texts of a sheet.
func wordsOf(s *ink.Sheet) []string {
	var list []string
	for _, m := range s.Flat() {
		if text, ok := m.(ink.Text); ok {
			list = append(list, text.Words)
		}
	}
	return list
}

// TestPlotStandsWhereItSays: numbers beside the axes and the middles of marks lie on
// one scale, counted on the paper by hand from two of the numbers.
func TestPlotStandsWhereItSays(t *testing.T) {
	g := worn(120, 90)
	sheet := plotted(t, g)
	var marks []geom.Point
	numbers := map[string]geom.Point{}
	for _, m := range sheet.Marks {
		switch m := m.(type) {
		case ink.Text:
			numbers[m.Words] = m.At.Add(geom.Point{Y: m.Height / 2})
		case ink.Area:
			if box := m.Path.Bounds(); m.Tone == 0 && math.Abs(box.Size().X-markSize) < 1e-9 { // circles
				marks = append(marks, geom.Middle(box.Low, box.High))
			}
		}
	}
	if len(marks) != 4 { // one in the key
		t.Fatalf("%d circles", len(marks))
	}
	low, high := numbers["0.0"], numbers["0.2"]
	left, right := numbers["0"], numbers["100"]
	for i, want := range g.Rows[0].Points {
		got := geom.Point{
			X: (marks[i+1].X - left.X) / (right.X - left.X) * 100,
			Y: (marks[i+1].Y - low.Y) / (high.Y - low.Y) * 0.2,
		}
		if got.Distance(want) > 1e-9 {
			t.Errorf("the mark of %v stands at %v", want, got)
		}
	}
}

// TestPlotSaysAll: names, the unit, the limit and the caption are all there.
func TestPlotSaysAll(t *testing.T) {
	said := strings.Join(wordsOf(plotted(t, worn(120, 90))), "\n")
	for _, want := range []string{"lost motion, mm", "along the screw, mm", "of the screw", "of the nut", "within 0.35 mm", "here", "bars are 95\u00a0%"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not said:\n%s", want, said)
		}
	}
}

// TestPlotIsNotFlattened: a limit far away is named, and what was read is not pressed
// into a line.
func TestPlotIsNotFlattened(t *testing.T) {
	g := worn(120, 90)
	g.Limits = []Limit{{"within 5 mm", geom.Point{X: 0, Y: 5}, geom.Point{X: 100, Y: 5}}}
	said := wordsOf(plotted(t, g))
	if !slices.Contains(said, "within 5 mm (beyond the picture)") || !slices.Contains(said, "0.30") || slices.Contains(said, "5") {
		t.Errorf("said %q", said)
	}
}

// TestPlotRefuses: nothing to draw, and no room for it.
func TestPlotRefuses(t *testing.T) {
	bare := worn(120, 90)
	bare.Rows = nil
	long := worn(120, 90)
	long.Caption = strings.Repeat("many words ", 200)
	for want, g := range map[string]Graph{"nothing to draw": bare, "has no room in 30 by 90 mm": worn(30, 90), "no room in 120 by 40 mm": worn(120, 40), "write less": long} {
		if _, err := Plot(g); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("wanted %q, the error is %v", want, err)
		}
	}
}

// TestPlotsDoNotOverlap plots values of all magnitudes, signs and counts, some all
// alike, at several sizes; what is drawn has finite places on the paper.
func TestPlotsDoNotOverlap(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 3))
	refused := 0
	for round := range 400 {
		g := worn(90+100*random.Float64(), 70+60*random.Float64())
		magnitude, off := math.Pow(10, -6+9*random.Float64()), 0.0
		if round%3 == 0 {
			off = 1000 * random.NormFloat64()
		}
		g.Limits, g.Uprights, g.Rows = g.Limits[:round%3], g.Uprights[:round%2], nil
		for i := range 1 + round%6 {
			row := Row{Name: fmt.Sprintf("row %d of what was read", i), Found: i%4 == 3}
			for range 1 + random.IntN(9) {
				q := geom.Point{X: 300 * random.Float64(), Y: off + magnitude*random.NormFloat64()*float64(round%5)}
				row.Points, row.Half = append(row.Points, q), append(row.Half, magnitude*random.Float64())
			}
			g.Rows = append(g.Rows, row)
		}
		g.Y.Zero = round%3 != 0
		sheet, err := Plot(g)
		if err != nil {
			refused++
			continue
		}
		for _, fault := range Overlaps(sheet) {
			t.Errorf("round %d: %s", round, fault)
		}
		for _, said := range wordsOf(sheet) {
			if strings.Contains(said, "NaN") || strings.Contains(said, "Inf") {
				t.Errorf("round %d says %q", round, said)
			}
		}
	}
	if refused > 20 {
		t.Errorf("%d of 400 graphs had no room", refused)
	}
}

// TestRoundSteps, by hand.
func TestRoundSteps(t *testing.T) {
	for _, c := range []struct{ span, most, want float64 }{
		{1, 10, 0.1}, {1, 9, 0.2}, {1, 4, 0.5}, {1, 1.5, 1}, {0.35, 8, 0.05}, {300, 10, 50}, {6e-3, 7, 1e-3},
	} {
		if got := roundStep(c.span, c.most); math.Abs(got-c.want) > 1e-12*c.want {
			t.Errorf("a span of %g in %g parts: %g, wanted %g", c.span, c.most, got, c.want)
		}
	}
}
