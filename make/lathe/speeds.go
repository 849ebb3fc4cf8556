package lathe

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// CutWanted is a cut whose speed is sought.
type CutWanted struct {
	Material  string
	Operation string    // "turning", "drilling" ...; empty: turning
	Tool      string    // "HSS", "carbide", "carbon-steel"; empty: HSS
	Diameter  float64   // of the work that turns, or of the cutter, mm
	Spindle   []float64 // speeds of the machine, rev/min; empty: not known
}

// CutSpeeds are speeds to start with: no standard stands behind any of them.
type CutSpeeds struct {
	Wanted   CutWanted
	CountsAs string      // what the tables of speeds call the material
	Rows     []SpeedRow  // of the tables, slowest first
	Start    float64     // the slowest of them, rev/min
	Set      float64     // nearest lower speed of the machine, rev/min, or its lowest; 0: not known
	Feed     *FeedCustom // nil where no custom is known
	Warnings []string
}

// SpeedRow is a row of the tables and what it comes to, in rev/min.
type SpeedRow struct {
	facts.CuttingSpeed
	Slow, Fast float64
}

// RPM returns the speed of the spindle at which a diameter in mm has so many
// m/min at its edge: 1000·v/(π·d), in rev/min.
func RPM(speed, diameter float64) float64 { return 1000 * speed / (math.Pi * diameter) }

// Speeds looks up at what speed to start. A material of the strength tables
// counts as the one of the tables of speeds that it is most like. It is an error
// where these have no such material, or not with that tool and operation.
func Speeds(wanted CutWanted) (*CutSpeeds, error) {
	if !(wanted.Diameter > 0) || math.IsInf(wanted.Diameter, 1) {
		return nil, fmt.Errorf("a diameter greater than 0 is wanted")
	}
	stuff, err := stuffOf(wanted.Material)
	if err != nil {
		return nil, err
	}
	wanted.Operation = operationOf(wanted.Operation)
	wanted.Tool = toolOf(wanted.Tool)
	s := &CutSpeeds{Wanted: wanted, CountsAs: stuff.name}
	s.Rows = rowsFor(stuff, wanted)
	if len(s.Rows) == 0 {
		return nil, fmt.Errorf("the tables have no speed for %s of %s with %s tools; they have %s",
			wanted.Operation, stuff.name, wanted.Tool, strings.Join(known(stuff), ", "))
	}
	s.Start = s.Rows[0].Slow
	s.Feed = feedFor(wanted.Operation)
	s.choose()
	return s, nil
}

// choose takes the machine's nearest speed that is not above the start.
func (s *CutSpeeds) choose() {
	const rounding = 1e-9
	for _, speed := range s.Wanted.Spindle {
		if speed <= s.Start*(1+rounding) {
			s.Set = max(s.Set, speed)
		}
	}
	if s.Set == 0 && len(s.Wanted.Spindle) > 0 {
		s.Set = slices.Min(s.Wanted.Spindle)
		s.Warnings = append(s.Warnings, "Even the machine's lowest speed is faster than this: take a lighter cut, or a tool that stands more.")
	}
}

func rowsFor(stuff stuff, wanted CutWanted) []SpeedRow {
	var list []SpeedRow
	for _, row := range facts.CuttingSpeeds() {
		if slices.Contains(stuff.rows, row.Material) && row.Tool == wanted.Tool && strings.Contains(row.Operation, wanted.Operation) {
			list = append(list, SpeedRow{row, RPM(row.Low, wanted.Diameter), RPM(row.High, wanted.Diameter)})
		}
	}
	slices.SortStableFunc(list, func(a, b SpeedRow) int { return cmp.Compare(a.Low, b.Low) })
	return list
}

// known lists what the tables have of a material.
func known(stuff stuff) []string {
	var list []string
	for _, row := range facts.CuttingSpeeds() {
		said := row.Operation + " with " + row.Tool
		if slices.Contains(stuff.rows, row.Material) && !slices.Contains(list, said) {
			list = append(list, said)
		}
	}
	return list
}

// operationOf returns the word of the tables for an operation.
func operationOf(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	switch text {
	case "", "boring", "facing", "parting", "turn":
		return "turning"
	case "screwcutting", "thread", "threading, single point":
		return "threading"
	case "drill":
		return "drilling"
	case "mill":
		return "milling"
	case "ream":
		return "reaming"
	case "tap":
		return "tapping"
	}
	return text
}

// toolOf returns the word of the tables for what a tool is made of.
func toolOf(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	switch text {
	case "", "hss":
		return "HSS"
	case "carbon-steel", "carbon steel", "carbon":
		return "carbon or early HSS"
	}
	return text
}

// FeedCustom is a feed of the trade (common practice, no source): for one turn of
// the spindle, in mm, or in parts of the drill's diameter, or for each tooth.
type FeedCustom struct {
	Operation string
	Low, High float64
	Of        FeedOf
}

// FeedOf says what a feed is counted in.
type FeedOf uint8

// What feeds are counted in.
const (
	PerTurn     FeedOf = iota // mm
	PerDiameter               // a turn, in parts of the diameter
	PerTooth                  // mm
)

var feeds = []FeedCustom{
	{"turning", 0.05, 0.25, PerTurn},
	{"drilling", 0.01, 0.02, PerDiameter},
	{"reaming", 0.02, 0.04, PerDiameter},
	{"milling", 0.02, 0.08, PerTooth},
}

func feedFor(operation string) *FeedCustom {
	for _, f := range feeds {
		if f.Operation == operation {
			return &f
		}
	}
	return nil
}
