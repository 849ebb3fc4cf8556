package strength

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// entry returns the entry with this id.
func entry(t *testing.T, id string) *Failure {
	t.Helper()
	list := Failures()
	i := slices.IndexFunc(list, func(f *Failure) bool { return f.ID() == id })
	if i < 0 {
		t.Fatalf("the catalogue has no %s", id)
	}
	return list[i]
}

func TestEveryWayIsComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Failures() {
		if missing := Missing(f); len(missing) > 0 {
			t.Errorf("%s has no %s", f.ID(), strings.Join(missing, ", no "))
		}
		if seen[f.ID()] {
			t.Errorf("%s stands twice", f.ID())
		}
		seen[f.ID()] = true
	}
}

// TestAMissingFieldOfAWayIsNamed takes the fields away one by one.
func TestAMissingFieldOfAWayIsNamed(t *testing.T) {
	for what, spoil := range map[string]func(f *Failure){
		"Piece":            func(f *Failure) { f.Piece = "" },
		"Mode":             func(f *Failure) { f.Mode = "" },
		"When":             func(f *Failure) { f.When = "" },
		"Formula":          func(f *Failure) { f.Formula = "" },
		"Source":           func(f *Failure) { f.Source = "" },
		"Roles":            func(f *Failure) { f.Roles, f.Example = nil, nil },
		"few enough Roles": func(f *Failure) { f.Roles, f.Example = make([]Role, grad.Width+1), make([]float64, grad.Width+1) },
		"By nor Needs":     func(f *Failure) { f.By = nil },
		"Take":             func(f *Failure) { f.Take = nil },
		"Model":            func(f *Failure) { f.Model = nil },
		"How":              func(f *Failure) { f.How = nil },
		"Example":          func(f *Failure) { f.Example = f.Example[1:] },
		`Name, Symbol or Unit of its role "height"`: func(f *Failure) {
			f.Roles = slices.Clone(f.Roles)
			f.Roles[2].Unit = ""
		},
	} {
		f := *entry(t, "head shears by tensile strength")
		if spoil(&f); !slices.Contains(Missing(&f), what) {
			t.Errorf("%s is not named: %q", what, Missing(&f))
		}
	}
}

// TestFormulasNameTheirRoles: every symbol stands in the formula.
func TestFormulasNameTheirRoles(t *testing.T) {
	for _, f := range Failures() {
		words := strings.FieldsFunc(f.Formula, func(r rune) bool { return !unicode.IsLetter(r) })
		for _, r := range f.Roles {
			if !slices.Contains(words, r.Symbol) {
				t.Errorf("%s: %s of the %s is not in %s", f.ID(), r.Symbol, r.Name, f.Formula)
			}
		}
	}
}

// reckoned is the load at some values in the roles of an entry, with its slopes.
type reckoned struct {
	Load  float64
	Slope []float64
}

// TestWaysAgainstTheOracle compares loads and slopes with testdata/oracle/failures.py
// at the example of each entry and near it, to eleven digits.
func TestWaysAgainstTheOracle(t *testing.T) {
	program := oracle.Python(t, "numpy")
	type asked struct {
		ID string    `json:"id"`
		V  []float64 `json:"v"`
	}
	var list []asked
	random := rand.New(rand.NewPCG(1, 2))
	for _, f := range Failures() {
		for range 20 {
			v := slices.Clone(f.Example)
			for i := range v {
				v[i] *= 0.9 + 0.2*random.Float64()
			}
			list = append(list, asked{f.ID(), v})
		}
	}
	want := oracle.Answers[reckoned](t, program, list, oracle.Script(t, "failures.py"))
	for i, q := range list {
		got := entry(t, q.ID).Load(q.V)
		near(t, q.ID, got.X, want[i].Load, 1e-11)
		for role, slope := range want[i].Slope {
			if math.Abs(got.D[role]-slope) > 1e-11*math.Abs(want[i].Load/q.V[role]) {
				t.Errorf("%s: slope in role %d %.12g, want %.12g", q.ID, role, got.D[role], slope)
			}
		}
	}
}

// TestEveryWayIsHeldAgainstAnother: each stands in the independent program.
func TestEveryWayIsHeldAgainstAnother(t *testing.T) {
	source, err := os.ReadFile(oracle.Script(t, "failures.py"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Failures() {
		if !bytes.Contains(source, []byte(`"`+f.ID()+`": `)) {
			t.Errorf("%s is not worked out by failures.py", f.ID())
		}
	}
}

// TestEveryWayHasAJob sees to it that some job of testdata/jobs comes to each entry.
func TestEveryWayHasAJob(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("only %d jobs in testdata/jobs (%v)", len(files), err)
	}
	used := map[string]bool{}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		job, err := jobfile.Read("", source)
		if err != nil {
			t.Fatal(err)
		}
		answers, err := Check(job, nil)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, a := range answers {
			for _, w := range a.Ways {
				used[w.Failure.ID()] = true
			}
		}
	}
	for _, f := range Failures() {
		if !used[f.ID()] {
			t.Errorf("no job in testdata/jobs has a piece of which the %s", f.ID())
		}
	}
}

// TestAddAndUndo: an entry of one's own counts until it is taken out again.
func TestAddAndUndo(t *testing.T) {
	torn := *entry(t, "stud breaks by tensile strength")
	torn.Mode, torn.By = "tears", []Property{Yield}
	before := len(check(t, screwedJoint()).Ways)
	undo := Add(&torn)
	if got := len(check(t, screwedJoint()).Ways); got != before+1 {
		t.Errorf("%d ways with the entry, %d without", got, before)
	}
	undo()
	if got := len(check(t, screwedJoint()).Ways); got != before {
		t.Errorf("%d ways after it was taken out, %d before it was put in", got, before)
	}
	refused := func(what string, f *Failure) {
		defer func() {
			if recover() == nil {
				t.Errorf("%s was taken", what)
			}
		}()
		Add(f)()
	}
	refused("an entry that is there", entry(t, "stud breaks by tensile strength"))
	refused("half an entry", &Failure{Piece: Stud, Mode: "tears"})
}

// TestABrittleTeeBreaks has grey iron, of which the tables have no yield and, in a wall
// of 20 mm, 180 MPa. By hand: arms of 3 mm, 180·16·64/(3·3) N; it does not bend.
func TestABrittleTeeBreaks(t *testing.T) {
	j := screwedJoint()
	j.Head = trade.Head{
		Kind: trade.TeeHead, Across: length("20"), Width: length("16"), Height: length("8"), Slot: length("12"),
		Material: "EN-GJL-200", Pos: here,
	}
	a := check(t, j)
	near(t, "tee breaks", way(t, a, "tee", Breaks).Load, 180*16*64/9., 1e-9)
	if slices.ContainsFunc(a.Ways, func(w Way) bool { return w.Mode == Bends }) {
		t.Error("a tee of grey iron bends")
	}
}
