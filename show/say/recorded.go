package say

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Version is one revision of a job in the record.
type Version struct {
	Number   int       `json:"revision"`
	When     time.Time `json:"when"`
	Who      string    `json:"who"`
	Note     string    `json:"note"`
	From     int       `json:"from"`
	Branch   int       `json:"branch"`   // 0: the main line
	Merges   int       `json:"merges"`   // 0: none
	Restores int       `json:"restores"` // 0: none
}

// RecordedJob is a job as the record has it.
type RecordedJob struct {
	ID       string `json:"id"`
	Name     string `json:"job"`
	Machine  string `json:"machine"`
	Part     string `json:"part"`
	Revision int    `json:"revision"`
	OnShelf  int    `json:"on_shelf"`
	Branches []int  `json:"branches"`
	Example  bool   `json:"example"`  // it came with the program
	PutAway  bool   `json:"put_away"` // out of the lists
}

// Keeping is what became of a save.
type Keeping struct {
	Job       RecordedJob `json:"job"`
	Saved     Version     `json:"saved"`
	Unchanged bool        `json:"unchanged"`
	Later     []Version   `json:"saved_since"`
	Store     string      `json:"store"`
	Doubt     string      `json:"doubt,omitempty"` // why it can be found by less than it might be
}

// Finding is something found in the record: a job, or something in the kit.
type Finding struct {
	Job     *RecordedJob `json:"job,omitempty"`
	Kit     string       `json:"kit,omitempty"`
	Matched []string     `json:"matched"`
	Missing []string     `json:"missing"`
	Places  []string     `json:"places"`
}

// KitEntry is an instrument, a gauge piece or a machine of the shop.
type KitEntry struct {
	ID         string   `json:"id"`
	Class      string   `json:"class"`
	Kind       string   `json:"kind"`
	Size       string   `json:"size"` // of a piece, as written
	MM         *float64 `json:"mm"`   // the same in mm; nil for other things
	Tolerance  string   `json:"tolerance"`
	Calibrated string   `json:"calibrated"` // date, empty: not known
	Written    string   `json:"written"`    // the rest, as a job file has it
	Say        string   `json:"say"`
}

// ShelfEntry is what happened to parts made of a job.
type ShelfEntry struct {
	When     time.Time   `json:"when"`
	Who      string      `json:"who"`
	Revision int         `json:"revision"`
	Made     int         `json:"made"`
	Fitted   int         `json:"fitted"`
	Scrapped int         `json:"scrapped"`
	Place    string      `json:"place"`
	Drawing  string      `json:"drawing"`
	Material string      `json:"material"`
	How      string      `json:"how"`
	Better   string      `json:"better"`
	Sizes    []FinalSize `json:"sizes"`
}

// FinalSize is a size as it came out, as written and in mm.
type FinalSize struct {
	Name string  `json:"name"`
	Text string  `json:"text"`
	MM   float64 `json:"mm"`
}

// Recorded is a job of the record as it is told of.
func Recorded(j record.Job) RecordedJob {
	return RecordedJob{
		ID: j.ID, Name: j.Name, Machine: machineWords(j.Machine), Part: j.Part, Revision: j.Revision, OnShelf: j.OnShelf,
		Branches: append([]int{}, j.Branches...), Example: j.Example, PutAway: j.PutAway,
	}
}

// machineWords says which machine it is.
func machineWords(m trade.Machine) string {
	var parts []string
	for _, part := range []string{m.What, unlessNone(m.Built), m.Country} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, ", ")
}

func unlessNone(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

// about says in one line which job it is.
func (j RecordedJob) about() string {
	var parts []string
	for _, part := range []string{j.ID, j.Machine, j.Part, "revision " + strconv.Itoa(j.Revision)} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if j.Example {
		parts = append(parts, "example")
	}
	if j.PutAway {
		parts = append(parts, "put away")
	}
	return strings.Join(parts, " · ")
}

// minute writes a time as people of the shop read it.
func minute(t time.Time) string { return t.Format("2006-01-02 15:04") }

// standing says where a revision stands among the others.
func (v Version) standing() string {
	switch {
	case v.Branch != 0:
		return fmt.Sprintf("beside the main line, made from %d", v.From)
	case v.Merges != 0:
		return fmt.Sprintf("takes in %d", v.Merges)
	case v.Restores != 0:
		return fmt.Sprintf("brings back %d", v.Restores)
	}
	return ""
}

// onShelf says how many spares there are, and where.
func onShelf(n int, places []string) string {
	text := fmt.Sprintf("%d on the shelf", n)
	if len(places) > 0 {
		text += ": " + strings.Join(places, ", ")
	}
	return text
}
