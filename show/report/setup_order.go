package report

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/plan"
)

// order writes the order of work, and where the written one does not do why, what
// to do instead, or what waits for what.
func (p *settingUp) order() {
	o := p.plan.Order
	if len(o.Turns) == 0 {
		return
	}
	p.heading("Order of work")
	switch {
	case o.Written:
		p.paragraph("", "As it is written; no operation needs a machine that is in pieces then.")
	case o.Works():
		p.paragraph("", p.paint(yellow, fmt.Sprintf("As it is written it does not work: %s cannot be done then: %s. This order does, and is the nearest to it:", o.Broken.Operation.ID, o.Broken.Why)))
	case o.Untried:
		p.paragraph("", p.paint(red, fmt.Sprintf("As it is written it does not work: %s cannot be done then: %s. There are too many other orders to try them all: write what the operations need (needs: [...]).", o.Broken.Operation.ID, o.Broken.Why)))
	default:
		p.paragraph("", p.paint(red, "No order works: each of these waits for another, or for a machine that is in pieces. What follows is as it is written."))
	}
	p.turns(o)
	p.deadlock(o)
}

// turns writes the operations in their order.
func (p *settingUp) turns(o *plan.Order) {
	rows := [][]string{{"", "operation", "on", "after", "in pieces meanwhile", "written as"}}
	for i, t := range o.Turns {
		row := []string{count(i+1) + ".", t.Operation.ID, t.Operation.On, strings.Join(t.After, ", "), strings.Join(t.Apart, ", "), ""}
		if !o.Written && o.Works() && t.Number != i+1 {
			row[5] = "number " + count(t.Number)
		}
		rows = append(rows, row)
	}
	p.table(filled(rows))
}

// deadlock writes what waits for what, and the ways round.
func (p *settingUp) deadlock(o *plan.Order) {
	if len(o.Stuck) == 0 {
		return
	}
	p.line("")
	for _, w := range o.Stuck {
		p.paragraph("- ", p.paint(red, w.Operation.ID+" waits: "+w.Why+"."))
	}
	if len(o.Ways) == 0 {
		p.paragraph("", "No machine in pieces is the cause, so that none put back is a way round: see what the operations need.")
		return
	}
	said := "Ways round, of which one is enough:"
	if o.Together {
		said = "Ways round; one is wanted for each of these machines:"
	}
	p.line("\n  %s", p.paint(bold, said))
	for i := range o.Ways {
		for _, text := range wayTexts(&o.Ways[i]) {
			p.paragraph("- ", text)
		}
	}
}

// wayTexts says how a machine can be done without, or helped up.
func wayTexts(w *plan.WayRound) []string {
	what := "the " + w.Machine
	var list []string
	if len(w.Instead) > 0 {
		list = append(list, fmt.Sprintf("Another machine: %s on the %s instead of %s, if it has the reach and takes the tools.",
			operationIDs(w.Operations), strings.Join(w.Instead, " or the "), what))
	}
	return append(list,
		fmt.Sprintf("A temporary part: make one that only has to last for %s, of what is at hand, and run %s with it, lightly.", operationIDs(w.Operations), what),
		fmt.Sprintf("The old part put back: if it is whole enough to run, put it into %s again for %s, and take it out after.", what, operationIDs(w.Operations)),
		fmt.Sprintf("The order is then %s.", operationIDs(w.Order)))
}

func operationIDs(list []*trade.Operation) string {
	return strings.Join(idList(list), ", ")
}

// The JSON form of the order of work. For each machine a temporary part, or the
// old one put back, is a way round besides what is listed.
type (
	orderJSON struct {
		Works    bool       `json:"works"`
		Written  bool       `json:"as_written"`
		Untried  bool       `json:"too_many_to_try"`
		Turns    []turnJSON `json:"operations"`
		Broken   *waitJSON  `json:"written_order_fails"`
		Stuck    []waitJSON `json:"deadlock"`
		Ways     []wayJSON  `json:"ways_round"`
		Together bool       `json:"all_machines_wanted"`
	}
	turnJSON struct {
		ID      string   `json:"id"`
		Written int      `json:"written_as"` // from 1
		After   []string `json:"after"`
		Apart   []string `json:"in_pieces"`
	}
	waitJSON struct {
		ID      string `json:"id"`
		Machine string `json:"machine,omitempty"`
		Why     string `json:"why"`
	}
	wayJSON struct {
		Machine    string   `json:"machine"`
		Operations []string `json:"operations"`
		Instead    []string `json:"another_machine"`
		Order      []string `json:"order"`
	}
)

func orderToJSON(o *plan.Order) *orderJSON {
	out := &orderJSON{Works: o.Works(), Written: o.Written, Untried: o.Untried, Together: o.Together, Turns: []turnJSON{}, Stuck: []waitJSON{}, Ways: []wayJSON{}}
	for _, t := range o.Turns {
		out.Turns = append(out.Turns, turnJSON{t.Operation.ID, t.Number, listed(t.After), listed(t.Apart)})
	}
	if o.Broken != nil {
		broken := waitToJSON(*o.Broken)
		out.Broken = &broken
	}
	for _, w := range o.Stuck {
		out.Stuck = append(out.Stuck, waitToJSON(w))
	}
	for i := range o.Ways {
		w := &o.Ways[i]
		out.Ways = append(out.Ways, wayJSON{w.Machine, idList(w.Operations), listed(w.Instead), idList(w.Order)})
	}
	return out
}

func waitToJSON(w plan.Wait) waitJSON { return waitJSON{w.Operation.ID, w.Machine, w.Why} }

func idList(list []*trade.Operation) []string {
	ids := []string{}
	for _, op := range list {
		ids = append(ids, op.ID)
	}
	return ids
}
