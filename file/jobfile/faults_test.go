package jobfile_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// wanted is a comment at the head of a wrong file: where a fault is, and part
// of what must be said of it.
var wanted = regexp.MustCompile(`(?m)^# want (\d+):(\d+): (.+)$`)

// TestFaults reads every wrong file. All that its comments say, constructed
// from the rules of the format, must be found, in that order, and nothing else.
func TestFaults(t *testing.T) {
	files, err := filepath.Glob("../../testdata/faults/*.yaml")
	if err != nil || len(files) < 60 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			expect := wanted.FindAllStringSubmatch(string(source), -1)
			faults := faultsOf(t, source)
			for i := range max(len(faults), len(expect)) {
				if i >= len(expect) {
					t.Errorf("not expected: %v", faults[i])
				} else if i >= len(faults) {
					t.Errorf("not found: %s", expect[i][0])
				} else if !matches(faults[i], expect[i]) {
					t.Errorf("got  %v\n%s", faults[i], expect[i][0])
				}
			}
			if len(expect) == 0 {
				t.Error("the file does not say what is wrong in it")
			}
		})
	}
}

// faultsOf reads a wrong file, of which nothing may be left.
func faultsOf(t *testing.T, source []byte) trade.Faults {
	t.Helper()
	job, err := jobfile.Read("", source)
	if job != nil {
		t.Error("a wrong file made a job")
	}
	var faults trade.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("the error is %v, not faults", err)
	}
	return faults
}

func matches(fault trade.Fault, expect []string) bool {
	line, _ := strconv.Atoi(expect[1])
	column, _ := strconv.Atoi(expect[2])
	return fault.Pos == trade.Pos{Line: line, Column: column} && strings.Contains(fault.Text, expect[3])
}

// head is the least that every file has.
const head = "oddleg: 1\njob: test\n"

// TestText holds what is refused before YAML is looked at. The places are
// counted by hand.
func TestText(t *testing.T) {
	for _, c := range []struct{ name, source, want string }{
		{"too large", head + strings.Repeat("#", yamltree.MaxSize), "1:1: the file has"},
		{"not UTF-8", head + "machine: {what: \xff}", "3:17: this byte is no text"},
		{"cut rune", head + "# \xc3", "3:3: this byte is no text"},
		{"null byte", head + "# a\x00", "3:4: a control character"},
		{"escape", head + "# a\x1b[31m", "3:4: a control character"},
		{"tab", head + "sizes:\n  \ta: {kind: width}", "4:3: a tab at the beginning"},
		{"tab after a carriage return", "oddleg: 1\r\njob: test\r\n\tsizes: {}", "3:1: a tab at the beginning"},
		{"blank lines", head + strings.Repeat(" \n", 41) + "units: mm", "43:2: more than 40 blank lines"},
		{"arrows", head + "machine: {what: " + strings.Repeat("<", 41), "3:57: more than 40 <"},
		{"marks", head + strings.Repeat(":", 300_000), "3:299999: more than 300000 brackets"},
		{"after runes of several bytes", "oddleg: 1\njob: Prüfling für ⌀ 5\nunits: µm", "3:8: the file: unknown units"},
		{"behind runes of several bytes", "oddleg: 1\njob: x\nmachine: {what: ⌀ µ, year: 5}", "3:22: machine: unknown key"},
	} {
		faults := faultsOf(t, []byte(c.source))
		if got := faults.Error(); !strings.HasPrefix(got, c.want) || len(faults) > 1 {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// TestEveryFaultAtOnce: a thousand wrong lines make a thousand faults, though
// guesses at what was meant end long before; of more, one stands for the rest.
func TestEveryFaultAtOnce(t *testing.T) {
	source := head + "sizes:\n"
	for i := range 1100 {
		source += fmt.Sprintf("  s%d: {kind: widht}\n", i)
	}
	faults := faultsOf(t, []byte(source))
	if len(faults) != 1001 {
		t.Fatalf("%d faults", len(faults))
	}
	if want := `4:14: size "s0": unknown kind "widht"; did you mean "width"?`; faults[0].Error() != want {
		t.Errorf("got %v, want %s", faults[0], want)
	}
	if want := "1004:17: here and elsewhere"; !strings.HasPrefix(faults[1000].Error(), want) {
		t.Errorf("got %v, want %s", faults[1000], want)
	}
	if strings.Contains(faults[999].Text, "did you mean") {
		t.Errorf("a guess is still made in %v", faults[999])
	}
}
