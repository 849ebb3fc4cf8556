package sound_test

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/sound"
)

// TestWholeIsSound holds of the job that the others spoil.
func TestWholeIsSound(t *testing.T) {
	if err := sound.Check(whole()); err != nil {
		t.Error(err)
	}
}

// spoilt is a way to spoil the whole job, the fault that comes of it, and the file
// of testdata/faults that has the same fault in writing.
type spoilt struct {
	file string
	do   func(j *trade.Job)
	want string
}

var spoilts = slices.Concat(spoiltKit, spoiltSizes, spoiltReadings, spoiltChecks, spoiltPart, spoiltShapes,
	spoiltJoints, spoiltShop, spoiltWork, spoiltSurveys)

// TestSpoiltJobsAreTold spoils the whole job in every way that is listed: the fault
// says in words where it is, for a job made in Go has no lines.
func TestSpoiltJobsAreTold(t *testing.T) {
	for _, s := range spoilts {
		job := whole()
		s.do(job)
		err := sound.Check(job)
		var faults trade.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: no fault where %q should be", s.file, s.want)
			continue
		}
		if !slices.ContainsFunc(faults, func(f trade.Fault) bool { return strings.Contains(f.Error(), s.want) }) {
			t.Errorf("%s: said\n%v\nwant %s", s.file, err, s.want)
		}
	}
}

// ofForm are the files of testdata/faults whose faults are in how they are written,
// so that no job made in Go can have them.
var ofForm = []string{
	"after-the-end", "anchor", "block-text-in-brackets", "colon-in-text", "complex-key", "control-character",
	"decimal-comma",
	"directive", "duplicate-key", "empty-file", "empty-item", "empty-value", "entry-shape", "indentation",
	"key-without-value", "kit-key", "kit-other", "length-bare-fraction", "length-list", "length-nan",
	"length-unreadable",
	"list-on-key-line", "machine", "many-at-once", "mapping-in-brackets", "merge-key", "missing-blank",
	"missing-comma", "nested-too-deep",
	"no-head", "not-a-mapping", "number-size", "part-shape-of-section", "reading-key", "reserved-character",
	"section-shape", "set-aside",
	"shape-of-shape", "size-key", "tab-indent", "tag", "too-many-digits", "two-documents", "unclosed-brace",
	"unclosed-bracket",
	"unclosed-quote", "unknown-section", "version", "wrapped-minus",
}

// TestEveryFaultOfMeaningHasATwin holds that each file of testdata/faults is either
// of form, or has its fault made in Go among those above.
func TestEveryFaultOfMeaningHasATwin(t *testing.T) {
	files, err := filepath.Glob("../../testdata/faults/*.yaml")
	if err != nil || len(files) < 100 {
		t.Fatalf("only %d files of faults found: %v", len(files), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		twin := slices.ContainsFunc(spoilts, func(s spoilt) bool { return s.file == name })
		if twin == slices.Contains(ofForm, name) {
			t.Errorf("%s: it must either be of form or have a twin made in Go", name)
		}
	}
}
