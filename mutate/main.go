// Command mutate changes the code of the numeric rooms in small ways, one at a
// time, and sees whether a test of the room notices.
//
// Each change is one that a tired hand makes: a sign turned round, a comparison
// that is one off, a constant ten times too large, a cosine for a sine. With
// -each, the places are drawn by a seed. Pictures (*scene*.go) are left alone: nobody
// works to where a stroke stands, and the drawings in show/paper hold them.
//
// The tree is never touched: what is changed reaches the compiler as an overlay.
// All changes of a room are woven into one test program, which makes the one that
// it is told (weave.go), and a change is shown only to the tests that come by the
// function it is in. A change that no test notices is printed with its place;
// docs/evidence.md has the figures of the last run.
//
//	go run ./mutate                      every change of all numeric rooms
//	go run ./mutate -each 5 ./make/fit   five in each file of one room
//	go run ./mutate -at make/fit/fit.go:65:85 ./make/fit
package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
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
	each := flag.Int("each", 0, "changes drawn in each file; 0 for all")
	seed := flag.Uint64("seed", 1, "of the places that are drawn")
	at := flag.String("at", "", "only the changes at FILE:LINE:COLUMN, several parted by commas")
	limit := flag.Duration("limit", time.Minute, "how long the tests of one change may take; longer counts as noticed")
	workers := flag.Int("workers", 2, "changes tried at a time")
	flag.Parse()
	rooms := flag.Args()
	if len(rooms) == 0 {
		rooms = numeric
	}
	r := &runner{random: rand.New(rand.NewPCG(*seed, 0)), each: *each, at: *at, limit: *limit, workers: *workers}
	for _, room := range rooms {
		if err := r.run(filepath.Clean(room)); err != nil {
			fmt.Fprintf(os.Stderr, "mutate: %s: %v\n", room, err)
			os.Exit(1)
		}
	}
	fmt.Println(r.all)
}

// runner tries changes.
type runner struct {
	random  *rand.Rand
	each    int
	at      string
	limit   time.Duration
	workers int

	mutex     sync.Mutex
	room, all count
}

// count is how many changes were tried, and how many of them no test noticed.
type count struct{ tried, survived int }

func (c count) String() string {
	return fmt.Sprintf("%d changes, %d not noticed (%.1f %%)", c.tried, c.survived, 100*float64(c.survived)/float64(max(1, c.tried)))
}

// run tries the changes of a room, and tells of those that nobody notices.
func (r *runner) run(room string) error {
	changes, err := r.drawn(room)
	if err != nil || len(changes) == 0 {
		return err
	}
	w, err := weave(room, changes, r.limit)
	if err != nil {
		return err
	}
	defer os.RemoveAll(w.folder)
	r.room = count{}
	r.tryAll(w)
	fmt.Printf("%s: %v\n", room, r.room)
	return nil
}

// tryAll tries the changes of a room, some of them at a time.
func (r *runner) tryAll(w *woven) {
	next := make(chan *change)
	var busy sync.WaitGroup
	for range r.workers {
		busy.Go(func() {
			for c := range next {
				noticed, compiles := w.try(c)
				if compiles {
					r.note(c, noticed)
				}
			}
		})
	}
	for i := range w.changes {
		next <- &w.changes[i]
	}
	close(next)
	busy.Wait()
}

func (r *runner) note(c *change, noticed bool) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	r.room.tried++
	r.all.tried++
	if noticed {
		return
	}
	r.room.survived++
	r.all.survived++
	fmt.Printf("not noticed: %s: %s becomes %s in\n\t%s\n", c.place(), c.was, c.is, c.line)
}

// drawn draws the changes to try in a room.
func (r *runner) drawn(room string) ([]change, error) {
	files, err := filepath.Glob(filepath.Join(room, "*.go"))
	if err != nil {
		return nil, err
	}
	var list []change
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || strings.HasSuffix(file, "_templ.go") || strings.Contains(filepath.Base(file), "scene") {
			continue
		}
		all, err := changesOf(file)
		if err != nil {
			return nil, err
		}
		list = append(list, r.some(all)...)
	}
	return list, nil
}

// some draws as many changes as are wanted in each file, or takes those that are
// asked for.
func (r *runner) some(all []change) []change {
	if r.at != "" {
		wanted := strings.Split(r.at, ",")
		return slices.DeleteFunc(all, func(c change) bool { return !slices.Contains(wanted, c.place()) })
	}
	if r.each == 0 {
		return all
	}
	r.random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all[:min(len(all), r.each)]
}
