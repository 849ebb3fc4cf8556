package inspect

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/strength"
)

// Caution is one thing to do or to mind in putting the machine together again.
type Caution struct {
	When CautionKind
	Text string
}

// CautionKind is to what part of the work a caution belongs.
type CautionKind string

// The parts of putting back, in their order.
const (
	BeforeHand CautionKind = "before"
	Together   CautionKind = "putting together"
	Afterwards CautionKind = "before it runs"
)

// putBack lists how the part is fitted and the machine put together: the order of
// the work where it says so, torques from the joints, and what the trade always
// does (common practice, no source). The machine's own book goes before all of it.
func (p *proof) putBack() {
	say := func(when CautionKind, format string, args ...any) {
		p.Back = append(p.Back, Caution{when, fmt.Sprintf(format, args...)})
	}
	say(BeforeHand, "The maker's book for the machine, and the rules of your shop and country, go before this list.")
	say(BeforeHand, "Isolate the machine: switch off at the isolator, lock it, keep the key, and try the start button. Let springs, weights and pressure down.")
	say(BeforeHand, "Lift what is too heavy or too awkward for one with tackle that is rated for it, and never stand or reach under it.")
	say(BeforeHand, "Deburr the part and stone its edges; wash it and its place; blow no air into slides and bearings. Look down every oil way.")
	say(BeforeHand, "Offer it up dry by hand first. What needs force here is wrong: find the face that bears with blue.")
	say(Together, "Oil every face that slides, and the threads if the torque is meant for oiled ones.")
	p.backInOrder(say)
	p.torques(say)
	say(Afterwards, "Put every guard back before power is on.")
	say(Afterwards, "Turn it over by hand through its whole travel; then run it slowly, and feel for heat after five minutes.")
	say(Afterwards, "Tighten again after the first hours of work, and write down what was done.")
}

type sayer func(when CautionKind, format string, args ...any)

// backInOrder takes the order from the work: what was taken apart last goes back
// first where nothing else is said.
func (p *proof) backInOrder(say sayer) {
	said := false
	for i := range p.Job.Work {
		if o := &p.Job.Work[i]; o.Back != "" {
			say(Together, "%s: this puts the %s back.", o.Do, o.Back)
			said = true
		}
	}
	if !said {
		say(Together, "What came off last goes on first; clean and look at each piece as it goes back.")
	}
}

// torques says how each joint is tightened.
func (p *proof) torques(say sayer) {
	for i := range p.Job.Joints {
		j := &p.Job.Joints[i]
		if !j.Stud.Given() {
			continue
		}
		switch {
		case j.Tighten.Torque.Given():
			say(Together, "Tighten %s to %s, in two steps, crosswise where there are several.", j.ID, strength.TorqueText(j.Tighten.Torque.Inside()))
		case j.Tighten.Preload.Given():
			say(Together, "Tighten %s to a preload of %s; `oddleg fit` has the torque.", j.ID, strength.ForceText(j.Tighten.Preload.Inside()))
		default:
			say(Together, "Tighten %s by hand only: the job states no torque for it.", j.ID)
		}
		if j.Holds != trade.NoDuty {
			say(Afterwards, "%s holds %s: have a second person look at it before it is used.", j.ID, dutyText[j.Holds])
		}
	}
}

var dutyText = map[trade.Duty]string{
	trade.HoldsWork: "work or a chuck", trade.Lifts: "what is lifted", trade.Pressure: "pressure", trade.Brakes: "a brake",
}
