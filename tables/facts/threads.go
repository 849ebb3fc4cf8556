package facts

import (
	_ "embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// FromMemory reports whether a row's source says that no second place was seen
// for some of its figures. What is shown of such a row says so too.
func FromMemory(source string) bool { return strings.Contains(source, "from memory") }

// optional returns a cell as a number, NaN where it is empty or holds words.
func (r row) optional(column string) float64 {
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

// The embedded tables of threads.
var (
	//go:embed threads.csv
	threads string
	//go:embed thread_forms.csv
	threadForms string
	//go:embed tapping.csv
	tapping string
)

// Thread is one screw thread of a standard series; a row does not depend on
// the hand.
type Thread struct {
	Family      string  // "BSW", "M-coarse" ...
	Designation string  // "7/16 BSW"
	Choice      string  // "first", "second" ... as the standard ranks it; mostly empty
	Major       float64 // basic major diameter, mm; of a taper thread at the gauge plane (NPT: outside of the pipe)
	Pitch       float64 // mm
	TPI         float64 // threads per inch, 0 where the standard states the pitch in mm
	Form        string  // key of ThreadForm
	Angle       float64 // included, rad
	Tapered     bool    // 1:16 on the diameter
	Standard    string
	Source      string
}

var readThreads = sync.OnceValue(func() []Thread {
	var list []Thread
	for _, r := range rows(threads) {
		t := Thread{
			Family:      r["family"],
			Designation: r["designation"],
			Choice:      r["choice"],
			Major:       r.number("major_mm"),
			Pitch:       r.number("pitch_mm"),
			Form:        r["form"],
			Angle:       r.degrees("included_angle_deg"),
			Tapered:     r["taper"] != "",
			Standard:    r["standard"],
			Source:      r["source"],
		}
		if r["major_unit"] == "in" {
			t.TPI = r.number("tpi")
			t.Pitch = unit.MillimetresPerInch / t.TPI // the table rounds it
		}
		list = append(list, t)
	}
	return list
})

// Threads returns every thread of the table.
func Threads() []Thread { return slices.Clone(readThreads()) }

// ThreadForm is the basic profile of a thread. Offsets are what to subtract
// from the major diameter, in pitches; NaN where the standard gives no plain
// multiple.
type ThreadForm struct {
	Form       string
	Angle      float64 // included, rad
	Effective  float64 // offset of the effective diameter
	MinorScrew float64 // offset of the screw's minor diameter
	MinorNut   float64 // offset of the nut's minor diameter
	Crest      string  // in words
	Standard   string
	Source     string
}

var readThreadForms = sync.OnceValue(func() []ThreadForm {
	var list []ThreadForm
	for _, r := range rows(threadForms) {
		// NPT's cell says in brackets which way its offset is measured.
		effective, _, _ := strings.Cut(r["pitch_dia_offset_over_P"], " (")
		r["pitch_dia_offset_over_P"] = effective
		list = append(list, ThreadForm{
			Form:       r["form"],
			Angle:      r.degrees("included_angle_deg"),
			Effective:  r.optional("pitch_dia_offset_over_P"),
			MinorScrew: r.optional("minor_ext_offset_over_P"),
			MinorNut:   r.optional("minor_int_offset_over_P"),
			Crest:      r["crest"],
			Standard:   r["standard"],
			Source:     r["source"],
		})
	}
	return list
})

// ThreadForms returns the profile of every form of thread.
func ThreadForms() []ThreadForm { return slices.Clone(readThreadForms()) }

// Tapping says how large a hole leaves how much thread: the drill for a part
// of the full engagement is d - Coefficient·P·part.
type Tapping struct {
	Form        string // a form, or several and in brackets which 100 % is meant
	Coefficient float64
	Source      string
}

var readTapping = sync.OnceValue(func() []Tapping {
	var list []Tapping
	for _, r := range rows(tapping) {
		list = append(list, Tapping{Form: r["form"], Coefficient: r.number("coefficient_at_100_percent"), Source: r["source"]})
	}
	return list
})

// TappingHoles returns the rule for tapping holes of every form.
func TappingHoles() []Tapping { return slices.Clone(readTapping()) }
