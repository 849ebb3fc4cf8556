package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"runtime"
	"time"

	"codeberg.org/oddleg/oddleg/read/simulate"
)

//go:embed simulation.py
var simulationScript string

// apartDrawn is how many standard deviations of the drawing two simulations may
// lie apart, and endDrawn the standard deviation of an end of a 95 % interval
// of a normal distribution, times the root of the trials over u.
const apartDrawn, endDrawn = 5, 2.67

// simulated is the simulation of the other side, an element for each unknown.
type simulated struct {
	Seconds            float64
	Mean, U, Low, High []float64
}

// compareSimulations draws a job of 20 readings here and there that often and
// prints how long it takes.
func compareSimulations(trials int) error {
	p := tapersOver(20)
	result := p.adjust()
	draw := func(processors int) (*simulate.Simulation, float64) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		start := time.Now()
		s := simulate.Sizes(result, trials, seed)
		return s, time.Since(start).Seconds()
	}
	ours, all := draw(runtime.NumCPU())
	_, one := draw(1)
	theirs, err := p.askSimulation(trials)
	if err != nil {
		return err
	}
	off := drawnApart(ours, theirs)
	fmt.Printf("\n%d trials of the job of 20 readings, in seconds\n", trials)
	fmt.Printf("%d processors  one processor  numpy  times faster than numpy      apart\n", runtime.NumCPU())
	fmt.Printf("%12.2f %14.2f %6.2f %14.1f (one: %4.1f) %6.1f standard deviations of the drawing\n",
		all, one, theirs.Seconds, theirs.Seconds/all, theirs.Seconds/one, off)
	if ours.Failed > 0 || !(off <= apartDrawn) {
		return fmt.Errorf("the simulations differ: %.1f standard deviations apart, %d trials failed", off, ours.Failed)
	}
	return nil
}

// drawnApart returns the largest difference of means, standard deviations and
// ends, in standard deviations that the drawing of both leaves in it.
func drawnApart(s *simulate.Simulation, other simulated) float64 {
	largest := 0.0
	differ := func(a, b, deviation float64) {
		largest = max(largest, math.Abs(a-b)/(deviation*math.Sqrt(2/float64(s.Trials))))
	}
	for i := range s.Sizes {
		size, u := &s.Sizes[i], other.U[i]
		low, high := size.Interval()
		differ(size.Mean, other.Mean[i], u)
		differ(size.U, u, u/math.Sqrt2)
		differ(low, other.Low[i], endDrawn*u)
		differ(high, other.High[i], endDrawn*u)
	}
	return largest
}

// askSimulation has the other side simulate the problem.
func (p *problem) askSimulation(trials int) (simulated, error) {
	var rectangular []int // what stands for a tolerance: all pieces
	for column := 2*p.tapers + mics; column < len(p.Start); column++ {
		rectangular = append(rectangular, column)
	}
	in, err := json.Marshal(map[string]any{"trials": trials, "seed": seed, "problem": p, "rectangular": rectangular})
	if err != nil {
		return simulated{}, err
	}
	command := exec.Command(python, "-c", simulationScript)
	command.Stdin, command.Stderr = bytes.NewReader(in), os.Stderr
	out, err := command.Output()
	if err != nil {
		return simulated{}, fmt.Errorf("%s with scipy (Debian: python3-scipy) is needed: %w", python, err)
	}
	var answer simulated
	return answer, json.Unmarshal(out, &answer)
}
