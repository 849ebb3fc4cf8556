package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// test is one test of a room, how long it takes, and which functions it comes by.
type test struct {
	name    string
	time    time.Duration
	comesBy map[int]bool
}

// findTests runs every test of the room by itself and with no change made. The
// quickest come first.
func (w *woven) findTests() error {
	drawsLots, err := drawsLots(w.room)
	if err != nil {
		return err
	}
	if w.flags = []string{"-test.short", "-test.failfast"}; drawsLots {
		w.flags = append(w.flags, "-rapid.nofailfile") // the tree stays as it is
	}
	out, err := w.command(0, w.program(), "-test.list", "^(Test|Example|Fuzz)").Output()
	if err != nil {
		return err
	}
	for name := range strings.FieldsSeq(string(out)) {
		t, err := w.findTest(name)
		if err != nil {
			return err
		}
		w.tests = append(w.tests, t)
	}
	slices.SortStableFunc(w.tests, func(a, b *test) int { return int(a.time - b.time) })
	return nil
}

// drawsLots reports whether tests of a room draw lots (pgregory.net/rapid).
func drawsLots(room string) (bool, error) {
	files, err := filepath.Glob(filepath.Join(room, "*_test.go"))
	if err != nil {
		return false, err
	}
	for _, file := range files {
		if text, err := os.ReadFile(file); err != nil || strings.Contains(string(text), "pgregory.net/rapid") {
			return true, err
		}
	}
	return false, nil
}

func (w *woven) findTest(name string) (*test, error) {
	trace := filepath.Join(w.folder, "trace")
	if err := os.RemoveAll(trace); err != nil {
		return nil, err
	}
	command := w.run(0, w.program(), []string{name})
	command.Env = append(command.Env, traceKey+"="+trace)
	begun := time.Now()
	if out, err := command.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%s fails with no change made: %w\n%s", name, err, out)
	}
	t := &test{name: name, time: time.Since(begun), comesBy: map[int]bool{}}
	text, err := os.ReadFile(trace)
	if os.IsNotExist(err) {
		return t, nil
	}
	for line := range strings.FieldsSeq(string(text)) {
		function, err := strconv.Atoi(line)
		if err != nil {
			return nil, err
		}
		t.comesBy[function] = true
	}
	return t, err
}

// command is a test program of the room, with the change of a number made, 0 for
// none.
func (w *woven) command(made int, program string, arguments ...string) *exec.Cmd {
	command := exec.Command(program, arguments...)
	command.Dir = w.room
	command.Env = append(os.Environ(), madeKey+"="+strconv.Itoa(made))
	return command
}

// run is a test program that runs some tests.
func (w *woven) run(made int, program string, tests []string) *exec.Cmd {
	arguments := append([]string{"-test.run", "^(" + strings.Join(tests, "|") + ")$", "-test.timeout", w.limit.String()}, w.flags...)
	return w.command(made, program, arguments...)
}

// try reports whether a test notices a change, and whether it compiles.
func (w *woven) try(c *change) (noticed, compiles bool) {
	if w.refused[c.number-1] {
		return false, false
	}
	program, made := w.program(), c.number
	if c.function == nil {
		if program, made = w.alone(c), 0; program == "" {
			return false, false
		}
		defer os.RemoveAll(filepath.Dir(program))
	}
	quick, others := w.thatComeBy(c.function)
	for _, tests := range [][]string{quick, others} {
		if len(tests) > 0 && w.run(made, program, tests).Run() != nil {
			return true, true
		}
	}
	return false, true
}

// thatComeBy returns the tests that come by a function; all, where it is none.
// The quick ones are those that take a tenth of the time together: they notice
// most.
func (w *woven) thatComeBy(f *function) (quick, others []string) {
	number := slices.Index(w.functions, f)
	var sum, whole time.Duration
	for _, t := range w.tests {
		whole += t.time
	}
	for _, t := range w.tests {
		if sum += t.time; f != nil && !t.comesBy[number] {
			continue
		}
		if sum <= whole/10 {
			quick = append(quick, t.name)
		} else {
			others = append(others, t.name)
		}
	}
	return quick, others
}

// alone builds the program of the room with the one change of something that
// stands in no function; nothing, where it does not compile.
func (w *woven) alone(c *change) (program string) {
	folder, err := os.MkdirTemp(w.folder, "alone")
	if err != nil {
		panic(err)
	}
	overlay, err := writeOverlay(folder, map[string][]byte{c.file: []byte(c.changed(0, len(c.source)))})
	if err != nil {
		panic(err)
	}
	program = filepath.Join(folder, "room.test")
	if _, err := w.compile(overlay, program); err != nil {
		os.RemoveAll(folder)
		return ""
	}
	return program
}
