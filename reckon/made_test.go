package reckon_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"runtime/debug"
	"slices"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/sound"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

const seed = 1

// files returns the example and test jobs.
func files(t *testing.T) []string {
	t.Helper()
	var found []string
	for _, pattern := range []string{"../examples/*.yaml", "../testdata/jobs/*.yaml"} {
		some, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		found = append(found, some...)
	}
	if len(found) < 20 {
		t.Fatalf("only %d jobs found: the test looks in the wrong place", len(found))
	}
	return found
}

func read(t *testing.T, file string) *trade.Job {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.ReadPlanned(file, text)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// made returns the job as a program would make it: nothing in it says where it was
// written.
func made(job *trade.Job) *trade.Job {
	again := clone(reflect.ValueOf(job)).Interface().(*trade.Job)
	strip(reflect.ValueOf(again))
	return again
}

// clone copies a value and all that it holds or points to.
func clone(v reflect.Value) reflect.Value {
	again := reflect.New(v.Type()).Elem()
	again.Set(v)
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			again.Set(reflect.New(v.Type().Elem()))
			again.Elem().Set(clone(v.Elem()))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if again.Field(i).CanSet() {
				again.Field(i).Set(clone(v.Field(i)))
			}
		}
	case reflect.Slice:
		if v.IsNil() {
			break
		}
		again.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			again.Index(i).Set(clone(v.Index(i)))
		}
	case reflect.Map:
		if v.IsNil() {
			break
		}
		again.Set(reflect.MakeMap(v.Type()))
		for _, key := range v.MapKeys() {
			again.SetMapIndex(key, clone(v.MapIndex(key)))
		}
	}
	return again
}

// parts calls do with every value that a job holds which can be set, the innermost
// first.
func parts(v reflect.Value, do func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			parts(v.Elem(), do)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				parts(v.Field(i), do)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			parts(v.Index(i), do)
		}
	}
	if v.CanSet() {
		do(v)
	}
}

func strip(v reflect.Value) {
	parts(v, func(part reflect.Value) {
		if part.Type() == reflect.TypeFor[trade.Pos]() {
			part.SetZero()
		}
	})
}

// answers asks every stage and returns what they say, or what is wrong. Whatever
// figure comes out is a number.
func answers(job *trade.Job) (string, error) {
	found, err := reckon.Job(context.Background(), job, seed)
	if err != nil {
		return "", err
	}
	said := ""
	for _, size := range found.Result.Sizes {
		said += fmt.Sprintln(size.ID, size.Value, size.U)
		if size.Determined && (math.IsNaN(size.Value) || math.IsInf(size.Value, 0) || math.IsNaN(size.U)) {
			panic(fmt.Sprintf("size %s is %g with u %g", size.ID, size.Value, size.U))
		}
	}
	said += fmt.Sprint(len(found.Doubts()), len(found.Meaning().Sizes), len(found.Threads()))
	if job.Part != nil || len(job.Joints) > 0 {
		fitted, err := found.Fitted()
		said += fmt.Sprint(err)
		if err == nil {
			for _, size := range fitted.Made.Make {
				said += fmt.Sprintln(size.Size.ID, size.Target, size.Low, size.High)
				if size.Determined && math.IsNaN(size.Target+size.Low+size.High) {
					panic(fmt.Sprintf("%s is to be made to %g, from %g to %g", size.Size.ID, size.Target, size.Low,
						size.High))
				}
			}
		}
	}
	if job.Part != nil {
		_, modelled := found.Model()
		_, setUp := found.SetUps()
		_, proved := found.Proved()
		_, drawn := found.Drawing(draw.Options{Paper: ink.A4})
		said += fmt.Sprint(modelled, setUp, proved, drawn)
	}
	if len(job.Surveys) > 0 {
		_, err := found.Upkeep()
		said += fmt.Sprint(err)
	}
	return said, nil
}

// TestJobsMadeInGoGiveTheSame works every job as it was read, and as a program would
// have made it.
func TestJobsMadeInGoGiveTheSame(t *testing.T) {
	for _, file := range files(t) {
		job := read(t, file)
		want, err := answers(job)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		got, err := answers(made(job))
		if err != nil || got != want {
			t.Errorf("%s, made in Go: %v\n%s\nwant\n%s", file, err, got, want)
		}
	}
}

// TestAnyReadingMayBePlanned takes its values from one reading after another of an
// example that has a suspect one.
func TestAnyReadingMayBePlanned(t *testing.T) {
	job := read(t, "../examples/cover-plate.yaml")
	for i := range job.Readings {
		planned := made(job)
		if planned.Readings[i].By == "touch" {
			continue // its values say about where it will be
		}
		planned.Readings[i].Saw = nil
		if _, err := answers(planned); err != nil {
			t.Errorf("%s planned: %v", planned.Readings[i].ID, err)
		}
	}
}

// TestSpoiledJobsAreTold spoils one value of a job after another. Whatever comes of
// it, faults or answers, nothing panics, nothing takes for ever, and no figure is no
// number.
func TestSpoiledJobsAreTold(t *testing.T) {
	tries, worked := 250, 3 // of each job, and so many of those that are sound go through all stages
	if testing.Short() {
		tries, worked = 50, 1
	}
	if os.Getenv("ODDLEG_LONG") != "" {
		tries, worked = 1000, 1000
	}
	for _, file := range files(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			job := made(read(t, file))
			r := rand.New(rand.NewPCG(seed, uint64(len(file))))
			left := worked
			for range tries {
				spoiled := made(job)
				did := spoil(r, spoiled)
				if trySpoiled(t, spoiled, did, left > 0) {
					left--
				}
			}
		})
	}
}

