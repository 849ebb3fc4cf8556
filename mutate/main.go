// Command mutate changes the code of the numeric rooms in small ways, one at a
// time, and sees whether a test notices.
//
// Each change is one that a tired hand makes: a sign turned round, a comparison
// that is one off, a constant ten times too large, a cosine for a sine. The places
// are drawn by a seed. The tree is never touched: the changed file reaches the
// compiler as an overlay. A change that no test notices is printed with its place;
// docs/evidence.md lists those of the last run and says why each is harmless, or
// which test was written for it.
//
//	go run ./mutate                     all numeric rooms, a few changes in each file
//	go run ./mutate -each 5 ./make/fit  five in each file of one room
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// numeric are the rooms whose figures somebody works to.
var numeric = []string{
	"./num/unit", "./num/grad", "./num/expr", "./num/lsq", "./num/geom", "./tables/limits",
	"./read/gauge", "./read/survey", "./read/adjust", "./read/simulate", "./read/blunder", "./read/advise", "./meaning/meant", "./meaning/series",
	"./make/fit", "./make/mating", "./make/strength", "./make/part", "./make/hold", "./make/lathe", "./make/plan",
	"./prove/upkeep", "./prove/inspect",
}

func main() {
	each := flag.Int("each", 1, "changes in each file")
	seed := flag.Uint64("seed", 1, "of the places that are drawn")
	at := flag.String("at", "", "only the change at FILE:LINE:COLUMN")
	limit := flag.Duration("limit", 2*time.Minute, "how long the tests of one change may take; longer counts as noticed")
	workers := flag.Int("workers", 2, "changes tried at a time")
	flag.Parse()
	rooms := flag.Args()
	if len(rooms) == 0 {
		rooms = numeric
	}
	r := &runner{random: rand.New(rand.NewPCG(*seed, 0)), each: *each, at: *at, limit: *limit}
	if err := r.run(rooms, *workers); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

// runner tries changes.
type runner struct {
	random *rand.Rand
	each   int
	at     string
	limit  time.Duration

	mutex           sync.Mutex
	tried, survived int
}

// run tries changes in rooms, and tells of those that nobody notices.
func (r *runner) run(rooms []string, workers int) error {
	changes, err := r.drawn(rooms)
	if err != nil {
		return err
	}
	next := make(chan change)
	var busy sync.WaitGroup
	for range workers {
		busy.Go(func() {
			for c := range next {
				r.try(c)
			}
		})
	}
	for _, c := range changes {
		next <- c
	}
	close(next)
	busy.Wait()
	fmt.Printf("%d changes, %d not noticed (%.1f %%)\n", r.tried, r.survived, 100*float64(r.survived)/float64(max(1, r.tried)))
	return nil
}

// drawn draws the changes to try.
func (r *runner) drawn(rooms []string) ([]change, error) {
	var list []change
	for _, room := range rooms {
		files, err := filepath.Glob(filepath.Join(room, "*.go"))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") || strings.HasSuffix(file, "_templ.go") {
				continue
			}
			all, err := changesOf(file)
			if err != nil {
				return nil, err
			}
			list = append(list, r.some(all)...)
		}
	}
	return list, nil
}

// some draws as many changes as are wanted in each file, or the one that is asked
// for.
func (r *runner) some(all []change) []change {
	if r.at != "" {
		for i := range all {
			if all[i].place() == filepath.Clean(r.at) {
				return all[i : i+1]
			}
		}
		return nil
	}
	r.random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all[:min(len(all), r.each)]
}

// try runs the tests of a room with one change in it.
func (r *runner) try(c change) {
	noticed, compiles := c.noticed(r.limit)
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if !compiles {
		return
	}
	r.tried++
	if !noticed {
		r.survived++
		fmt.Printf("not noticed: %s: %s becomes %s in\n\t%s\n", c.place(), c.was, c.is, c.line)
	}
}

// noticed reports whether the tests of the room fail with the change, and whether
// it compiles.
func (c *change) noticed(limit time.Duration) (noticed, compiles bool) {
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(folder)
	overlay := filepath.Join(folder, "overlay.json")
	c.write(folder, overlay)
	room := "./" + filepath.ToSlash(filepath.Dir(c.file))
	if exec.Command("go", "build", "-overlay", overlay, room).Run() != nil {
		return false, false
	}
	test := exec.Command("go", "test", "-short", "-failfast", "-vet=off", "-timeout", limit.String(), "-overlay", overlay, room)
	out, err := test.CombinedOutput()
	if err != nil && bytes.Contains(out, []byte("[build failed]")) {
		return false, false
	}
	return err != nil, true
}

// write writes the changed file, and the overlay that puts it in place of the
// other.
func (c *change) write(folder, overlay string) {
	changed := filepath.Join(folder, filepath.Base(c.file))
	whole, err := filepath.Abs(c.file)
	if err != nil {
		panic(err)
	}
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {whole: changed}})
	if err != nil {
		panic(err)
	}
	for file, data := range map[string][]byte{changed: c.changed(), overlay: replace} {
		if err := os.WriteFile(file, data, 0o666); err != nil {
			panic(err)
		}
	}
}
