package report

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// What is listed of a size below the leader.
const (
	mostListed  = 4
	leastListed = 0.05
)

// noRound says that no candidate was meant.
func (p *printer) noRound(s *meant.Size) string {
	if p.r.Job.Size(s.ID).Kind.Dimension() == unit.Angle {
		return "no round angle"
	}
	return "no round size"
}

func (p *printer) chance(s *meant.Size, c meant.Candidate) string {
	if s.Decided {
		return "decided"
	}
	return percent(c.P)
}

// wrongWay is how many standard deviations a change may be beyond explanation
// before it is said that it is none.
const wrongWay = 2

// change says what has become of a size since, if this was meant: worn, or
// found larger or smaller.
func (p *printer) change(s *meant.Size, c meant.Candidate) string {
	size := p.r.Job.Size(s.ID)
	worn := wears(size)
	larger := (c.Off < 0) != (size.Surface == trade.Inside)
	off := p.small(math.Abs(c.Off), size.Kind.Dimension())
	switch {
	case worn && c.Off < 0 && c.Beyond > wrongWay:
		return fmt.Sprintf(", but found %s %s, which is no wear", off, largerOr(larger))
	case worn:
		if wear := p.small(c.Wear, unit.Length); wear != "" {
			return ", " + wear + " worn"
		}
		return ", unworn"
	case off != "":
		return fmt.Sprintf(", found %s %s", off, largerOr(larger))
	}
	return ""
}

// wears reports whether wear is thought to have changed a size.
func wears(size *trade.Size) bool {
	return size.Surface != "" && size.Surface != trade.NoSurface && size.Wear != "" && size.Wear != trade.NoWear
}

func largerOr(larger bool) string {
	if larger {
		return "larger"
	}
	return "smaller"
}

// small writes an amount of wear as far as it can be felt: a hundredth of a
// millimetre, a thou, a hundredth of a degree; nothing where it is less.
func (p *printer) small(x float64, d unit.Dimension) string {
	text := fmt.Sprintf("%.2f mm", x)
	switch {
	case d == unit.Angle:
		text = fmt.Sprintf("%.2f°", x*180/math.Pi)
	case p.units == unit.Inch:
		text = fmt.Sprintf("%.3f in", x/unit.MillimetresPerInch)
	}
	if strings.Trim(text, "0.°in m") == "" {
		return ""
	}
	return text
}

// inPicture is the probability from which a candidate has its place in a
// picture.
const inPicture = 0.02

// reachOf returns the range that a picture of a size shows: the reading's band
// and the candidates, and a little on either side.
func reachOf(s *meant.Size, found *adjust.Size) (low, high float64) {
	low, high = found.Low(), found.High()
	for i, c := range s.Likely() {
		if i == 0 || c.P >= inPicture {
			low, high = min(low, c.Value), max(high, c.Value)
		}
	}
	beside := max(0.08*(high-low), 1e-3)
	return low - beside, high + beside
}

// telling says how the leaders of a size can be told apart.
func (p *printer) telling(s *meant.Size, t *meant.Tell) string {
	start := fmt.Sprintf("%s: cannot tell %s from %s: ", s.ID, t.First, t.Second)
	other := "an unworn one"
	if !wears(p.r.Job.Size(s.ID)) {
		other = "another that was made to the same size"
	}
	switch {
	case math.IsNaN(t.U):
		return start + "no reading of this surface will tell; read " + other
	case t.U >= adjust.Coverage95*p.r.Size(s.ID).U:
		return start + "it was found between them, and a finer reading will hardly tell; read " + other
	}
	return fmt.Sprintf("%sread it to ±%s to separate these two", start, p.closely(t.U))
}

// closely writes an uncertainty to be reached, to two digits.
func (p *printer) closely(U float64) string {
	name := "mm"
	if p.units == unit.Inch {
		U, name = U/unit.MillimetresPerInch, "in"
	}
	_, text := unit.WithUncertainty(0, U)
	return text + " " + name
}
