package lathe

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TaperWanted is a taper that is to be turned.
type TaperWanted struct {
	HalfAngle float64 // rad
	Length    float64 // of the taper, mm; 0: not known
	Between   float64 // length of the work between centres, mm; 0: not known
}

// TaperSetting is how a lathe is set for a taper, and how that is checked.
// Lengths are in mm, angles in rad.
type TaperSetting struct {
	Wanted      TaperWanted
	Swivel      float64 // of the top slide from the axis: the half angle
	PerLength   float64 // on the diameter, in parts of the length: 1/20 for 1:20
	SetOver     float64 // of the tailstock; NaN where the work's length is not known
	Check       float64 // travel over which the setting is checked
	ByCarriage  float64 // what a dial on the work moves while the carriage goes that far
	ByTopSlide  float64 // what it moves while the top slide goes that far along itself
	Sensitivity float64 // half angle for 0.01 mm of the dial in the check by the carriage
	Warnings    []string
}

// dialStep is the least that is read off a dial, mm.
const dialStep = 0.01

// What the ways of turning a taper bear.
const (
	// mostSetOver is the set-over in parts of the work's length beyond which its
	// centres bear on an edge (from memory of German tables for the trade).
	mostSetOver = 1.0 / 50
	// mostAttachment is how far taper attachments are graduated (common practice,
	// no source).
	mostAttachment = 10 * math.Pi / 180
	// usualCheck is the travel for the check where the taper is not shorter, mm.
	usualCheck = 100
)

// TaperPerLength returns the taper on the diameter in parts of the length, as a
// taper attachment may be graduated: 2·tan of the half angle.
func TaperPerLength(halfAngle float64) float64 { return 2 * math.Tan(halfAngle) }

// SetTaper works out the settings: the set-over is that of work of length L whose
// centre moves square to the bed,
//
//	L·sin θ
//
// for which the trade's rule takes half the taper, L·tan θ; to a dial the carriage
// gives travel·tan θ, the top slide travel·sin θ. The dial stands square to the
// axis and on centre height. It is an error where θ is not between 0 and 90°.
func SetTaper(wanted TaperWanted) (*TaperSetting, error) {
	half := wanted.HalfAngle
	if !(half > 0 && half < math.Pi/2) {
		return nil, fmt.Errorf("a half angle of %s is no taper: from 0 to 90° is wanted", unit.ShowAngle(half))
	}
	s := &TaperSetting{Wanted: wanted, Swivel: half, PerLength: TaperPerLength(half), SetOver: math.NaN(), Check: usualCheck}
	if wanted.Length > 0 {
		s.Check = min(s.Check, wanted.Length)
	}
	s.ByCarriage, s.ByTopSlide = s.Check*math.Tan(half), s.Check*math.Sin(half)
	s.Sensitivity = dialStep / s.Check * math.Cos(half) * math.Cos(half)
	if wanted.Between > 0 {
		s.SetOver = wanted.Between * math.Sin(half)
	}
	s.warn()
	return s, nil
}

func (s *TaperSetting) warn() {
	add := func(text string) { s.Warnings = append(s.Warnings, text) }
	if s.SetOver > mostSetOver*s.Wanted.Between {
		add("The tailstock would be set over by more than a fiftieth of the work's length: the centres bear on an edge and wear. Use the top slide or a taper attachment, or balls for centres.")
	}
	if s.Swivel > mostAttachment {
		add("Taper attachments seldom go as far as this: swivel the top slide.")
	}
}

// Tapers returns the tapers of a turned part that have to be set up for, from its
// left end: neither chamfers nor the cones of drills and centres. Inside ones come
// last.
func Tapers(t *part.Turned) []TaperWanted {
	var list []TaperWanted
	for _, segments := range [][]part.Segment{t.Segments, t.Bores} {
		for _, s := range segments {
			if s.Role != part.Body || s.Form != part.Plain || s.D0 == s.D1 || !(s.X1 > s.X0) {
				continue
			}
			half := math.Atan(math.Abs(s.D1-s.D0) / 2 / (s.X1 - s.X0))
			list = append(list, TaperWanted{HalfAngle: half, Length: s.X1 - s.X0, Between: t.Length})
		}
	}
	return list
}
