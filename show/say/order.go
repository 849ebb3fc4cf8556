package say

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// order says the order of work, and where the written one does not do why, what to do
// instead, or what waits for what.
func (p *settingUp) order() {
	o := p.plan.Order
	if len(o.Turns) == 0 {
		return
	}
	p.section("Order of work")
	switch {
	case o.Written:
		p.say("As it is written; no operation needs a machine that is in pieces then.")
	case o.Works():
		p.say("%s", warning(doc.Say("As it is written it does not work: %s cannot be done then: %s. This order does, and is the nearest to it:",
			o.Broken.Operation.ID, o.Broken.Why)))
	case o.Untried:
		p.say("%s", alarm(doc.Say("As it is written it does not work: %s cannot be done then: %s. There are too many other orders to try them all: "+
			"write what the operations need (needs: [...]).", o.Broken.Operation.ID, o.Broken.Why)))
	default:
		p.say("%s", alarm(doc.Plain("No order works: each of these waits for another, or for a machine that is in pieces. "+
			"What follows is as it is written.")))
	}
	p.turns(o)
	p.deadlock(o)
}

// turns lists the operations in their order.
func (p *settingUp) turns(o *plan.Order) {
	t := &doc.Table{Name: "order", Columns: []doc.Column{
		{Name: "number"}, plain("operation"), plain("on"), plain("after"), plain("in pieces meanwhile"), plain("written as"),
	}}
	for i, turn := range o.Turns {
		row := doc.Cells{
			"number": doc.Say("%d.", i+1), "operation": doc.Plain(turn.Operation.ID), "on": doc.Plain(turn.Operation.On),
			"after": doc.Plain(strings.Join(turn.After, ", ")), "in pieces meanwhile": doc.Plain(strings.Join(turn.Apart, ", ")),
		}
		if !o.Written && o.Works() && turn.Number != i+1 {
			row["written as"] = doc.Say("number %d", turn.Number)
		}
		t.Add(row)
	}
	p.Add(t.Filled())
}

// deadlock says what waits for what, and the ways round.
func (p *settingUp) deadlock(o *plan.Order) {
	if len(o.Stuck) == 0 {
		return
	}
	for i, w := range o.Stuck {
		item := doc.Item(alarm(doc.Say("%s waits: %s.", w.Operation.ID, w.Why)))
		if i == 0 {
			item.Space = doc.Apart
		}
		p.Add(item)
	}
	if len(o.Ways) == 0 {
		p.say("No machine in pieces is the cause, so that none put back is a way round: see what the operations need.")
		return
	}
	if o.Together {
		p.headed("Ways round; one is wanted for each of these machines:")
	} else {
		p.headed("Ways round, of which one is enough:")
	}
	for i := range o.Ways {
		for _, text := range wayRound(&o.Ways[i]) {
			p.item("%s", text)
		}
	}
}

// wayRound says how a machine can be done without, or helped up.
func wayRound(w *plan.WayRound) []string {
	what, operations := "the "+w.Machine, operationIDs(w.Operations)
	var list []string
	if len(w.Instead) > 0 {
		list = append(list, fmt.Sprintf("Another machine: %s on the %s instead of %s, if it has the reach and takes the tools.",
			operations, strings.Join(w.Instead, " or the "), what))
	}
	return append(list,
		fmt.Sprintf("A temporary part: make one that only has to last for %s, of what is at hand, and run %s with it, lightly.", operations, what),
		fmt.Sprintf("The old part put back: if it is whole enough to run, put it into %s again for %s, and take it out after.", what, operations),
		fmt.Sprintf("The order is then %s.", operationIDs(w.Order)))
}

func operationIDs(list []*trade.Operation) string {
	var ids []string
	for _, op := range list {
		ids = append(ids, op.ID)
	}
	return strings.Join(ids, ", ")
}