// The time and memory that one spoiled job may take, far above what a sound one does.
const (
	patience = 2 * time.Minute
	mostHeap = 2 << 30
)

// trySpoiled works a spoiled job, or sees that it is told what is wrong. It says
// whether the stages were asked.
func trySpoiled(t *testing.T, job *trade.Job, did string, ask bool) bool {
	t.Helper()
	if err := guarded(t, did, func() error { return sound.Check(job) }); err != nil || !ask {
		return false
	}
	guarded(t, did, func() error {
		_, err := answers(job)
		return err
	})
	return true
}

// guarded runs what must neither panic nor take for ever.
func guarded(t *testing.T, did string, run func() error) error {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	done := make(chan error, 1)
	go func() {
		defer func() {
			if wrong := recover(); wrong != nil {
				t.Errorf("%s: %v\n%s", did, wrong, debug.Stack())
				done <- nil
			}
		}()
		done <- run()
	}()
	select {
	case err := <-done:
		runtime.ReadMemStats(&after)
		if used := after.TotalAlloc - before.TotalAlloc; used > mostHeap {
			t.Errorf("%s: it took %d MB", did, used>>20)
		}
		return err
	case <-time.After(patience):
		t.Fatalf("%s: no answer after %s", did, patience)
		return nil
	}
}

// spoil changes one value of a job, and says which and to what.
func spoil(r *rand.Rand, job *trade.Job) string {
	var all []reflect.Value
	parts(reflect.ValueOf(job), func(part reflect.Value) {
		if part.Type() != reflect.TypeFor[trade.Pos]() && part.Type() != reflect.TypeFor[trade.Job]() {
			all = append(all, part)
		}
	})
	part := all[r.IntN(len(all))]
	before := short(part)
	change(r, part, all)
	return fmt.Sprintf("%s %s made %s", part.Type(), before, short(part))
}

// short prints the beginning of a value.
func short(part reflect.Value) string {
	return fmt.Sprintf("%.200s", fmt.Sprintf("%v", part.Interface()))
}

// change gives a value another: of its like elsewhere in the job, none, or one that
// is out of all bounds.
func change(r *rand.Rand, part reflect.Value, all []reflect.Value) {
	if r.IntN(3) == 0 {
		alike := slices.DeleteFunc(slices.Clone(all),
			func(other reflect.Value) bool { return other.Type() != part.Type() })
		part.Set(clone(alike[r.IntN(len(alike))]))
		return
	}
	switch part.Kind() {
	case reflect.String:
		part.SetString(pick(r, "", "nothing", "part.nothing", "sqrt", "1/0", "((", "a\x1b[31mb", "%d%s", "0", "-1",
			"1e300", "mm", "NaN", "x y"))
	case reflect.Int:
		part.SetInt(pick[int64](r, 0, -1, 1, 2, 7, 1<<31, -1<<62, 1<<62))
	case reflect.Float64:
		part.SetFloat(pick[float64](r, 0, -1, 1, 0.5, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, 1e300))
	case reflect.Bool:
		part.SetBool(!part.Bool())
	case reflect.Uint8:
		part.SetUint(uint64(r.IntN(20)))
	case reflect.Slice:
		changeList(r, part)
	case reflect.Pointer, reflect.Map:
		part.SetZero()
	case reflect.Struct:
		if part.Type() == reflect.TypeFor[unit.Quantity]() {
			part.Set(reflect.ValueOf(quantity(r)))
			return
		}
		part.SetZero()
	case reflect.Array:
		part.SetZero()
	}
}

// changeList empties a list, drops, repeats or swaps an item, or repeats it very often.
func changeList(r *rand.Rand, part reflect.Value) {
	n := part.Len()
	if n == 0 {
		part.Set(reflect.MakeSlice(part.Type(), 1, 1))
		return
	}
	i := r.IntN(n)
	switch r.IntN(5) {
	case 0:
		part.SetZero()
	case 1:
		part.Set(reflect.AppendSlice(part.Slice3(0, i, i), part.Slice(i+1, n)))
	case 2:
		part.Set(reflect.Append(part.Slice3(0, n, n), part.Index(i)))
	case 3:
		reflect.Swapper(part.Interface())(i, r.IntN(n))
	case 4:
		for range 3000 {
			part.Set(reflect.Append(part, part.Index(i)))
		}
	}
}

// quantity returns a quantity of any unit and size, or none.
func quantity(r *rand.Rand) unit.Quantity {
	num := pick[int64](r, 0, 1, -1, 3, 25, 360, 1000, math.MaxInt64, -math.MaxInt64)
	den := pick[int64](r, 1, 1, 1, 7, 1000, math.MaxInt64)
	q, err := unit.New(num, den, unit.Unit(r.IntN(int(unit.PoundForceFoot)+1)))
	if err != nil {
		return unit.Quantity{}
	}
	return q
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }
