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

// The kinds of survey.
const (
	LostMotion   SurveyKind = "lost-motion"
	ScrewPitch   SurveyKind = "screw-pitch"
	Straightness SurveyKind = "straightness"
	SlidePlay    SurveyKind = "slide-play"
	TwoCollar    SurveyKind = "two-collar"
	TestBar      SurveyKind = "test-bar"
	Facing       SurveyKind = "facing"
	Ram          SurveyKind = "ram"
	Dovetail     SurveyKind = "dovetail"
)

// SurveyForm is what a survey of a kind is written with.
type SurveyForm struct {
	Kind     SurveyKind
	Title    string
	Keys     []SurveyKey
	Stations int  // the fewest that it needs; 0: it has none
	Rollers  bool // it is read with rollers
}

// SurveyKey is a key of a survey, for an angle, a length or pitch above 0, readings
// with the instrument, an instrument, or one of some words.
type SurveyKey struct {
	Name       string
	Sort       SurveySort
	Words      []string // of which it is one; the first where none is written
	Count      int      // of readings; 0: one or several
	Obligatory bool
	Say        string
}

// SurveySort is what stands under a key of a survey.
type SurveySort uint8

// The sorts.
const (
	SurveyLength SurveySort = iota
	SurveyAngle
	SurveyReadings
	SurveyInstrument
	SurveyWord
	SurveyPitch
)

// The words that say what a survey's readings show.
const (
	ReadsError  = "error"  // how much further the carriage went than the screw says
	ReadsTravel = "travel" // how far it went
	ReadsFeeler = "feeler" // the gap beside the gib, square to the flank
	ReadsSlide  = "dial"   // how far the slide moves sideways
	InChuck     = "chuck"
	OnCentres   = "centres"
	MaleSide    = "male"
	FemaleSide  = "female"
)

// SurveyForms lists every kind of survey.
var SurveyForms = []SurveyForm{
	{Kind: LostMotion, Title: "Lost motion of a screw", Stations: 3, Keys: []SurveyKey{
		{Name: "end-float", Sort: SurveyReadings, Say: "of the screw in its bearing, read apart"},
	}},
	{Kind: ScrewPitch, Title: "Pitch of a screw", Stations: 3, Keys: []SurveyKey{
		{Name: "pitch", Sort: SurveyPitch, Obligatory: true, Say: "as the dial of the screw takes it"},
		{Name: "reads", Sort: SurveyWord, Words: []string{ReadsError, ReadsTravel}, Say: "how much too far the slide went, or how far"},
	}},
	{Kind: Straightness, Title: "Straightness of a slide", Stations: 3, Keys: []SurveyKey{
		{Name: "reference", Say: "how true the straightedge is, ±"},
	}},
	{Kind: SlidePlay, Title: "Play of a slide and its gib", Stations: 2, Keys: []SurveyKey{
		{Name: "reads", Sort: SurveyWord, Words: []string{ReadsFeeler, ReadsSlide}, Say: "feelers square to the flank, or a dial sideways"},
		{Name: "angle", Sort: SurveyAngle, Say: "of the flank to the flat; not written: the gib stands upright"},
		{Name: "gib-near", Sort: SurveyReadings, Say: "thickness of the gib there is, at the first station"},
		{Name: "gib-far", Sort: SurveyReadings, Say: "the same at the last; not written: the gib is parallel"},
		{Name: "gib-with", Sort: SurveyInstrument, Say: "the instrument that read the gib"},
		{Name: "clearance", Say: "that is to be left"},
	}},
	{Kind: TwoCollar, Title: "Two collars turned", Keys: []SurveyKey{
		{Name: "near", Sort: SurveyReadings, Obligatory: true, Say: "diameter of the collar at the headstock"},
		{Name: "far", Sort: SurveyReadings, Obligatory: true, Say: "diameter of the other"},
		{Name: "apart", Obligatory: true, Say: "distance of the collars"},
		{Name: "held", Sort: SurveyWord, Words: []string{InChuck, OnCentres}, Say: "in the chuck alone, or between centres"},
	}},
	{Kind: TestBar, Title: "Test bar in the spindle", Keys: []SurveyKey{
		{Name: "up-near", Sort: SurveyReadings, Count: 2, Obligatory: true, Say: "dial on top of the bar at the nose; then half a turn on"},
		{Name: "up-far", Sort: SurveyReadings, Count: 2, Obligatory: true, Say: "the same at the bar's free end"},
		{Name: "side-near", Sort: SurveyReadings, Count: 2, Obligatory: true, Say: "dial on the front of the bar, spindle as before"},
		{Name: "side-far", Sort: SurveyReadings, Count: 2, Obligatory: true, Say: "the same at the free end"},
		{Name: "apart", Obligatory: true, Say: "distance of the two places"},
	}},
	{Kind: Facing, Title: "Facing across", Keys: []SurveyKey{
		{Name: "centre", Sort: SurveyReadings, Obligatory: true, Say: "dial on the cross slide, at the centre of the face"},
		{Name: "rim", Sort: SurveyReadings, Obligatory: true, Say: "at the rim on the side that was not cut against"},
		{Name: "across", Obligatory: true, Say: "from the one to the other"},
	}},
	{Kind: Ram, Title: "Ram to table", Stations: 2, Keys: []SurveyKey{
		{Name: "feet", Obligatory: true, Say: "distance of the feet or bolts where packing goes, along the travel"},
	}},
	{Kind: Dovetail, Title: "Dovetail over rollers", Rollers: true, Keys: []SurveyKey{
		{Name: "side", Sort: SurveyWord, Words: []string{MaleSide, FemaleSide}, Say: "the male is read over rollers, the female between"},
		{Name: "angle", Sort: SurveyAngle, Say: "of the flank to the flat; not written: two depths find it"},
	}},
}

// SurveyFormOf returns the form of a kind, nil where there is none.
func SurveyFormOf(kind SurveyKind) *SurveyForm {
	i := slices.IndexFunc(SurveyForms, func(f SurveyForm) bool { return f.Kind == kind })
	if i < 0 {
		return nil
	}
	return &SurveyForms[i]
}
