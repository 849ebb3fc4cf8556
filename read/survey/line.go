package survey

import "codeberg.org/oddleg/oddleg/job/trade"

// line is a straight line a + b·(x - middle), its coefficients sums of unknowns.
type line struct {
	a, b   sum
	middle float64
}

// at returns the line's height at x.
func (l line) at(x float64) sum { return l.a.plus(x-l.middle, l.b) }

// through returns the line of least squares through heights at places, as sums of
// these: a = Σ y/n, b = Σ (x - x̄)y/Σ (x - x̄)². Of two places it is the line through
// both.
func through(places []float64, heights []sum) line {
	l := line{middle: mean(places)}
	squares := 0.0
	for _, x := range places {
		squares += (x - l.middle) * (x - l.middle)
	}
	for i, y := range heights {
		l.a = l.a.plus(1/float64(len(places)), y)
		l.b = l.b.plus((places[i]-l.middle)/squares, y)
	}
	return l
}

// line adds a line with unknown coefficients about the middle of places.
func (m *model) line(places []float64) line {
	return line{one(m.unknown(0)), one(m.unknown(0)), mean(places)}
}

// departures returns how far heights lie above a line.
func (l line) departures(places []float64, heights []sum) []sum {
	list := make([]sum, len(heights))
	for i, y := range heights {
		list[i] = y.plus(-1, l.at(places[i]))
	}
	return list
}

// extremes returns the index of the least and of the greatest of sums, two different
// ones even where all are equal.
func (s solved) extremes(list []sum) (least, most int) {
	for i := range list {
		if s.of(list[i]).Value < s.of(list[least]).Value {
			least = i
		}
		if s.of(list[i]).Value >= s.of(list[most]).Value {
			most = i
		}
	}
	return least, most
}

// places returns where the stations of a survey are.
func places(s *trade.Survey) []float64 {
	list := make([]float64, len(s.Stations))
	for i, station := range s.Stations {
		list[i] = station.At.Inside()
	}
	return list
}

// Growth is a straight line through figures of several days by least squares.
type Growth struct {
	Level  Found   // on the day 0
	Rate   Found   // per unit of time
	Cross  float64 // their covariance
	Uneven bool    // the figures do not lie on a line
}

// Growing returns the line through figures at times, each with its own uncertainty. It
// panics where all are of one time.
func Growing(times []float64, figures []Found) Growth {
	m := &model{}
	now := line{one(m.unknown(0)), one(m.unknown(0)), 0}
	for i, f := range figures {
		m.observe(misclosure{now.at(times[i]), -1, f.Value}, f.U)
	}
	s, err := m.solve()
	if err != nil {
		panic("survey: a line through figures of different days has no solution")
	}
	return Growth{s.of(now.a), s.of(now.b), s.covariance(now.a, now.b), s.misfits()}
}
