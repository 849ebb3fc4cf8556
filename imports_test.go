package oddleg_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the path by which other programs require this one.
const module = "codeberg.org/oddleg/oddleg"

// order lists every room in the order of DESIGN.md: a room may import those
// above it, and none below. Rooms that stand in one line know nothing of each
// other.
var order = [][]string{
	{"num/near"},
	{"num/unit"},
	{"num/grad"},
	{"num/expr"},
	{"num/lsq"},
	{"num/geom"},
	{"tables/facts"},
	{"tables/limits"},
	{"job/trade"},
	{"job/record"},
	{"read/gauge"},
	{"read/survey"},
	{"job/keys"}, // below the catalogues: under a reading's "of" stand the roles of its methods
	{"read/sound"},
	{"read/adjust"},
	{"read/simulate"},
	{"read/blunder"},
	{"read/advise"},
	{"meaning/meant"},
	{"meaning/series"},
	{"make/fit"},
	{"make/mating"},
	{"make/strength"},
	{"make/part"},
	{"make/sketch"},
	{"make/hold"},
	{"make/lathe"},
	{"make/plan"},
	{"prove/upkeep"},
	{"prove/inspect"},
	{"show/ink"},
	{"show/doc"},
	{"show/draw"},
	{"show/picture"},
	{"show/booklet"},
	{"reckon"},
	{"show/say"},
	{"show/report", "show/term", "show/html", "show/asjson", "show/paper", "show/solid", "show/manual", "file/yamltree", "file/store"},
	{"file/jobfile"},
	{"file/jobedit"},
	{"file/index"},
	{"examples"},
	{"face/web"},
	{"cmd/oddleg", "bench"},
}

// apart are rooms for tests, which nothing else imports.
var apart = []string{"testdata/certified", "testdata/largejob", "testdata/oracle", "testdata/parttest", "testdata/surveytest", "job/record/recordtest", "face/web/proof", "mutate"}

// libraries says which rooms may import which modules from outside.
var libraries = map[string][]string{
	"num/lsq":            {"gonum.org/v1/gonum"},
	"read/simulate":      {"gonum.org/v1/gonum"},
	"make/fit":           {"gonum.org/v1/gonum"},
	"make/mating":        {"gonum.org/v1/gonum"},
	"file/yamltree":      {"github.com/goccy/go-yaml"},
	"file/store":         {"modernc.org/sqlite"},
	"show/paper":         {"codeberg.org/go-pdf/fpdf", "codeberg.org/go-fonts/dejavu"},
	"show/report":        {"rsc.io/qr"},
	"show/html":          {"github.com/a-h/templ"},
	"face/web":           {"github.com/a-h/templ"},
	"cmd/oddleg":         {"github.com/alecthomas/kong"},
	"testdata/certified": {"github.com/goccy/go-yaml"},
}

// TestImports proves that imports run one way only.
func TestImports(t *testing.T) {
	files := 0
	err := filepath.WalkDir(".", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		files++
		checkImports(t, filepath.ToSlash(file))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 10 {
		t.Fatalf("only %d files found: the test looks in the wrong place", files)
	}
}

func checkImports(t *testing.T, file string) {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	if err != nil {
		t.Error(err)
		return
	}
	room := path.Dir(file)
	if line(room) < 0 && !slices.Contains(apart, room) && !isWing(room) {
		t.Errorf("%s: the folder %s has no place in DESIGN.md's rooms", file, room)
	}
	for _, spec := range parsed.Imports {
		name, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Error(err)
			continue
		}
		if !mayImport(room, name) {
			t.Errorf("%s imports %s, which its room may not", file, name)
		}
	}
}

// line returns the line of a room in the order, -1 where it has none.
func line(room string) int {
	return slices.IndexFunc(order, func(rooms []string) bool { return slices.Contains(rooms, room) })
}

// isWing reports whether a folder is that of a wing: it holds rooms, and its
// own doc.
func isWing(folder string) bool {
	return slices.ContainsFunc(slices.Concat(order...), func(room string) bool { return path.Dir(room) == folder })
}

// mayImport reports whether a room may import a package.
func mayImport(room, name string) bool {
	if other, ours := strings.CutPrefix(name, module+"/"); ours {
		there := line(other)
		return there >= 0 && (slices.Contains(apart, room) || there < line(room))
	}
	if first, _, _ := strings.Cut(name, "/"); !strings.Contains(first, ".") {
		return true // the standard library
	}
	return slices.ContainsFunc(libraries[room], func(library string) bool {
		return name == library || strings.HasPrefix(name, library+"/")
	})
}
