package plan

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Cautions returns what to mind in a turn of the order of work about machines in
// pieces (common practice, no source): when one is taken apart, while it lies
// open, and when it is put back, to the torques that the job states.
func (t *Turn) Cautions(job *trade.Job) []string {
	var list []string
	op := t.Operation
	if op.Apart != "" {
		list = append(list,
			fmt.Sprintf("Isolate the %s before you open it. Mark how its pieces stand to each other, and keep screws, keys and shims with their places.", op.Apart),
			"Cover open slides, screws, nuts and bearings with clean cloth taped down and a board over it: swarf, grit and dropped pieces find every opening.")
	}
	list = append(list, t.openMeanwhile(job)...)
	if op.Back != "" {
		list = append(list,
			fmt.Sprintf("Before the %s goes together: wipe all of it out, never blow; stone off burrs; oil slides, screws, nuts and bearings. Count what comes out of it: rags, tools, screws.", op.Back),
			"Tighten crosswise and in steps, "+torques(job)+". Move every slide by hand over its whole travel before it runs under power, guards on, slowly first.")
	}
	return list
}

// openMeanwhile says what to mind where other machines lie open.
func (t *Turn) openMeanwhile(job *trade.Job) []string {
	m := job.Machinery(t.Operation.On)
	others := slices.DeleteFunc(slices.Clone(t.Apart), func(id string) bool { return id == t.Operation.On })
	if len(others) == 0 || m == nil {
		return nil
	}
	open := strings.Join(others, " and the ")
	if m.Kind == trade.Grinder {
		return []string{fmt.Sprintf("Meanwhile the %s lies open: grinding grit in slides is lasting harm, so grind far away or wrap it up tight.", open)}
	}
	return []string{fmt.Sprintf("Meanwhile the %s lies open: see that the covers lie before you cut, and carry no work over them.", open)}
}

// torques says to what screws are tightened.
func torques(job *trade.Job) string {
	var list []string
	for i := range job.Joints {
		if j := &job.Joints[i]; j.Tighten.Torque.Given() {
			list = append(list, fmt.Sprintf("%s to %v", j.ID, j.Tighten.Torque))
		}
	}
	if len(list) == 0 {
		return "to the torque that the screws and what they sit in bear"
	}
	return strings.Join(list, ", ")
}
