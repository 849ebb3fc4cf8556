package lathe

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// OnCircle returns so many places round a whole circle of this diameter, evenly,
// anticlockwise from the angle of the first.
func OnCircle(centre geom.Point, diameter, first float64, count int) []geom.Point {
	return spaced(count, func(i int) geom.Point {
		return centre.Add(geom.Polar(diameter/2, first+2*math.Pi*float64(i)/float64(count)))
	})
}

// OnArc returns so many places on an arc of this radius, evenly from the angle of
// the first to that of the last, both with a hole. One place is at the first.
func OnArc(centre geom.Point, radius, first, last float64, count int) []geom.Point {
	return spaced(count, func(i int) geom.Point {
		return centre.Add(geom.Polar(radius, first+(last-first)*float64(i)/float64(max(1, count-1))))
	})
}

// OnGrid returns the places of a grid from its corner, row by row along x, each
// second row backwards, so that the slide runs the shortest way.
func OnGrid(corner geom.Point, columns, rows int, along, up float64) []geom.Point {
	return spaced(columns*rows, func(i int) geom.Point {
		row, column := i/columns, i%columns
		if row%2 == 1 {
			column = columns - 1 - column
		}
		return corner.Add(geom.Point{X: float64(column) * along, Y: float64(row) * up})
	})
}

func spaced(count int, place func(i int) geom.Point) []geom.Point {
	list := make([]geom.Point, count)
	for i := range list {
		list[i] = place(i)
	}
	return list
}
