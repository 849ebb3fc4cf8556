package jobedit_test

import (
	"os"
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// heading is the head of a job.
const heading = "oddleg: 1\njob: test\n"

// sample returns the text of one of the jobs that tests read.
func sample(t testing.TB, name string) string {
	t.Helper()
	source, err := os.ReadFile("../../testdata/jobs/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(source)
}

// read reads a right file.
func read(t testing.TB, source string) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func equal(t testing.TB, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\ngot  %+v\nwant %+v", what, got, want)
	}
}
