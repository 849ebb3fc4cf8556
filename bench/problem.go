package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// seed of the noise, fixed before the first run.
const seed = 20260117

// The kit of every job, in mm. The tolerances are ±t.
const (
	resolution, mpe                 = 0.001, 0.004
	rollerTolerance, blockTolerance = 0.002, 0.001
)

var (
	rollers = []float64{6, 10}
	blocks  = []float64{0, 20, 40} // the first stands for none
)

const mics = 2

// problem is one job of many tapers, as this program takes it and as rows of
// figures for the other solver. The unknowns stand in the order: small end and
// half angle of every taper, the micrometers' zeros, the rollers, the blocks.
type problem struct {
	job    *trade.Job
	tapers int
	truth  []float64

	Start    []float64 `json:"start"`
	Readings []row     `json:"readings"`
	Priors   []prior   `json:"priors"`
}

// row is one reading: the columns of what stands in it (-1: no block), what
// was seen and its standard deviation.
type row struct {
	SmallEnd  int     `json:"small_end"`
	HalfAngle int     `json:"half_angle"`
	Zero      int     `json:"zero"`
	Roller    int     `json:"roller"`
	Block     int     `json:"block"`
	Saw       float64 `json:"saw"`
	Sigma     float64 `json:"sigma"`
}

// prior is what is known beforehand of one unknown.
type prior struct {
	Column int     `json:"column"`
	Value  float64 `json:"value"`
	Sigma  float64 `json:"sigma"`
}

// tapersOver makes a job of that many readings, three for every ten of which
// there is an unknown size.
func tapersOver(readings int) problem {
	p := equationsOver(readings)
	p.job = p.written()
	return p
}

// equationsOver makes the same without the job: a file of so many readings may be
// longer than any that is read.
func equationsOver(readings int) problem {
	r := rand.New(rand.NewPCG(seed, uint64(readings)))
	p := problem{tapers: max(1, (3*readings+10)/20)}
	for range p.tapers {
		p.unknown(20, 20+r.NormFloat64())
		p.unknown(5*math.Pi/180, (5+r.NormFloat64())*math.Pi/180)
	}
	for range mics {
		p.known(0, mpe/math.Sqrt(6), r)
	}
	for _, size := range rollers {
		p.known(size, rollerTolerance/math.Sqrt(3), r)
	}
	for _, size := range blocks[1:] {
		p.known(size, blockTolerance/math.Sqrt(3), r)
	}
	for i := range readings {
		p.read(i, r)
	}
	return p
}

func (p *problem) unknown(start, truth float64) {
	p.Start = append(p.Start, start)
	p.truth = append(p.truth, truth)
}

func (p *problem) known(value, sigma float64, r *rand.Rand) {
	p.Priors = append(p.Priors, prior{len(p.Start), value, sigma})
	p.unknown(value, value+sigma*r.NormFloat64())
}

// read adds reading i: the tapers by turns, and for each of them the set-ups.
func (p *problem) read(i int, r *rand.Rand) {
	taper, setUp := i%p.tapers, i/p.tapers
	zeros := 2 * p.tapers
	reading := row{
		SmallEnd: 2 * taper, HalfAngle: 2*taper + 1,
		Zero:   zeros + i%3%mics,
		Roller: zeros + mics + setUp%len(rollers),
		Block:  -1,
		Sigma:  math.Hypot(mpe/math.Sqrt(6), resolution/math.Sqrt(12)),
	}
	height := 0.0
	if block := setUp / len(rollers) % len(blocks); block > 0 {
		reading.Block = zeros + mics + len(rollers) + block - 1
		height = p.truth[reading.Block]
	}
	small, half, roller := p.truth[reading.SmallEnd], p.truth[reading.HalfAngle], p.truth[reading.Roller]
	shows := small + 2*(height+roller/2)*math.Tan(half) + roller/math.Cos(half) + roller + p.truth[reading.Zero]
	shows += mpe / math.Sqrt(6) * r.NormFloat64()
	reading.Saw = math.Round(shows/resolution) * resolution
	p.Readings = append(p.Readings, reading)
}

