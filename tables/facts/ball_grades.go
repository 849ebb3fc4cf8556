package facts

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed ball_grades.csv
var ballGrades string

// BallGrade is how closely balls of one grade are made. A ball's diameter is
// the nominal one, the gauge that its lot was sorted into, and half the lot's
// variation either way. Lengths are in mm.
type BallGrade struct {
	Grade        string // "G28"
	LotVariation float64
	Interval     float64 // from one gauge to the next
	Source       string
}

var readBallGrades = sync.OnceValue(func() []BallGrade {
	const micron = 1e-3
	var list []BallGrade
	for _, r := range rows(ballGrades) {
		list = append(list, BallGrade{
			Grade:        r["grade"],
			LotVariation: r.number("lot_diameter_variation_um") * micron,
			Interval:     r.number("gauge_interval_um") * micron,
			Source:       r["source"],
		})
	}
	return list
})

// BallGrades returns the grades of the table, finest first.
func BallGrades() []BallGrade { return slices.Clone(readBallGrades()) }
