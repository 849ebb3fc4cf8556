// Package simulate carries what is known of input quantities through to what
// follows from them, where the formula between is bent: by drawing the inputs
// over and over (JCGM 101:2008, propagation of distributions), and beside it
// by derivatives of first and second order (JCGM 100:2008).
//
// Propagate and FirstOrder take any model. Sizes does the same for a job: it
// draws the error of every observation and adjusts again. SecondOrder says
// without drawing where the adjustment, which takes everything as straight, is
// off. The same seed gives the same answer whatever the number of processors.
package simulate

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
)

// blockSize is how many trials share one stream of random numbers. It is part
// of what a seed means: another size gives other answers.
const blockSize = 4096

// trial draws once and fills in the outputs. It returns false where they have
// no value.
type trial func(random *rand.Rand, outputs []float64) bool

// run makes that many trials, block by block, and returns the values of each
// output in the order of the trials, without the trials that failed. Each
// goroutine gets a trial of its own from worker; what a trial gives must depend
// on its random numbers alone. After each block goOn hears how many trials are
// made, and stops the rest by false; nothing that was drawn is then to be used.
func run(trials, outputs int, seed uint64, worker func() trial, goOn func(made int) bool) (columns [][]float64, failed int) {
	columns = make([][]float64, outputs)
	for k := range columns {
		columns[k] = make([]float64, trials)
	}
	missing := make([]bool, trials)
	blocks := (trials + blockSize - 1) / blockSize
	var next, made atomic.Int64
	var group sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), blocks) {
		group.Go(func() {
			once, y := worker(), make([]float64, outputs)
			for block := int(next.Add(1) - 1); block < blocks; block = int(next.Add(1) - 1) {
				random := stream(seed, uint64(block))
				first, after := block*blockSize, min(trials, (block+1)*blockSize)
				for i := first; i < after; i++ {
					missing[i] = !once(random, y)
					for k, v := range y {
						columns[k][i] = v
					}
				}
				if !goOn(int(made.Add(int64(after - first)))) {
					return
				}
			}
		})
	}
	group.Wait()
	return compact(columns, missing)
}

// always goes on.
func always(int) bool { return true }

// stream returns the random numbers of one block. Seed and block are scattered
// first: two generators of this kind that start close together stay alike.
func stream(seed, block uint64) *rand.Rand {
	high := scatter(seed)
	return rand.New(rand.NewPCG(high, scatter(high^block)))
}

// scatter is the finaliser of the generator SplitMix64 (G. L. Steele, D. Lea,
// C. H. Flood, Fast splittable pseudorandom number generators, 2014).
func scatter(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// compact takes the missing trials out of every column.
func compact(columns [][]float64, missing []bool) ([][]float64, int) {
	kept := 0
	for i, gone := range missing {
		if gone {
			continue
		}
		for _, column := range columns {
			column[kept] = column[i]
		}
		kept++
	}
	for k := range columns {
		columns[k] = columns[k][:kept]
	}
	return columns, len(missing) - kept
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