// Eval returns the misclosure of a reading, for this program's own core.
func (r row) Eval(x []float64, out *lsq.Row) float64 {
	tan, sec, roller, height := math.Tan(x[r.HalfAngle]), 1/math.Cos(x[r.HalfAngle]), x[r.Roller], 0.0
	if r.Block >= 0 {
		height = x[r.Block]
		out.Add(r.Block, 2*tan)
	}
	out.Add(r.SmallEnd, 1)
	out.Add(r.HalfAngle, (2*height+roller)*sec*sec+roller*sec*tan)
	out.Add(r.Zero, 1)
	out.Add(r.Roller, tan+sec+1)
	return x[r.SmallEnd] + (2*height+roller)*tan + roller*sec + roller + x[r.Zero] - r.Saw
}

// Eval returns the misclosure of what is known beforehand.
func (p prior) Eval(x []float64, out *lsq.Row) float64 {
	out.Add(p.Column, 1)
	return x[p.Column] - p.Value
}

// adjust adjusts the whole job.
func (p *problem) adjust() *adjust.Result {
	result, err := adjust.Adjust(p.job)
	if err != nil {
		panic("bench: a job without relations cannot contradict itself")
	}
	return result
}

// solve solves the equations alone, from the start values the other solver has.
func (p *problem) solve() *lsq.Solution {
	problem := lsq.Problem{Start: p.Start}
	for _, r := range p.Readings {
		problem.Observations = append(problem.Observations, lsq.Observation{Equation: r, Sigma: r.Sigma})
	}
	for _, known := range p.Priors {
		problem.Observations = append(problem.Observations, lsq.Observation{Equation: known, Sigma: known.Sigma})
	}
	solution, err := lsq.Solve(problem)
	if err != nil {
		panic("bench: the start values are finite and there are no constraints")
	}
	return solution
}

// written returns the job as it is read from the text that a user would write.
func (p *problem) written() *trade.Job {
	var b strings.Builder
	fmt.Fprintf(&b, "oddleg: 1\njob: Tapers over rollers\nunits: mm\nkit:\n")
	for i := range mics {
		fmt.Fprintf(&b, "  mic%d: {kind: micrometer, resolution: %g, mpe: %g}\n", i, resolution, mpe)
	}
	for i, size := range rollers {
		fmt.Fprintf(&b, "  roll%d: {kind: roller, size: %g, tolerance: %g}\n", i, size, rollerTolerance)
	}
	for i, size := range blocks[1:] {
		fmt.Fprintf(&b, "  block%d: {kind: block, size: %g, tolerance: %g}\n", i, size, blockTolerance)
	}
	fmt.Fprintf(&b, "sizes:\n")
	for i := range p.tapers {
		fmt.Fprintf(&b, "  nose%d: {kind: diameter}\n  taper%d: {kind: half-angle}\n", i, i)
	}
	fmt.Fprintf(&b, "readings:\n")
	for i, row := range p.Readings {
		fmt.Fprintf(&b, "  - {id: r%d, by: taper-over-rollers, of: {%s}, with: mic%d, saw: %.3f}\n",
			i, p.roles(row), row.Zero-2*p.tapers, row.Saw)
	}
	job, err := jobfile.Read("", []byte(b.String()))
	if err != nil {
		panic("bench: the job made cannot be read: " + err.Error())
	}
	return job
}

func (p *problem) roles(row row) string {
	taper, rolls := row.SmallEnd/2, 2*p.tapers+mics
	text := fmt.Sprintf("small-end: nose%d, half-angle: taper%d, roller: roll%d", taper, taper, row.Roller-rolls)
	if row.Block >= 0 {
		text += fmt.Sprintf(", block: block%d", row.Block-rolls-len(rollers))
	}
	return text
}
