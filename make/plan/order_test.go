package plan_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// op writes an operation: its id, then on:, apart:, back: and needs: words.
func op(id string, words ...string) trade.Operation {
	o := trade.Operation{ID: id, Do: id}
	for _, word := range words {
		key, value, _ := strings.Cut(word, ":")
		switch key {
		case "on":
			o.On = value
		case "apart":
			o.Apart = value
		case "back":
			o.Back = value
		case "needs":
			o.Needs = slices.DeleteFunc(strings.Split(value, ","), func(id string) bool { return id == "" })
		}
	}
	return o
}

// workshop has two lathes, a mill and a drill.
func workshop(work ...trade.Operation) *trade.Job {
	return &trade.Job{Work: work, Shop: []trade.Machinery{
		{ID: "lathe", Kind: trade.Lathe}, {ID: "mill", Kind: trade.Mill}, {ID: "drill", Kind: trade.Drill},
	}}
}

func inOrder(o *plan.Order) string {
	var ids []string
	for _, t := range o.Turns {
		ids = append(ids, t.Operation.ID)
	}
	return strings.Join(ids, " ")
}

// TestOrderWork: orders worked out by hand (constructed).
func TestOrderWork(t *testing.T) {
	for name, c := range map[string]struct {
		work        []trade.Operation
		want        string // the order, or "" where there is none
		written     bool
		broken      string // what the written order fails at
		after       string // of the last operation
		apartBefore string // in the turn of the operation "use"
	}{
		"nothing": {want: "", written: true},
		"as written": {
			work: []trade.Operation{op("turn", "on:lathe"), op("strip", "apart:lathe"), op("mill", "on:mill"), op("refit", "back:lathe")},
			want: "turn strip mill refit", written: true, after: "mill",
		},
		"back and used at once": {
			work: []trade.Operation{op("strip", "apart:lathe"), op("refit", "back:lathe", "on:lathe")},
			want: "strip refit", written: true,
		},
		"the taking apart can wait": {
			work: []trade.Operation{op("strip", "apart:lathe"), op("turn", "on:lathe"), op("use", "on:mill"), op("refit", "back:lathe")},
			want: "turn strip use refit", broken: "turn: the lathe is in pieces from strip on, and refit, which puts it back, waits for turn",
			after: "use", apartBefore: "lathe",
		},
		"never put back": {
			work: []trade.Operation{op("strip", "apart:lathe"), op("turn", "on:lathe")},
			want: "turn strip", broken: "turn: the lathe is in pieces from strip on, and nothing puts it back",
		},
		"what has to wait stands behind": {
			work: []trade.Operation{
				op("strip", "apart:lathe", "needs:"), op("copy", "needs:strip"), op("face", "on:lathe", "needs:"), op("fit", "back:lathe", "needs:copy"),
			},
			want: "strip copy fit face", broken: "face: the lathe is in pieces from strip on, until fit",
		},
		"needs written later": {
			work: []trade.Operation{op("finish", "needs:harden"), op("turn", "on:lathe"), op("harden")},
			want: "turn harden finish", broken: "finish: it needs harden", after: "harden",
		},
		"twice apart": {
			work: []trade.Operation{op("a", "apart:mill"), op("b", "apart:mill", "needs:"), op("c", "back:mill", "needs:a")},
			want: "a c b", broken: "b: the mill is in pieces already, from a on, until c",
		},
	} {
		o := ordered(t, workshop(c.work...))
		if got := inOrder(o); got != c.want || o.Written != c.written || !o.Works() {
			t.Errorf("%s: order %q, as written %v, works %v; want %q, %v", name, got, o.Written, o.Works(), c.want, c.written)
			continue
		}
		if (o.Broken == nil) != c.written || o.Broken != nil && o.Broken.Operation.ID+": "+o.Broken.Why != c.broken {
			t.Errorf("%s: the written order fails at %+v, want %q", name, o.Broken, c.broken)
		}
		for i, turn := range o.Turns {
			if last := i == len(o.Turns)-1; last && c.after != "" && strings.Join(turn.After, " ") != c.after {
				t.Errorf("%s: the last is after %q, want %q", name, turn.After, c.after)
			}
			if turn.Operation.ID == "use" && strings.Join(turn.Apart, " ") != c.apartBefore {
				t.Errorf("%s: %q in pieces, want %q", name, turn.Apart, c.apartBefore)
			}
		}
	}
}

