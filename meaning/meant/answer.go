package meant

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// opinion gathers what may have been meant by one size.
type opinion struct {
	p       map[int64]float64          // by value
	part    map[int64][systems]float64 // of p by system, for the wording
	stated  float64                    // by the drawing
	noRound float64
}

func newOpinion() *opinion {
	return &opinion{p: map[int64]float64{}, part: map[int64][systems]float64{}}
}

// opinion returns what may have been meant by size i.
func (f *found) opinion(i int) *opinion {
	o := newOpinion()
	b := f.job.block[i]
	worlds := f.worlds(b)
	f.job.gatherStated(o, &f.job.blocks[b], worlds, i)
	f.job.gatherFollowed(o, &f.job.blocks[b], worlds, i)
	return o
}

// leader returns the value with the largest probability.
func (o *opinion) leader() (n int64, p float64) {
	for other, q := range o.p {
		if q > p || q == p && other < n {
			n, p = other, q
		}
	}
	return n, p
}

// answer returns what was meant by size i.
func (f *found) answer(i int) Size {
	a, o := &f.job.asked[i], f.opinion(i)
	size := Size{ID: a.size.ID, Tied: f.job.isTied(i), NoRound: max(0, o.noRound), Designer: min(1, o.stated), Decided: a.decided}
	size.Candidates = a.candidates(o)
	size.Tell = a.tell(size.Candidates)
	return size
}

// gatherStated adds the values of size i in the worlds where the drawing stated
// it.
func (j *job) gatherStated(o *opinion, b *block, worlds []worldPart, i int) {
	for w := range b.worlds {
		for k := range b.worlds[w].terms {
			t := &b.worlds[w].terms[k]
			if t.size != i {
				continue
			}
			o.stated += worlds[w].p
			o.noRound += worlds[w].parts[k][none]
			o.add(j.asked[i].values, t, worlds[w].parts[k])
		}
	}
}

// add shares the probability of each system out among its values.
func (o *opinion) add(values []value, t *term, parts [systems]float64) {
	for k, v := range values {
		part := o.part[v.n]
		for s, mass := range v.mass {
			if mass == 0 || t.weight[s] == 0 {
				continue
			}
			p := parts[s] * mass * t.density[k] / t.weight[s]
			part[s] += p
			o.p[v.n] += p
		}
		o.part[v.n] = part
	}
}

// least is the smallest probability that a candidate is kept for.
const least = 1e-5

// candidates lists the values that may have been meant, best first.
func (a *asked) candidates(o *opinion) []Candidate {
	var list []Candidate
	for n, p := range o.p {
		if p < least {
			continue
		}
		v := a.value(n)
		d := v.at - a.x
		list = append(list, Candidate{
			Text: a.text(v, o.part[n]), Value: v.at, P: min(1, p),
			Wear: a.scatter.worn(d), Off: a.off(d), Beyond: a.scatter.beyond(d),
		})
	}
	bestFirst(list)
	return list
}

func bestFirst(list []Candidate) {
	slices.SortFunc(list, func(x, y Candidate) int {
		return cmp.Or(cmp.Compare(y.P, x.P), cmp.Compare(x.Value, y.Value))
	})
}

// off returns what the surface has lost, d = n - x: where nothing wears, how
// much smaller than meant it is.
func (a *asked) off(d float64) float64 {
	if a.scatter.side < 0 {
		return 0 - d
	}
	return d
}

// value returns the round value at n.
func (a *asked) value(n int64) value {
	if i := slices.IndexFunc(a.values, func(v value) bool { return v.n == n }); i >= 0 {
		return a.values[i]
	}
	at := float64(n) / nanometres
	for _, v := range masses(at-0.5/nanometres, at+0.5/nanometres, a.members) {
		return v
	}
	return value{n: n, at: at}
}

// text writes a value as a drawing has it, in the system that gives it most of
// its probability.
func (a *asked) text(v value, part [systems]float64) string {
	if a.decided {
		return strings.TrimSpace(a.size.Meant)
	}
	inches := part[fractions]+part[decimals] > part[metric] && v.n != 0
	text := lengthText(v.n, inches)
	onGrid := slices.ContainsFunc(grids[:none], func(g grid) bool { return g.mass(v.n) > 0 })
	if v.name != "" && !onGrid {
		return fmt.Sprintf("%s (%s)", v.name, text)
	}
	return text
}

// lengthText writes a whole number of nanometres in inches or millimetres.
func lengthText(n int64, inches bool) string {
	den, u := int64(nanometres), unit.Millimetre
	if inches {
		den, u = inch, unit.Inch
	}
	q, err := unit.New(n, den, u)
	if err != nil {
		panic("meant: a length within reach has too many digits")
	}
	return q.String()
}

// contradictions warns where the readings contradict what the user decided.
func (j *job) contradictions() []unit.Text {
	var list []unit.Text
	for _, a := range j.asked {
		if !a.decided {
			continue
		}
		d := a.values[0].at - a.x
		if beyond := a.scatter.beyond(d); beyond > contradicted {
			list = append(list, unit.Say("%s: meant to be %s, but it was found %s %s, %.1f standard deviations off with making, wear and reading counted; keep it only if you know why",
				a.size.ID, strings.TrimSpace(a.size.Meant), unit.LengthOf(math.Abs(d)), than(d), beyond))
		}
	}
	return list
}

// contradicted is how many standard deviations contradict a decision: as for
// a reading, α = 0.001.
const contradicted = 3.29

func than(d float64) string {
	if d > 0 {
		return "smaller"
	}
	return "larger"
}

// inOrder puts the answers in the order of the job's sizes.
func inOrder(r *adjust.Result, list []Size) []Size {
	place := map[string]int{}
	for i, s := range r.Sizes {
		place[s.ID] = i
	}
	slices.SortStableFunc(list, func(a, b Size) int { return cmp.Compare(place[a.ID], place[b.ID]) })
	return list
}
