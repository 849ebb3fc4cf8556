package trade

import (
	"slices"
	"time"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Survey is one look at how far a machine has worn, or at how true it stands.
type Survey struct {
	ID       string // "survey 1" where none is written
	Kind     SurveyKind
	Of       string    // which screw or slide: those of one kind and of one thing show a trend
	Date     time.Time // the day, at midnight UTC
	With     string    // id of the instrument
	Within   unit.Quantity
	Figures  []SurveyFigure
	Stations []Station // by place, rising
	Rollers  []RollerReading
	Say      string
	Pos      Pos
}

// SurveyFigure is what stands under one key of a survey: a word, the id of an
// instrument, or values. What is stated is one value, a reading one or several.
type SurveyFigure struct {
	Key    string
	Word   string
	Values []unit.Quantity
}

// Station is a place along a slide or screw and what was read there.
type Station struct {
	At  unit.Quantity
	Saw []unit.Quantity
	Pos Pos
}

// RollerReading is one reading across a dovetail, over two rollers or between
// them, at a place along it. Raised is the height of the blocks under the rollers.
type RollerReading struct {
	At     unit.Quantity
	Roller Bound
	Raised unit.Quantity
	Saw    []unit.Quantity
	Pos    Pos
}

// Word returns the word under a key, or the word given where there is none.
func (s *Survey) Word(key, otherwise string) string {
	if f := s.figure(key); f != nil {
		return f.Word
	}
	return otherwise
}

// Values returns the values under a key, nil where there are none.
func (s *Survey) Values(key string) []unit.Quantity {
	if f := s.figure(key); f != nil {
		return f.Values
	}
	return nil
}

func (s *Survey) figure(key string) *SurveyFigure {
	i := slices.IndexFunc(s.Figures, func(f SurveyFigure) bool { return f.Key == key })
	if i < 0 {
		return nil
	}
	return &s.Figures[i]
}

// SurveyKind is what is looked at, and how.
type SurveyKind string