// TestDeadlock: what waits for what, and which ways round there are, by hand
// (constructed).
func TestDeadlock(t *testing.T) {
	for name, c := range map[string]struct {
		work     []trade.Operation
		stuck    string
		ways     []string
		together bool
	}{
		"its own part": {
			work:  []trade.Operation{op("strip", "apart:drill"), op("copy", "needs:strip"), op("bore", "on:drill"), op("refit", "back:drill")},
			stuck: "bore: the drill is in pieces from strip on, and refit, which puts it back, waits for bore; refit: it needs bore",
			ways:  []string{"drill: bore; mill lathe; strip copy bore refit"},
		},
		"no other": {
			work:  []trade.Operation{op("strip", "apart:lathe"), op("turn", "on:lathe", "needs:strip"), op("refit", "back:lathe")},
			stuck: "turn: the lathe is in pieces from strip on, and refit, which puts it back, waits for turn; refit: it needs turn",
			ways:  []string{"lathe: turn; ; strip turn refit"},
		},
		"the other is in pieces too": {
			work: []trade.Operation{
				op("strip", "apart:drill"), op("bore", "on:drill", "needs:strip"), op("open", "apart:mill", "needs:strip"), op("close", "back:mill", "needs:bore,open"), op("refit", "back:drill"),
			},
			stuck: "bore: the drill is in pieces from strip on, and refit, which puts it back, waits for bore; close: it needs bore; refit: it needs close",
			ways:  []string{"drill: bore; mill lathe; strip bore open close refit"},
		},
		"each waits for the other": {
			work: []trade.Operation{
				op("a", "apart:lathe"), op("b", "apart:mill"),
				op("c", "on:mill", "needs:a,b"), op("d", "back:lathe", "needs:c"), op("e", "on:lathe", "needs:a,b"), op("f", "back:mill", "needs:e"),
			},
			stuck: "c: the mill is in pieces from b on, until f; e: the lathe is in pieces from a on, until d; d: it needs c; f: it needs e",
			ways:  []string{"lathe: e; ; a b e f c d", "mill: c; ; a b c d e f"},
		},
		"both at once": {
			work: []trade.Operation{
				op("a", "apart:lathe"), op("b", "apart:drill"), op("c", "on:lathe", "needs:a,b"), op("d", "on:drill", "needs:a,b"), op("e", "back:lathe"), op("f", "back:drill"),
			},
			stuck: "c: the lathe is in pieces from a on, and e, which puts it back, waits for c; " +
				"d: the drill is in pieces from b on, and f, which puts it back, waits for d; e: it needs c, d; f: it needs e",
			ways:     []string{"lathe: c; ; a b c d e f", "drill: d; mill; a b c d e f"},
			together: true,
		},
	} {
		o := ordered(t, workshop(c.work...))
		var stuck, ways []string
		for _, w := range o.Stuck {
			stuck = append(stuck, w.Operation.ID+": "+w.Why)
		}
		for _, w := range o.Ways {
			ways = append(ways, fmt.Sprintf("%s: %s; %s; %s", w.Machine, names(w.Operations), strings.Join(w.Instead, " "), names(w.Order)))
		}
		if got := strings.Join(stuck, "; "); got != c.stuck || o.Works() || o.Broken == nil {
			t.Errorf("%s: stuck\n%s, want\n%s", name, got, c.stuck)
		}
		if !slices.Equal(ways, c.ways) || o.Together != c.together {
			t.Errorf("%s: ways round\n%q, want\n%q", name, ways, c.ways)
		}
	}
}

func names(list []*trade.Operation) string {
	var ids []string
	for _, o := range list {
		ids = append(ids, o.ID)
	}
	return strings.Join(ids, " ")
}

// TestOrderAgainstAllPermutations: an order is found exactly when one exists, with
// the fewest pairs turned round. What works is judged here by walking through, not
// by counting sets.
func TestOrderAgainstAllPermutations(t *testing.T) {
	found, stuck := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		job := anyWork(t)
		o := ordered(t, job)
		best := math.MaxInt
		order := make([]int, len(job.Work))
		for i := range order {
			order[i] = i
		}
		permutations(order, 0, func(order []int) {
			if walksThrough(job, order) {
				best = min(best, turnedPairs(order))
			}
		})
		if exists := best < math.MaxInt; exists != o.Works() {
			t.Fatalf("works %v, an order exists: %v", o.Works(), exists)
		}
		if !o.Works() {
			stuck++
			return
		}
		found++
		var got []int
		for _, turn := range o.Turns {
			got = append(got, turn.Number-1)
		}
		if !walksThrough(job, got) || turnedPairs(got) != best || o.Written != (best == 0) {
			t.Fatalf("order %v turns %d pairs, the best %d; as written %v", got, turnedPairs(got), best, o.Written)
		}
	})
	if found == 0 || stuck == 0 {
		t.Errorf("%d orders and %d deadlocks: the test has not seen both", found, stuck)
	}
}

