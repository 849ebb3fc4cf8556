package inspect

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Apart is what the readings of the bare old part changed.
type Apart struct {
	Found   *adjust.Result // with them
	Dropped []string       // first readings that contradict those of the bare part, which are believed
	Changes []Change       // sizes that these tell more of
	Next    []NextTime
}

// Change is one size before and after. The first readings are among those behind
// the joint adjustment of all of them, so that what it changes has the variance
// before less that after; where first readings are dropped, the change to what the
// others give is as many of its standard uncertainties.
type Change struct {
	Size       adjust.Size // after
	Before, UB float64     // NaN where it was not found
	Off        float64     // after less before
	U          float64     // standard uncertainty of that
	Wrong      bool        // more than chance explains in 95 %: the first inference was not right
}

// NextTime is a size of the part that would now be made otherwise.
type NextTime struct {
	Then *fit.Made // what was said first
	Now  *fit.Made
}

// takeApart joins the readings of the bare old part with the first ones.
func (p *proof) takeApart(tables meant.Tables) error {
	p.made = p.Made
	job := *p.Job
	for i := range p.Job.Checks {
		if c := &p.Job.Checks[i]; c.Old && taken(c) {
			job.Readings = append(job.Readings[:len(job.Readings):len(job.Readings)], c.Reading)
		}
	}
	if len(job.Readings) == len(p.Job.Readings) {
		return nil
	}
	joint, err := adjust.Adjust(&job)
	if err != nil {
		return err
	}
	p.Apart = &Apart{Found: joint, Dropped: p.contradicted(joint)}
	found := joint
	if len(p.Apart.Dropped) > 0 {
		if found, err = adjust.Adjust(without(&job, p.Apart.Dropped)); err != nil {
			return err
		}
		p.Apart.Found = found
	}
	for _, s := range found.Sizes {
		if c := change(p.Made.Found.Size(s.ID), joint.Size(s.ID), s); s.Determined && !(c.U <= untold*c.UB) {
			p.Apart.Changes = append(p.Apart.Changes, c)
		}
	}
	if p.Job.Part == nil {
		return nil
	}
	if p.made, err = fit.Seeded(p.ctx, found, meant.Round(found, tables), p.seed); err != nil {
		return err
	}
	p.nextTime()
	return nil
}

// untold is the part of a size's uncertainty by which readings must be able to
// change it to be said to tell of it.
const untold = 0.01

func change(before, joint *adjust.Size, after adjust.Size) Change {
	c := Change{Size: after, Before: nan, UB: nan, Off: nan, U: nan}
	if !before.Determined {
		return c
	}
	c.Before, c.UB = before.Value, before.U
	c.Off, c.U = joint.Value-before.Value, math.Sqrt(math.Abs(before.U*before.U-joint.U*joint.U))
	c.Wrong = math.Abs(c.Off) > half(c.U)
	if off := after.Value - before.Value; c.Off != 0 {
		c.Off, c.U = off, c.U*math.Abs(off/c.Off)
	}
	return c
}

// contradicted returns the first readings that contradict those of the bare part:
// they are suspect, or cannot be told from others that are, and were not before.
func (p *proof) contradicted(joint *adjust.Result) []string {
	var list []string
	add := func(id string) {
		first := p.Job.Reading(id) != nil
		if first && !slices.Contains(list, id) && suspectAmong(p.Made.Found, []string{id}) == "" {
			list = append(list, id)
		}
	}
	for _, v := range joint.Readings {
		if v.Suspect {
			add(v.ID)
		}
	}
	for _, group := range joint.Either {
		for _, source := range group {
			if source.Kind == adjust.FromReading {
				add(source.ID)
			}
		}
	}
	return list
}

// without returns the job with all values of some readings set aside.
func without(job *trade.Job, ids []string) *trade.Job {
	rest := *job
	rest.Readings = slices.Clone(job.Readings)
	for i := range rest.Readings {
		if r := &rest.Readings[i]; slices.Contains(ids, r.ID) {
			r.Saw = aside(r.Saw)
		}
	}
	return &rest
}

// nextTime finds what would now be made otherwise, by more than what is printed.
func (p *proof) nextTime() {
	for i := range p.made.Make {
		then, now := p.Made.Of(p.made.Make[i].Size.ID), &p.made.Make[i]
		least := shownLength
		if now.Size.Kind.Dimension() != unit.Length {
			least = shownAngle
		}
		if now.Determined && (!then.Determined || math.Abs(now.Target-then.Target) >= least) {
			p.Apart.Next = append(p.Apart.Next, NextTime{then, now})
		}
	}
}

// The least changes that are worth telling: what the bench can work to.
const (
	shownLength = 0.005 // mm
	shownAngle  = 1e-4  // rad
)
