// Command bench adjusts the same jobs with this program and with
// scipy.optimize.least_squares, side by side in one run, and prints how long
// each took and how far the answers lie apart.
//
// All solve the same equations over the same unknowns. "job" is adjust.Adjust
// given the job alone: it finds its own start values, tests for suspects and
// makes all findings. "core" is lsq.Solve, "scipy" least_squares and the
// covariance, in vectors of numpy, once with numeric derivatives and once with
// exact ones; these three are given the same start values near the truth. Then
// a job is drawn a million times here and with numpy.
// Run it as go run ./bench; it needs Debian's python3-scipy.
package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"slices"
	"time"

	"codeberg.org/oddleg/oddleg/read/adjust"
)

//go:embed side_by_side.py
var script string

// python is Debian's own: another may come first on the path.
const python = "/usr/bin/python3"

// runs is how often everything is solved; the middle time counts.
const runs = 7

// The answers agree when values lie within a millionth of their standard
// uncertainty and uncertainties within five digits.
const apartValue, apartU = 1e-6, 1e-5

// solved is an answer of the other solver.
type solved struct {
	Milliseconds float64
	X, U         []float64
}

// answers are those to one problem.
type answers struct{ Numeric, Exact solved }

func main() {
	err := compare([]int{10, 100, 200, 1000})
	if err == nil {
		err = compareSimulations(1_000_000)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// compare solves jobs of so many readings both ways and prints a line for each.
func compare(counts []int) error {
	problems := make([]problem, len(counts))
	for i, readings := range counts {
		problems[i] = tapersOver(readings)
	}
	others, err := ask(problems)
	if err != nil {
		return err
	}
	fmt.Println("                             milliseconds                          times faster than scipy, numeric (exact)")
	fmt.Println("readings  sizes  unknowns       job      core   numeric     exact              job             core      apart")
	agree := true
	for i, p := range problems {
		agree = line(p, others[i]) && agree
	}
	if !agree {
		return fmt.Errorf("the answers differ by more than %g u", apartValue)
	}
	return nil
}

// line solves one job here, prints the comparison and reports whether the
// answers agree.
func line(p problem, other answers) bool {
	var result *adjust.Result
	job := middle(func() { result = p.adjust() })
	core := middle(func() { p.solve() })
	value, u := 0.0, 0.0
	for _, s := range []solved{other.Numeric, other.Exact} {
		v, w := apart(result, s)
		value, u = max(value, v), max(u, w)
	}
	numeric, exact := other.Numeric.Milliseconds, other.Exact.Milliseconds
	fmt.Printf("%8d %6d %9d %9.2f %9.2f %9.2f %9.2f %8.2f (%5.2f) %8.2f (%5.2f) %8.1e u\n",
		len(p.Readings), 2*p.tapers, len(p.Start), job, core, numeric, exact,
		numeric/job, exact/job, numeric/core, exact/core, value)
	return value <= apartValue && u <= apartU
}

// middle returns the middle time of several runs in milliseconds.
func middle(run func()) float64 {
	times := make([]time.Duration, runs)
	for i := range times {
		start := time.Now()
		run()
		times[i] = time.Since(start)
	}
	slices.Sort(times)
	return 1000 * times[runs/2].Seconds()
}

// apart returns the largest difference of the values, in standard
// uncertainties, and of the uncertainties, relative. The sizes come first in
// both answers, in the same order; not-a-number is infinitely far apart.
func apart(r *adjust.Result, s solved) (value, u float64) {
	for i, size := range r.Sizes {
		value = max(value, math.Abs(size.Value-s.X[i])/s.U[i])
		u = max(u, math.Abs(size.U/s.U[i]-1))
	}
	if math.IsNaN(value + u) {
		return math.Inf(1), math.Inf(1)
	}
	return value, u
}

// ask has the other solver solve all the problems.
func ask(problems []problem) ([]answers, error) {
	in, err := json.Marshal(map[string]any{"runs": runs, "problems": problems})
	if err != nil {
		return nil, err
	}
	command := exec.Command(python, "-c", script)
	command.Stdin, command.Stderr = bytes.NewReader(in), os.Stderr
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("%s with scipy (Debian: python3-scipy) is needed: %w", python, err)
	}
	var list []answers
	return list, json.Unmarshal(out, &list)
}
