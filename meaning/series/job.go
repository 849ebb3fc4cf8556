package series

import (
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// JobThread is a thread of a job and what it may have been.
type JobThread struct {
	ID     string
	Left   bool
	Starts int
	Seen   ThreadSeen
	ThreadAnswer
}

// The usual wear and making where a job does not say, mm.
const (
	usualWear = 0.03
	usualMake = 0.03
)

// ThreadsOf returns what each thread of a job may have been, from the sizes that
// its readings gave. A size that cannot be found counts as not read, and what
// the sizes have in common is left out of account. A thread that the user
// decided on stands first, and is warned about where the readings contradict it.
func ThreadsOf(r *adjust.Result) []JobThread {
	var list []JobThread
	for i := range r.Job.Threads {
		t := &r.Job.Threads[i]
		seen := threadOf(r, t)
		j := JobThread{ID: t.ID, Left: t.Hand == trade.LeftHand, Starts: t.Starts, Seen: seen, ThreadAnswer: FindThread(seen)}
		j.decide(t.Meant)
		list = append(list, j)
	}
	return list
}

// threadOf gathers what a job found of a thread.
func threadOf(r *adjust.Result, t *trade.Thread) ThreadSeen {
	seen := ThreadSeen{
		Inside:    t.Surface == trade.Inside,
		Major:     foundSize(r, t.Major),
		Minor:     foundSize(r, t.Minor),
		Effective: foundSize(r, t.Effective),
		Pitch:     foundSize(r, t.Pitch),
		Angle:     foundSize(r, t.Angle),
		Wear:      usualWear,
		Make:      usualMake,
		Machine:   r.Job.Machine,
	}
	crests := t.Major
	if crests == "" || seen.Inside && t.Minor != "" {
		crests = t.Minor
	}
	if size := r.Job.Size(crests); size != nil {
		seen.Inside = seen.Inside || t.Surface == "" && size.Surface == trade.Inside
		seen.Wear = wearOf(size)
		if size.Make.Given() {
			seen.Make = size.Make.Inside()
		}
	}
	return seen
}

// foundSize returns a size of the job as a diameter, a pitch or an included
// angle: radii and half angles count double.
func foundSize(r *adjust.Result, id string) Measured {
	for _, s := range r.Sizes {
		if s.ID != id || !s.Determined {
			continue
		}
		double := 1.0
		if kind := r.Job.Size(id).Kind; kind == trade.Radius || kind == trade.HalfAngle {
			double = 2
		}
		return Measured{double * s.Value, double * s.U}
	}
	return Measured{}
}

func wearOf(s *trade.Size) float64 {
	switch s.Wear {
	case trade.NoWear:
		return 0
	case trade.HeavyWear:
		return heavyWear
	case trade.TypicalWear:
		return s.TypicalWear.Inside()
	}
	return usualWear
}

// decide puts the thread that the user decided on first.
func (j *JobThread) decide(meant string) {
	if meant == "" {
		return
	}
	for i, c := range j.Candidates {
		if sameName(c.Designation, meant) {
			c.Decided = true
			copy(j.Candidates[1:i+1], j.Candidates[:i])
			j.Candidates[0] = c
			return
		}
	}
	for _, t := range facts.Threads() {
		if sameName(t.Designation, meant) {
			c := Thread{Thread: t, Wear: j.Seen.crestLoss(t), Decided: true}
			j.Candidates = append([]Thread{c}, j.Candidates...)
			j.Warnings = append(j.Warnings, unit.Say("it was decided to be %s, but the readings make that less likely than 1 in %.0f", meant, 1/faintest))
			j.Warnings = append(j.Warnings, j.Seen.warnings(t, t.Designation+", as decided,")...)
			return
		}
	}
	j.Warnings = append(j.Warnings, unit.Say("it was decided to be %q, which is no thread of the tables: write it as they do, 7/16 BSW or M10x1", meant))
}

// sameName compares designations as people write them.
func sameName(a, b string) bool {
	plain := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }
	return plain(a) == plain(b)
}
