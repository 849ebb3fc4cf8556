package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// woven is the test program of a room with all its changes in it.
//
// The body of a function with changes becomes a switch: one case for each change,
// which is the body with that change, and the body as it stands. The number of the
// change to make is in the environment (madeKey); a function tells the file named
// by traceKey when it is come by.
type woven struct {
	room, folder string // folder is where the program and all it is made of are
	changes      []change
	refused      []bool // by the compiler, by number of the change
	functions    []*function
	tests        []*test
	limit        time.Duration
	flags        []string
}

const madeKey, traceKey = "MUTATE_MADE", "MUTATE_TRACE"

// switchboard is the file that is added to a room; its verbs are the name of the
// package, the keys of the environment, and how many functions there are.
const switchboard = `package %s

import (
	"os"
	"strconv"
)

var mutateMade, _ = strconv.Atoi(os.Getenv(%q))

var mutateTrace = os.Getenv(%q)

var mutateCome [%d]bool

func mutateIn(function int) int {
	if mutateTrace != "" && !mutateCome[function] {
		mutateCome[function] = true
		file, err := os.OpenFile(mutateTrace, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666)
		if err != nil {
			panic(err)
		}
		defer file.Close()
		file.WriteString(strconv.Itoa(function) + "\n")
	}
	return mutateMade
}
`

// weave makes the program of a room, and finds out which test comes by which
// function.
func weave(room string, changes []change, limit time.Duration) (*woven, error) {
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return nil, err
	}
	w := &woven{room: room, folder: folder, changes: changes, refused: make([]bool, len(changes)), limit: limit}
	for i := range changes {
		c := &changes[i]
		if c.number = i + 1; c.function != nil && !slices.Contains(w.functions, c.function) {
			w.functions = append(w.functions, c.function)
		}
	}
	slices.SortFunc(w.functions, func(a, b *function) int { return a.start - b.start }) // each file is written in its order
	if err = w.build(); err == nil {
		err = w.findTests()
	}
	if err != nil {
		os.RemoveAll(folder)
		return nil, err
	}
	return w, nil
}

// refusal is where the compiler does not like a change.
var refusal = regexp.MustCompile(`change(\d+)\.go:`)

// build builds the program, and does without the changes that do not compile.
func (w *woven) build() error {
	for {
		overlay, err := w.write()
		if err != nil {
			return err
		}
		out, err := w.compile(overlay, w.program())
		if err == nil {
			return nil
		}
		found := refusal.FindAllSubmatch(out, -1)
		if len(found) == 0 {
			return fmt.Errorf("%w\n%s", err, out)
		}
		for _, f := range found {
			number, _ := strconv.Atoi(string(f[1]))
			w.refused[number-1] = true
		}
	}
}

func (w *woven) program() string { return filepath.Join(w.folder, "room.test") }

// compile compiles the tests of the room with an overlay; all errors are told.
func (w *woven) compile(overlay, program string) ([]byte, error) {
	return exec.Command("go", "test", "-c", "-vet=off", "-gcflags=-e", "-overlay", overlay, "-o", program, "./"+filepath.ToSlash(w.room)).CombinedOutput()
}

// write writes the files of the room with their changes, and returns the overlay
// that puts them in the place of the others.
func (w *woven) write() (overlay string, err error) {
	files := map[string][]byte{}
	for _, c := range w.changes {
		if files[c.file] == nil {
			files[c.file] = w.wovenFile(c.file, c.source)
		}
	}
	name, err := packageOf(w.changes[0].file)
	if err != nil {
		return "", err
	}
	files[filepath.Join(w.room, "mutate_switchboard.go")] = fmt.Appendf(nil, switchboard, name, madeKey, traceKey, max(1, len(w.functions)))
	return writeOverlay(w.folder, files)
}

func packageOf(file string) (string, error) {
	tree, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.PackageClauseOnly)
	if err != nil {
		return "", err
	}
	return tree.Name.Name, nil
}

// wovenFile returns a file with its changes woven in.
func (w *woven) wovenFile(file string, source []byte) []byte {
	var text bytes.Buffer
	done := 0
	for number, f := range w.functions {
		cases := w.cases(file, f)
		if cases == "" {
			continue
		}
		text.Write(source[done:f.start])
		fmt.Fprintf(&text, "{ switch mutateIn(%d) {%s\n//line %s:1\ndefault: %s } }", number, cases, file, source[f.start:f.end])
		done = f.end
	}
	text.Write(source[done:])
	return text.Bytes()
}

// cases returns the bodies of a function with a change in it. Each is a file of
// its own to the compiler, so that its errors tell of the change.
func (w *woven) cases(file string, f *function) string {
	var text strings.Builder
	for i, c := range w.changes {
		if c.file == file && c.function == f && !w.refused[i] {
			fmt.Fprintf(&text, "\n//line change%d.go:1\ncase %d: %s", c.number, c.number, c.changed(f.start, f.end))
		}
	}
	return text.String()
}

// writeOverlay writes files into a folder, and the overlay that puts them in
// place.
func writeOverlay(folder string, files map[string][]byte) (overlay string, err error) {
	replace := map[string]string{}
	for file, text := range files {
		whole, err := filepath.Abs(file)
		if err != nil {
			return "", err
		}
		replace[whole] = filepath.Join(folder, filepath.Base(file))
		if err := os.WriteFile(replace[whole], text, 0o666); err != nil {
			return "", err
		}
	}
	text, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	if err != nil {
		return "", err
	}
	overlay = filepath.Join(folder, "overlay.json")
	return overlay, os.WriteFile(overlay, text, 0o666)
}
