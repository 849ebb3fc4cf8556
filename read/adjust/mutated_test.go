package adjust

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
)

var figure = regexp.MustCompile(`\d+(\.\d+)?`)

// mutated changes a few figures of a job file, or leaves a line out.
func mutated(source string, random *rand.Rand) string {
	for range 1 + random.IntN(3) {
		lines := strings.Split(source, "\n")
		at := random.IntN(len(lines))
		found := figure.FindAllStringIndex(lines[at], -1)
		if len(found) == 0 || random.IntN(8) == 0 {
			if strings.HasPrefix(strings.TrimSpace(lines[at]), "- {") {
				lines = append(lines[:at], lines[at+1:]...)
			}
		} else {
			place := found[random.IntN(len(found))]
			factor := []string{"0", "0.001", "1e3", "1e-7", "90", "17.3", "1e8"}[random.IntN(7)]
			lines[at] = lines[at][:place[0]] + factor + lines[at][place[1]:]
		}
		source = strings.Join(lines, "\n")
	}
	return source
}

// TestMutatedJobsNeverPanic adjusts jobs with wild figures: whatever the reader
// takes, the adjustment answers, if only with faults.
func TestMutatedJobsNeverPanic(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs")
	}
	random := rand.New(rand.NewPCG(seed, 9))
	times := 1 + 600/stride()/10
	adjusted := 0
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for range times {
			text := mutated(string(source), random)
			if job, err := jobfile.Read(file, []byte(text)); err == nil {
				adjusted++
				func() {
					defer func() {
						if fault := recover(); fault != nil {
							t.Fatalf("%v in\n%s", fault, text)
						}
					}()
					if r, err := Adjust(job); err == nil && len(job.Sizes) > 0 {
						r.Shares(job.Sizes[0].ID)
					}
				}()
			}
		}
	}
	if adjusted < len(files)/2 {
		t.Errorf("only %d mutated jobs could be read", adjusted)
	}
}
