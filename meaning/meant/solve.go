package meant

import (
	"math"
	"slices"
)

// found is what the whole job says of everything that was unknown.
type found struct {
	job    *job
	points []point       // weights are those after the readings
	prior  []float64     // logarithms of the weights before
	logs   [][]float64   // of the likelihood
	parts  [][]worldPart // by block, worked out when first asked for
}

// worldPart is the probability of a world, and of each of its sizes having been
// meant in each system there.
type worldPart struct {
	p     float64
	parts [][systems]float64 // by term; each adds up to p
}

// solve sums over shares, systems, values, bases and shared errors.
func (j *job) solve() *found {
	degree := 0
	for _, b := range j.blocks {
		degree += len(b.bases[0].designers)
	}
	f := &found{job: j, points: simplex(j.prior, min(degree/2+1, mostNodes))}
	f.prior = make([]float64, len(f.points))
	for m, p := range f.points {
		f.prior[m] = math.Log(p.weight)
	}
	f.prune()
	for i := range j.blocks {
		f.logs = append(f.logs, f.logsOf(i))
	}
	f.weigh()
	return f
}

// prune drops the points that have next to no weight after the readings.
func (f *found) prune() {
	logs := slices.Clone(f.prior)
	for m := range f.points {
		logs[m] += f.job.logAt(&f.points[m].shares)
	}
	var kept []int
	for m, weight := range normalised(logs) {
		if weight > faint {
			kept = append(kept, m)
		}
	}
	f.points, f.prior = only(f.points, kept), only(f.prior, kept)
}

// logAt returns the logarithm of the likelihood of all blocks at these shares. Most
// points are dropped again, so that a logarithm is taken only of as large a product
// as a number holds.
func (j *job) logAt(shares *[systems]float64) float64 {
	const smallest, largest = 1e-150, 1e150
	sum, product := 0.0, 1.0
	for i := range j.blocks {
		at := j.blocks[i].at(shares)
		if next := product * at; smallest < next && next < largest {
			product = next
			continue
		}
		sum += math.Log(product) + math.Log(at)
		product = 1
	}
	return sum + math.Log(product)
}

// only returns some members of a list.
func only[T any](list []T, kept []int) []T {
	out := make([]T, len(kept))
	for i, k := range kept {
		out[i] = list[k]
	}
	return out
}

// again solves a job that differs from that of f in one block.
func (f *found) again(j *job, changed int) *found {
	g := &found{job: j, points: slices.Clone(f.points), prior: f.prior, logs: slices.Clone(f.logs)}
	g.logs[changed] = g.logsOf(changed)
	g.weigh()
	return g
}

// logsOf returns the logarithm of the likelihood of block i at every point.
func (f *found) logsOf(i int) []float64 {
	logs := make([]float64, len(f.points))
	for m := range f.points {
		logs[m] = math.Log(f.job.blocks[i].at(&f.points[m].shares))
	}
	return logs
}

// at returns the likelihood of a block at these shares.
func (b *block) at(shares *[systems]float64) float64 {
	sum := 0.0
	for i := range b.worlds {
		sum += b.worlds[i].at(shares)
	}
	return sum
}

func (w *world) at(shares *[systems]float64) float64 {
	product := w.prior
	for i := range w.terms {
		product *= w.terms[i].at(shares)
	}
	return product
}

// weigh gives every point its weight after the readings of all blocks.
func (f *found) weigh() {
	logs := slices.Clone(f.prior)
	for _, block := range f.logs {
		for m, log := range block {
			logs[m] += log
		}
	}
	for m, weight := range normalised(logs) {
		f.points[m].weight = weight
	}
	f.parts = make([][]worldPart, len(f.logs))
}

// worlds returns the probabilities of a block's worlds and what was meant there.
func (f *found) worlds(block int) []worldPart {
	if f.parts[block] == nil {
		scale := make([]float64, len(f.points))
		for m, log := range f.logs[block] {
			scale[m] = f.points[m].weight * math.Exp(-log)
		}
		b := &f.job.blocks[block]
		f.parts[block] = make([]worldPart, len(b.worlds))
		for i := range b.worlds {
			f.parts[block][i] = f.part(&b.worlds[i], scale)
		}
	}
	return f.parts[block]
}

// part sums a world over the points; scale is the weight of each over the
// likelihood of the world's block.
func (f *found) part(w *world, scale []float64) worldPart {
	part := worldPart{parts: make([][systems]float64, len(w.terms))}
	for m := range f.points {
		shares := &f.points[m].shares
		here := w.at(shares) * scale[m]
		part.p += here
		for k := range w.terms {
			t := &w.terms[k]
			each := here / t.at(shares)
			for s := range t.weight {
				part.parts[k][s] += each * shares[s] * t.weight[s]
			}
		}
	}
	return part
}

// faint is a probability too small to matter in any sum.
const faint = 1e-12

// shares returns the mean share of each system.
func (f *found) shares() []Share {
	list := make([]Share, systems)
	for s := range list {
		list[s].System = names[s]
		for _, p := range f.points {
			list[s].Mean += p.weight * p.shares[s]
		}
	}
	return list
}
