package say

import (
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Simulation says how simulated sizes lie beside those worked out.
func Simulation(s *simulate.Simulation) *doc.Document {
	p := &page{}
	p.chapter("Simulated %d times (seed %d)", s.Trials, s.Seed)
	if len(s.Sizes) == 0 {
		p.say("There is no size to simulate.")
		return &p.Document
	}
	t := &doc.Table{Name: "simulated", Columns: []doc.Column{
		plain("size"),
		{Name: "worked out", Head: doc.Say("worked out, %s", unitName()), Within: within()},
		plain("on average"),
		{Name: "between", Head: doc.Plain("95 % of the times between")},
		{Name: "remark"},
	}}
	agree := true
	for i := range s.Sizes {
		size := &s.Sizes[i]
		agree = agree && RemarkOn(size.Moved()) == Agrees
		t.Add(simulatedRow(size))
	}
	p.Add(t)
	p.truer(s, agree)
	return &p.Document
}

func simulatedRow(s *simulate.Size) doc.Cells {
	low, high := s.Interval()
	remark := doc.Judged(doc.Good, Agrees)
	if told := RemarkOn(s.Moved()); told != Agrees {
		remark = doc.Judged(doc.Doubtful, told)
	}
	return doc.Cells{
		"size": size(s.ID), "worked out": doc.Show(measured(s.Straight.Value, s.Straight.U, s.Dimension)),
		"on average": doc.Show(asFine{s, s.Mean}), "between": doc.Say("%s and %s", asFine{s, low}, asFine{s, high}), "remark": remark,
	}
}

// Agrees is the remark on a simulated interval that lies where the other does.
const Agrees = "agrees"

// RemarkOn says how a simulated interval lies beside the other, given which way its
// ends have moved.
func RemarkOn(low, high int) string {
	switch [2]int{low, high} {
	case [2]int{0, 0}:
		return Agrees
	case [2]int{1, -1}:
		return "narrower"
	case [2]int{-1, 1}:
		return "wider"
	case [2]int{1, 1}:
		return "higher"
	case [2]int{-1, -1}:
		return "lower"
	case [2]int{0, 1}:
		return "reaches higher"
	case [2]int{-1, 0}:
		return "reaches lower"
	case [2]int{1, 0}:
		return "reaches less low"
	}
	return "reaches less high"
}

// truer says which of the two intervals to believe.
func (p *page) truer(s *simulate.Simulation, agree bool) {
	if agree {
		p.apart("What was worked out holds.")
	} else {
		p.apart("Where they differ, the simulated interval is the truer one: it takes tolerances as limits that nothing passes, " +
			"and formulas as bent as they are.")
	}
	if s.Failed > 0 {
		p.say("%s", warning(doc.Say("%d of the %d times there was no such set-up: they are left out, and the true intervals are longer.",
			s.Failed, s.Trials)))
	}
}

// asFine is an amount of a size, to the decimals of the uncertainty worked out.
type asFine struct {
	s *simulate.Size
	x float64
}

// Shown writes the amount without its uncertainty.
func (a asFine) Shown(v unit.View) string {
	value, _ := measured(a.x, a.s.Straight.U, a.s.Dimension).Parts(v)
	return value
}
