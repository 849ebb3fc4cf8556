package sound_test

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/sound"
)

// jobs reads every example and test job, and takes from it where everything was
// written: what is left is a job as a program would make it.
func jobs(t *testing.T) map[string]*trade.Job {
	t.Helper()
	found := map[string]*trade.Job{}
	for _, pattern := range []string{"../../examples/*.yaml", "../../testdata/jobs/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			job, err := jobfile.ReadPlanned(file, text)
			if err != nil {
				t.Fatalf("%s: %v", file, err)
			}
			strip(reflect.ValueOf(job))
			found[filepath.Base(file)] = job
		}
	}
	if len(found) < 20 {
		t.Fatalf("only %d jobs found: the test looks in the wrong place", len(found))
	}
	return found
}

// strip sets every place in a file to that of what a program made.
func strip(v reflect.Value) {
	switch {
	case v.Type() == reflect.TypeFor[trade.Pos]():
		v.SetZero()
	case v.Kind() == reflect.Pointer && !v.IsNil():
		strip(v.Elem())
	case v.Kind() == reflect.Struct && v.CanSet():
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				strip(v.Field(i))
			}
		}
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		for i := range v.Len() {
			strip(v.Index(i))
		}
	}
}

// TestJobsMadeInGoAreSound holds of every example and test job once nothing says
// where it was written.
func TestJobsMadeInGoAreSound(t *testing.T) {
	for name, job := range jobs(t) {
		if err := sound.Check(job); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// BenchmarkCheck checks the job that has something of everything.
func BenchmarkCheck(b *testing.B) {
	job := whole()
	for b.Loop() {
		if err := sound.Check(job); err != nil {
			b.Fatal(err)
		}
	}
}
