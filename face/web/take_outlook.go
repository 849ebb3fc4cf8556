package web

import (
	"fmt"
	"math"
	"net/http"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// outlook is what would come of a reading that is being typed.
type outlook struct {
	Doubt []string // what speaks against it
	Tells []string // what it would tell
}

// checkTaking says what would come of a reading before it is saved. What is
// worked out for it is there at once when the same is saved.
func (s *takePages) checkTaking(w http.ResponseWriter, r *http.Request) error {
	v, t, err := s.typedTaking(r)
	if err != nil {
		return err
	}
	source, err := s.Record.Source(r.Context(), v.ID, t.From)
	if err != nil {
		return err
	}
	t.Check = s.outlook(t, source, personOf(r).Units)
	return s.showTaking(w, r, http.StatusOK, v, t)
}

// outlook works out a text with the reading in it, and says what is different.
// While the form is not filled in there is nothing to say.
func (s *takePages) outlook(t *taking, source []byte, units unit.Unit) *outlook {
	id, edited, err := s.written(t, source)
	if len(t.Wrong) > 0 {
		t.Wrong = t.misread()
		return &outlook{}
	}
	if err != nil {
		return &outlook{Doubt: untold(err)}
	}
	was, is := s.work(source, units), s.work(edited, units)
	if is.Found == nil {
		return &outlook{Doubt: saidShort(is.Faults)}
	}
	o := &outlook{}
	o.doubt(say.WordsOn(is.Job, is.Found, is.view()), is, id)
	if len(t.seen()) == 0 && t.Get("with") != goNoGo {
		o.foretell(was, is, id)
		return o
	}
	o.compare(was, is)
	return o
}

// misread is what is wrong with fields that have something in them: an empty one
// is not filled in yet.
func (t *taking) misread() map[string]string {
	list := map[string]string{}
	for field, words := range t.Wrong {
		if t.Get(field) != "" || field == "saw" && len(t.seen()) > 0 {
			list[field] = words
		}
	}
	return list
}

func saidShort(list trade.Faults) []string {
	var words []string
	for _, f := range list {
		words = append(words, f.Text)
	}
	return words
}

// doubt says what speaks against a reading: that it is suspect, or brings
// something else under suspicion, or that its set-up cannot be.
func (o *outlook) doubt(words *say.Words, is worked, id string) {
	for _, w := range is.Found.Result.Warnings {
		if w.Reading == id {
			o.Doubt = append(o.Doubt, w.Text.Shown(is.view()))
		}
	}
	for _, source := range words.Suspects() {
		if source.Kind == adjust.FromReading && source.ID == id {
			o.Doubt = append(o.Doubt, words.Suspect(source)...)
		}
	}
	for _, group := range is.Found.Result.Either {
		if slices.ContainsFunc(group, func(s adjust.Source) bool { return s.Kind == adjust.FromReading && s.ID == id }) {
			o.Doubt = append(o.Doubt, "It does not go with what was read before.")
		}
	}
}

// foretell says what an instrument would show that has not been read yet, where
// the sizes found tell.
func (o *outlook) foretell(was, is worked, id string) {
	if was.Found == nil {
		return
	}
	job := *was.Job
	job.Instruments, job.Pieces = is.Job.Instruments, is.Job.Pieces
	reading := *is.Job.Reading(id)
	if len(is.Job.Sizes) != len(was.Job.Sizes) || len(is.Job.Plans) != len(was.Job.Plans) || len(is.Job.Places) != len(was.Job.Places) {
		return
	}
	reading.Saw = nil
	job.Readings = append(slices.Clone(was.Job.Readings), reading)
	for _, p := range was.Found.Result.Prospects(&job) {
		if !math.IsNaN(p.Shows) {
			value, half := shown(p.Shows, adjust.Coverage95*p.Spread(), p.Reads(), was.view().Unit())
			o.Tells = append(o.Tells, fmt.Sprintf("It should show %s ± %s.", value, half))
		}
		for _, remark := range p.Remarks {
			o.Doubt = append(o.Doubt, remark.Text.Shown(is.view()))
		}
	}
}

// compare says which sizes the reading finds, moves, or makes surer.
func (o *outlook) compare(was, is worked) {
	for _, size := range is.Found.Result.Sizes {
		var before *adjust.Size
		if was.Found != nil {
			before = was.Found.Result.Size(size.ID)
		}
		if words := madeOf(before, size, is.view().Unit()); words != "" {
			o.Tells = append(o.Tells, words)
		}
	}
	if len(o.Tells) == 0 && len(o.Doubt) == 0 {
		o.Tells = []string{"It agrees, and changes next to nothing."}
	}
}

// movedBy is by how much of its own uncertainty a size must move, or that become
// less, to be spoken of.
const movedBy = 0.1

// madeOf says what a reading makes of a size.
func madeOf(before *adjust.Size, size adjust.Size, units unit.Unit) string {
	if !size.Determined {
		return ""
	}
	value, half := shown(size.Value, adjust.Coverage95*size.U, size.Dimension, units)
	if before == nil || !before.Determined {
		return fmt.Sprintf("%s is found: %s ± %s.", size.ID, value, half)
	}
	by := size.Value - before.Value
	_, was := shown(before.Value, adjust.Coverage95*before.U, size.Dimension, units)
	switch {
	case math.Abs(by) > adjust.Coverage95*before.U && before.U > 0:
		moved, _ := shown(math.Abs(by), 0.05*math.Abs(by), size.Dimension, units)
		return fmt.Sprintf("%s would be %s %s than the others say: %s ± %s.", size.ID, moved, largerOr(by > 0), value, half)
	case math.Abs(by) > movedBy*before.U, math.Abs(size.U-before.U) > movedBy*before.U:
		return fmt.Sprintf("%s: %s ± %s (± %s before).", size.ID, value, half, was)
	}
	return ""
}

func largerOr(larger bool) string {
	if larger {
		return "larger"
	}
	return "smaller"
}
