package facts

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed ball_sizes.csv
var balls string

// Ball is one customary size of steel ball.
type Ball struct {
	Metric      bool
	Designation string // "15/32" of an inch, or mm
	Diameter    float64
	Source      string
}

var readBalls = sync.OnceValue(func() []Ball {
	var list []Ball
	for _, r := range rows(balls) {
		metric := r["series"] == "metric"
		list = append(list, Ball{
			Metric: metric, Designation: r["designation"], Diameter: r.inchOrMetric(metric), Source: r["source"],
		})
	}
	return list
})

// Balls returns the sizes that balls are made in. Diameters are in mm.
func Balls() []Ball { return slices.Clone(readBalls()) }
