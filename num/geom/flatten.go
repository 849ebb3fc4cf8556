package geom

import "math"

// Flatten returns points along the path such that the straight lines between
// them depart from it by the tolerance at most: R(1 - cos(θ/2)) for a chord over
// θ of an arc. All points lie on the path. The last point of a closed path is
// not the first once more. A tolerance of zero or less panics.
func (p Path) Flatten(tolerance float64) []Point {
	if !(tolerance > 0) {
		panic("geom: arcs cannot be straightened without a tolerance")
	}
	var points []Point
	for _, e := range p {
		n := e.chords(tolerance)
		for k := range n {
			points = append(points, e.At(float64(k)/float64(n)))
		}
	}
	if len(p) > 0 && !p.Closed() {
		points = append(points, p[len(p)-1].To)
	}
	return points
}

// chords returns how many chords of equal length follow the edge.
func (e Edge) chords(tolerance float64) int {
	if e.Turn == Straight {
		return 1
	}
	step := 2 * math.Acos(max(0, 1-tolerance/e.Radius()))
	return max(1, int(math.Ceil(math.Abs(e.Sweep())/step)), e.leastChords())
}

// leastChords keeps an arc of half a turn or more from becoming a line.
func (e Edge) leastChords() int { return int(math.Ceil(math.Abs(e.Sweep()) / (2 * math.Pi / 3))) }