// anyWork draws up to seven operations that all say what they need, without
// circles but not in the order in which they are written.
func anyWork(t *rapid.T) *trade.Job {
	n := rapid.IntRange(1, 7).Draw(t, "operations")
	rank := rapid.Permutation([]int{0, 1, 2, 3, 4, 5, 6}[:n]).Draw(t, "rank")
	some := []string{"", "lathe", "mill"}
	var work []trade.Operation
	for i := range n {
		o := trade.Operation{ID: fmt.Sprint("o", i), Needs: []string{}, On: rapid.SampledFrom(some).Draw(t, "on")}
		switch machine := rapid.SampledFrom(some).Draw(t, "machine"); rapid.IntRange(0, 2).Draw(t, "does") {
		case 1:
			o.Apart = machine
		case 2:
			o.Back = machine
		}
		for k := range n {
			if rank[k] < rank[i] && rapid.IntRange(0, 3).Draw(t, "needs") == 0 {
				o.Needs = append(o.Needs, fmt.Sprint("o", k))
			}
		}
		work = append(work, o)
	}
	return workshop(work...)
}

// walksThrough does the operations one by one.
func walksThrough(job *trade.Job, order []int) bool {
	done, apart := map[string]bool{}, map[string]bool{}
	for _, i := range order {
		o := &job.Work[i]
		for _, id := range o.Needs {
			if !done[id] {
				return false
			}
		}
		if o.Back != "" {
			if !apart[o.Back] {
				return false
			}
			apart[o.Back] = false
		}
		if apart[o.On] || apart[o.Apart] {
			return false
		}
		if o.Apart != "" {
			apart[o.Apart] = true
		}
		done[o.ID] = true
	}
	return true
}

func turnedPairs(order []int) int {
	pairs := 0
	for i := range order {
		for _, later := range order[i+1:] {
			if later < order[i] {
				pairs++
			}
		}
	}
	return pairs
}

// permutations calls try with every order of those from k on.
func permutations(order []int, k int, try func([]int)) {
	if k == len(order) {
		try(order)
		return
	}
	for i := k; i < len(order); i++ {
		order[k], order[i] = order[i], order[k]
		permutations(order, k+1, try)
		order[k], order[i] = order[i], order[k]
	}
}

// TestOrderOfMuchFreeWork: with more operations that need nothing than can be gone
// through it says so; where they are tied together sixty are nothing.
func TestOrderOfMuchFreeWork(t *testing.T) {
	work := []trade.Operation{op("strip", "apart:lathe", "needs:"), op("turn", "on:lathe", "needs:strip"), op("refit", "back:lathe", "needs:turn")}
	for i := range 20 {
		work = append(work, op(fmt.Sprint("free", i), "needs:"))
	}
	if o := ordered(t, workshop(work...)); !o.Untried || o.Works() || len(o.Turns) != len(work) {
		t.Errorf("untried %v, works %v, %d turns", o.Untried, o.Works(), len(o.Turns))
	}
	work = work[:1]
	for i := range 59 {
		work = append(work, op(fmt.Sprint("next", i), "on:lathe"))
	}
	if o := ordered(t, workshop(work...)); !o.Works() || o.Written || o.Turns[59].Operation.ID != "strip" {
		t.Errorf("works %v, as written %v, last %v", o.Works(), o.Written, o.Turns[59].Operation.ID)
	}
}

// TestTurnCautions: what is minded follows from what lies open, and to the torque
// that the job states.
func TestTurnCautions(t *testing.T) {
	job := workshop(op("strip", "apart:lathe"), op("mill", "on:mill"), op("grind", "on:grinder"), op("refit", "back:lathe"))
	job.Shop = append(job.Shop, trade.Machinery{ID: "grinder", Kind: trade.Grinder})
	o := ordered(t, job)
	for i, want := range []string{"Cover open slides", "see that the covers lie", "grinding grit", "the torque that the screws"} {
		wantText(t, o.Turns[i].Operation.ID, o.Turns[i].Cautions(job), want)
	}
	if list := ordered(t, workshop(op("mill", "on:mill"))).Turns[0].Cautions(job); len(list) > 0 {
		t.Errorf("nothing lies open, and yet %q", list)
	}
	torque, err := unit.ParseTorque("40 N m")
	if err != nil {
		t.Fatal(err)
	}
	job.Joints = []trade.Joint{{ID: "stud", Tighten: trade.Tighten{Torque: torque}}}
	wantText(t, "stated", o.Turns[3].Cautions(job), "stud to 40 N m")
}

// wantText asks that one of the texts says something.
func wantText(t *testing.T, name string, texts []string, want string) {
	t.Helper()
	if !slices.ContainsFunc(texts, func(text string) bool { return strings.Contains(text, want) }) {
		t.Errorf("%s: %q does not say %q", name, texts, want)
	}
}

// ordered returns the order of a job's work.
func ordered(t interface {
	Helper()
	Context() context.Context
	Fatal(args ...any)
}, job *trade.Job,
) *plan.Order {
	t.Helper()
	o, err := plan.OrderWork(t.Context(), job)
	if err != nil {
		t.Fatal(err)
	}
	return o
}
