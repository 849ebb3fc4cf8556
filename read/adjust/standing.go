package adjust

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"codeberg.org/oddleg/oddleg/read/gauge"
)

// standing is what stands behind a reading: the redundancy of an error that all
// its values share, the least redundancy of one value, and what would show that
// the reading is wrong.
type standing struct {
	together, alone float64
	check           Check
}

// stands frees redundancies of rounding and says what they amount to.
func stands(together, alone float64) standing {
	s := standing{together: together, alone: alone, check: checkFrom(together, alone)}
	if s.check != OthersCheck {
		s.together = 0
	}
	return s
}

// least returns the weaker of both.
func (s standing) least(other standing) standing {
	return standing{min(s.together, other.together), min(s.alone, other.alone), min(s.check, other.check)}
}

// standing returns what stands behind a reading of the result.
func (o *outlook) standing(reading string) standing {
	values := o.members[reading]
	together, alone := o.commonRedundancy(values)
	return stands(together, alone)
}

// leastShare is the part of a size's variance from which on a reading counts
// among those that settle it.
const leastShare = 0.01

// Standing says what would then show a wrong reading among those that settle a
// size or place, and the redundancy of the weakest of them: of an error that
// all its values share, 0 where nothing else would show it, 1 where all of it
// would show.
func (p *Prospect) Standing(id string) (check Check, weakest float64) {
	s := p.weakest(id)
	return s.check, s.together
}

// weakest returns the least that stands behind a reading which settles a size
// or place.
func (p *Prospect) weakest(id string) standing {
	weakest := stands(1, 1)
	for _, j := range p.base.columnsOf(id) {
		enough := leastShare * p.variance(j)
		gain := p.gain(j)
		for _, reading := range p.settling(j, gain, enough) {
			if p.part(j, gain, reading) > enough {
				weakest = weakest.least(p.behind(reading))
			}
		}
		if p.forward != nil && math.Pow(gain*p.forward.sigma.ofOne(), 2) > enough {
			weakest = weakest.least(p.behindItself())
		}
	}
	return weakest
}

// stake is the part of an unknown's variance that comes from a reading as it is.
type stake struct {
	reading string
	part    float64
}

// settling returns readings of the result, those among them from which more than
// enough of the variance of unknown j would come. With f the influence of a
// reading's values on j as it is and s what they show of the one to come, that is
// |f - g·s|², and |s|² is at most the variance of what the reading should show.
func (p *Prospect) settling(j int, gain, enough float64) []string {
	all := p.base.sharesOf(j)
	far := len(all)
	if left := math.Sqrt(enough) - math.Abs(gain)*math.Sqrt(p.own.Variance()); left > 0 {
		far = sort.Search(len(all), func(i int) bool { return all[i].part <= left*left })
	}
	list := make([]string, far)
	for i := range list {
		list[i] = all[i].reading
	}
	return list
}

// sharesOf returns the shares of all readings in the variance of unknown j,
// largest first.
func (o *outlook) sharesOf(j int) []stake {
	list, known := o.settled[j]
	if known {
		return list
	}
	for reading, values := range o.members {
		s := stake{reading: reading}
		for _, k := range values {
			influence := o.InfluenceOf(k, j)
			s.part += influence * influence
		}
		list = append(list, s)
	}
	slices.SortFunc(list, func(a, b stake) int { return cmp.Or(cmp.Compare(b.part, a.part), cmp.Compare(a.reading, b.reading)) })
	o.settled[j] = list
	return list
}

// part returns the part of the variance of unknown j, on which the reading to come
// has this gain, that would come from a reading of the result.
func (p *Prospect) part(j int, gain float64, reading string) float64 {
	sum := 0.0
	for _, k := range p.base.members[reading] {
		moved := p.base.InfluenceOf(k, j) - gain*p.seen(k)
		sum += moved * moved
	}
	return sum
}

// behind returns what would stand behind a reading of the result: an
// observation i gains (a_i·q)²/e in redundancy from one that the others
// foretell, and nothing from one that closes a direction.
func (p *Prospect) behind(reading string) standing {
	now := p.base.behind[reading]
	if p.along != nil {
		return now
	}
	values := p.base.members[reading]
	common, alone := 0.0, 1.0
	for _, k := range values {
		seen := p.seen(k)
		common += seen
		alone = min(alone, p.base.Redundancy[k]+seen*seen/p.e)
	}
	return stands(now.together+common*common/p.e/float64(len(values)), alone)
}

// behindItself returns what would stand behind the reading itself, σ²/e.
func (p *Prospect) behindItself() standing {
	if p.along != nil {
		return stands(0, 0)
	}
	s := p.forward.sigma.ofOne()
	return stands(s*s/p.e, s*s/p.e)
}

// judge asks the method whether the set-up can be.
func (p *Prospect) judge() {
	m := p.forward.method
	if m.Valid == nil {
		return
	}
	values := p.forward.roles(p.base.x)
	p.Remarks = m.Valid(values)
	p.Broken = broken(p.Remarks)
	for i, half := range p.halfWidths() {
		for _, end := range []float64{-half, half} {
			if half > 0 && !p.Broken {
				at := slices.Clone(values)
				at[i] += end
				p.Broken = broken(m.Valid(at))
			}
		}
	}
}

// halfWidths returns the 95 % half widths of what stands in the roles, 0 for
// what is exact or not determined.
func (p *Prospect) halfWidths() []float64 {
	o := p.base
	list := make([]float64, len(p.forward.arguments))
	for i, a := range p.forward.arguments {
		if a.distance {
			continue
		}
		column := p.forward.slots[a.slot].column
		if column >= 0 && o.home[column] >= 0 && o.Determined(o.home[column]) {
			list[i] = Coverage95 * math.Abs(a.factor) * o.u(o.home[column])
		}
	}
	return list
}

func broken(remarks []gauge.Remark) bool {
	return slices.ContainsFunc(remarks, func(r gauge.Remark) bool { return r.Broken })
}

// Checked says what would show that a reading is wrong, NothingChecks for one
// that has no value in use.
func (r *Result) Checked(reading string) Check { return r.found.checks[reading] }
