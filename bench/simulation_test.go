package main

import (
	"testing"

	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// TestSimulationsAgree draws a job here and with numpy: means, standard
// deviations and ends of intervals must be the same, to what the drawing leaves
// open.
func TestSimulationsAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("draws 100000 times")
	}
	oracle.Python(t, "scipy")
	const trials = 100_000
	p := tapersOver(20)
	theirs, err := p.askSimulation(trials)
	if err != nil {
		t.Fatal(err)
	}
	off := drawnApart(simulate.Sizes(p.adjust(), trials, seed), theirs)
	t.Logf("%.1f standard deviations of the drawing apart", off)
	if !(off <= apartDrawn) {
		t.Errorf("the simulations lie %.1f standard deviations of the drawing apart", off)
	}
}

// BenchmarkSimulate draws a job of 20 readings 100000 times.
func BenchmarkSimulate(b *testing.B) {
	p := tapersOver(20)
	r := p.adjust()
	for b.Loop() {
		simulate.Sizes(r, 100_000, seed)
	}
}
