package report

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/plan"
)

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
