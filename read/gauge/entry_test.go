package gauge

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TestEveryMethodIsComplete names the method and the field that is missing.
func TestEveryMethodIsComplete(t *testing.T) {
	for _, m := range Methods() {
		for _, field := range Missing(m) {
			t.Errorf("%s has no %s", m.ID, field)
		}
	}
}

// TestAMissingFieldIsNamed takes each field from a complete entry in turn.
func TestAMissingFieldIsNamed(t *testing.T) {
	for what, spoil := range map[string]func(m *Method){
		"ID":                              func(m *Method) { m.ID = "" },
		"Family":                          func(m *Method) { m.Family = "" },
		"When":                            func(m *Method) { m.When = "" },
		"SetUp":                           func(m *Method) { m.SetUp = "" },
		"For":                             func(m *Method) { m.For = nil },
		"Words":                           func(m *Method) { m.Words = nil },
		"Formula":                         func(m *Method) { m.Formula = "" },
		"Traps":                           func(m *Method) { m.Traps = nil },
		"Source":                          func(m *Method) { m.Source = "" },
		"Roles":                           func(m *Method) { m.Roles = nil },
		"Example":                         func(m *Method) { m.Example = m.Example[:1] },
		"Sketch":                          func(m *Method) { m.Sketch = nil },
		"Jaw nor ReadBy":                  func(m *Method) { m.Jaw = NoJaw },
		"Kin, Plainer, Meets nor Apart":   func(m *Method) { m.Kin, m.Plainer, m.Meets = nil, nil, nil },
		"Model nor Pairs":                 func(m *Method) { m.Model = nil },
		"two plugs for its HolesFor":      func(m *Method) { m.HolesFor = "wall" },
		"role pitch for its Proves":       func(m *Method) { m.Proves = []Proof{{ScrewEffective, "wall", 1}} },
		"place touched as its first role": func(m *Method) { m.Pairs = true },
		"role centres for its HolesFor":   func(m *Method) { m.HolesFor = "centres" },
		"role or numbers to try for its Counting": func(m *Method) { m.Counting = &Counting{Role: "pin"} },
		"role wheel that its SetUp names":         func(m *Method) { m.SetUp += " of {wheel}" },
		"words in its SetUp of its role pin":      func(m *Method) { m.SetUp = "Read {wall}" },
		"Symbol of its role wall":                 func(m *Method) { m.Roles[0].Symbol = "" },
		"Sought of its role height":               func(m *Method) { m.Roles[2].Sought = "" },
		"Pieces of its role pin":                  func(m *Method) { m.Roles[1].Pieces = nil },
		"Counted or Uncounted of its role pin":    func(m *Method) { m.Roles[1].Counted = 0 },
		"SideOf of its role wall":                 func(m *Method) { m.Roles[0].Kind = Side },
	} {
		whole, _ := Find("over-two-pins")
		m := *whole
		m.Roles = slices.Clone(whole.Roles)
		spoil(&m)
		if !slices.Contains(Missing(&m), what) {
			t.Errorf("%s is not missed, only %v", what, Missing(&m))
		}
	}
}

// TestRolesAreTold holds the roles of each method apart.
func TestRolesAreTold(t *testing.T) {
	for _, m := range Methods() {
		seen := map[string]bool{}
		for _, r := range m.Roles {
			if seen[r.Name] || seen[r.Symbol] {
				t.Errorf("%s: role %q %q stands twice", m.ID, r.Name, r.Symbol)
			}
			seen[r.Name], seen[r.Symbol] = true, true
			if r.Chosen && !r.Piece || !r.Piece && (len(r.Pieces) > 0 || r.Counted != 0 || r.Uncounted) {
				t.Errorf("%s: %s is no piece's role and has pieces", m.ID, r.Name)
			}
		}
	}
}

// TestPointersReach: whatever an entry says of another method is there, in a
// role that takes such a size.
func TestPointersReach(t *testing.T) {
	reaches := func(m *Method, by, in string) {
		if other, ok := Find(by); !ok || other == m || in != "" && other.Role(in) < 0 {
			t.Errorf("%s points at %s.%s, which is not there", m.ID, by, in)
		}
	}
	for _, m := range Methods() {
		for _, kin := range m.Kin {
			reaches(m, kin, "")
		}
		for _, p := range m.Plainer {
			reaches(m, p.By, p.In)
			if m.Role(p.Role) < 0 {
				t.Errorf("%s: %s, met plainer by %s, is no role of it", m.ID, p.Role, p.By)
			}
		}
		for _, meets := range m.Meets {
			if m.Role(meets.Role) < 0 && len(m.Roles) > 0 || len(meets.Kinds) == 0 || meets.Rank < 1 {
				t.Errorf("%s meets %v in %q, rank %d", m.ID, meets.Kinds, meets.Role, meets.Rank)
			}
		}
		for _, p := range m.Proves {
			if m.Role(p.Role) < 0 || p.Rank < 1 {
				t.Errorf("%s proves in %q, rank %d", m.ID, p.Role, p.Rank)
			}
		}
		if m.Apart && len(m.Kin)+len(m.Plainer)+len(m.Meets) > 0 {
			t.Errorf("%s stands apart and is not alone", m.ID)
		}
	}
}

// TestCounted holds what each piece counts against the model: it moves the
// reading the same way, and where the reading follows it alone, by as much.
func TestCounted(t *testing.T) {
	for _, m := range Methods() {
		for i, r := range m.Roles {
			if r.Counted == 0 {
				continue
			}
			slope := model(m.Model).slope(m.Example, i)
			if twoTips := m.ID == "thread-ball-tips"; slope*r.Counted <= 0 && !twoTips { // they are sunk in the thread
				t.Errorf("%s: the reading moves by %.3f times %s, not %g", m.ID, slope, r.Name, r.Counted)
			}
			if alone := slices.Contains([]float64{0.5, 1, 2}, math.Abs(slope)); alone && slope != r.Counted {
				t.Errorf("%s: %s counts %g times, not %g", m.ID, r.Name, slope, r.Counted)
			}
		}
	}
}

// TestSetUpsSayAll fills every place: nothing in braces or brackets is left, and
// something that stands in a role is named.
func TestSetUpsSayAll(t *testing.T) {
	for _, m := range Methods() {
		said := m.Said(func(role, number string) (string, bool) { return number + " " + role + "_here", true })
		if strings.ContainsAny(said, "{}[]") || !strings.Contains(said, "_here") {
			t.Errorf("%s: %s", m.ID, said)
		}
		if !regexp.MustCompile(`^[A-Z][^.]*$`).MatchString(said) {
			t.Errorf("%s: %q is no sentence without its stop", m.ID, said)
		}
	}
}

// TestBracketsAreSaidOnlyWhereFilled reads the taper on its blocks and without.
func TestBracketsAreSaidOnlyWhereFilled(t *testing.T) {
	m, _ := Find("taper-over-rollers")
	for blocks, want := range map[bool]string{
		true:  "Stand the taper of SMALL-END on a plate, two ROLLER on equal blocks (BLOCK) against it, and read over them",
		false: "Stand the taper of SMALL-END on a plate, two ROLLER against it, and read over them",
	} {
		got := m.Said(func(role, number string) (string, bool) {
			return strings.TrimSpace(number + " " + strings.ToUpper(role)), role != "block" || blocks
		})
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestRanksAreClear: of the methods that serve one aim, meet one kind of size or
// prove one feature no two have the same rank.
func TestRanksAreClear(t *testing.T) {
	for _, reach := range Reaches() {
		for aim := range reaches {
			ranks := map[int]string{}
			for _, m := range reach.Methods {
				for _, p := range m.For {
					if p.Aim != Aim(aim) || reaches[aim].ID != reach.ID {
						continue
					}
					if ranks[p.Rank] != "" {
						t.Errorf("%s and %s are both number %d of %s", ranks[p.Rank], m.ID, p.Rank, reach.ID)
					}
					ranks[p.Rank] = m.ID
				}
			}
		}
		if len(reach.Methods) == 0 || reach.Title == "" || reach.Say == "" {
			t.Errorf("nothing reaches %q", reach.ID)
		}
	}
	for _, kind := range trade.SizeKinds {
		for _, surface := range trade.Surfaces {
			clear(t, string(kind)+" "+string(surface), Ways(kind, surface))
		}
	}
	for f := PartLength; f <= NutEffective; f++ {
		if clear(t, "a feature", Proving(f)); len(Proving(f)) == 0 {
			t.Errorf("nothing proves feature %d", f)
		}
	}
}

func clear(t *testing.T, what string, ways []Way) {
	t.Helper()
	for i := range ways[min(1, len(ways)):] {
		if ways[i].rank == ways[i+1].rank {
			t.Errorf("%s: %s and %s are equally plain", what, ways[i].Method.ID, ways[i+1].Method.ID)
		}
	}
}

// TestEverySizeCanBeReadPlainly: there is a way for each kind of size.
func TestEverySizeCanBeReadPlainly(t *testing.T) {
	for _, kind := range trade.SizeKinds {
		for _, surface := range trade.Surfaces {
			if len(Ways(kind, surface)) == 0 {
				t.Errorf("nothing meets a %s on %s by itself", kind, surface)
			}
		}
	}
}

// TestEveryInstrumentIsComplete names the instrument and the field that is
// missing, and holds any other to the end of both lists.
func TestEveryInstrumentIsComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, i := range Instruments() {
		for _, field := range MissingOf(i) {
			t.Errorf("%s has no %s", i.Kind, field)
		}
		if seen[string(i.Kind)] {
			t.Errorf("%s has two entries", i.Kind)
		}
		seen[string(i.Kind)] = true
	}
	seen = map[string]bool{}
	for _, p := range pieces {
		if p.Kind == "" || p.Name == "" || seen[string(p.Kind)] {
			t.Errorf("the piece %q has no Kind or Name, or two entries", p.Kind)
		}
		seen[string(p.Kind)] = true
	}
	instruments, kinds := InstrumentKinds(), PieceKinds()
	if instruments[len(instruments)-1] != trade.OtherInstrument || kinds[len(kinds)-1] != trade.OtherPiece {
		t.Error("any other is not the last")
	}
}

// TestAMissingFieldOfAnInstrumentIsNamed takes fields from a complete entry.
func TestAMissingFieldOfAnInstrumentIsNamed(t *testing.T) {
	for what, spoil := range map[string]func(i *Instrument){
		"Kind":  func(i *Instrument) { i.Kind = "" },
		"Name":  func(i *Instrument) { i.Name = "" },
		"Words": func(i *Instrument) { i.Words = nil },
		"single one of MPE, ErrorOfScale and ErrorUnknown": func(i *Instrument) { i.ErrorUnknown = true },
		"single one of Angles and Either":                  func(i *Instrument) { i.Angles, i.Either = true, true },
		"Jaws nor a method that names it":                  func(i *Instrument) { i.Kind, i.Jaws = "tape", nil },
	} {
		whole, _ := InstrumentOf(trade.HeightGauge)
		i := *whole
		spoil(&i)
		if !slices.Contains(MissingOf(&i), what) {
			t.Errorf("%s is not missed, only %v", what, MissingOf(&i))
		}
	}
}

// TestAddInstrumentAndPiece puts both in before any other, and takes them out.
func TestAddInstrumentAndPiece(t *testing.T) {
	before, piecesBefore := InstrumentKinds(), PieceKinds()
	undoTape := AddInstrument(&Instrument{Kind: "tape", Name: "tape", Words: []string{"pi tape"}, MPE: 0.02, Jaws: []Jaw{Closing}})
	undoDisc := AddPiece(&Piece{Kind: "disc", Name: "disc", Look: Cylinder})
	if list := InstrumentKinds(); list[len(list)-2] != "tape" {
		t.Errorf("the instruments are %v", list)
	}
	if list := PieceKinds(); list[len(list)-2] != "disc" || !PieceOf("disc").MistakenFor(PieceOf(trade.Pin)) {
		t.Errorf("the pieces are %v", list)
	}
	undoDisc()
	undoTape()
	if !slices.Equal(before, InstrumentKinds()) || !slices.Equal(piecesBefore, PieceKinds()) {
		t.Error("an entry is still there that was taken out")
	}
}

// TestDivisionsShareTheirSlips: the parts of each scale in each unit make one.
func TestDivisionsShareTheirSlips(t *testing.T) {
	for _, i := range Instruments() {
		for _, inches := range []bool{false, true} {
			sum := 0.0
			for _, d := range i.Divisions {
				if d.Inches == inches {
					sum += d.Part
				}
			}
			if len(i.Divisions) > 0 && math.Abs(sum-1) > 1e-12 {
				t.Errorf("%s: the slips in inches: %v add up to %g", i.Kind, inches, sum)
			}
		}
	}
}

// TestLendable: what a toolroom has, the plainest first (common practice, no
// source).
func TestLendable(t *testing.T) {
	for _, units := range []unit.Unit{unit.Millimetre, unit.Inch} {
		var names []string
		for _, i := range Lendable(units) {
			if _, err := ErrorOf(&i); err != nil {
				t.Error(err)
			}
			names = append(names, i.ID)
		}
		coarse, fine := "0.01 mm", "0.001 mm"
		if units == unit.Inch {
			coarse, fine = "0.0005 in", "0.0001 in"
		}
		want := []string{
			"a micrometer that reads to " + coarse, "a caliper", "a depth micrometer that reads to " + coarse,
			"a bore gauge that reads to " + coarse, "a protractor that reads to 5 minutes",
			"a micrometer that reads to " + fine, "a bore gauge that reads to " + fine,
		}
		if !slices.Equal(names, want) {
			t.Errorf("lent are %q", names)
		}
	}
}

// TestLentProtractor: a protractor that is said to read to 5 minutes reads to 5/60 of a degree (by definition),
// not to that rounded to a figure of radians, in whichever units the rest is lent.
func TestLentProtractor(t *testing.T) {
	want, err := unit.New(5, 60, unit.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range []unit.Unit{unit.Inch, unit.Millimetre} {
		lent := Lendable(u)
		i := slices.IndexFunc(lent, func(i trade.Instrument) bool { return i.Kind == trade.Protractor })
		if i < 0 {
			t.Fatalf("%v: no protractor is lent", u)
		}
		if got := lent[i].Resolution.Inside(); math.Abs(got-want.Inside()) > 1e-15 {
			t.Errorf("%v: it reads to %.12g rad, not to %.12g", u, got, want.Inside())
		}
	}
}

// TestAddAndUndo puts a method in after its family and takes it out again.
func TestAddAndUndo(t *testing.T) {
	whole, _ := Find("over-two-pins")
	m := *whole
	m.ID = "over-two-pins-again"
	before := Methods()
	undo := Add(&m)
	if found, ok := Find(m.ID); !ok || found != &m {
		t.Error("a method that was put in is not found")
	}
	after := Methods()
	at := slices.Index(after, &m)
	if len(after) != len(before)+1 || at < 1 || after[at-1].Family != m.Family || after[at+1].Family == m.Family {
		t.Error("a method that was put in does not end its family")
	}
	undo()
	if _, ok := Find(m.ID); ok || !slices.Equal(before, Methods()) {
		t.Error("a method is still there that was taken out")
	}
	for what, spoil := range map[string]func(m *Method){
		"taken": func(m *Method) { m.ID = whole.ID }, "incomplete": func(m *Method) { m.SetUp = "" },
	} {
		one := m
		spoil(&one)
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("a method that is %s is put in", what)
				}
			}()
			Add(&one)
		}()
	}
}

func TestMentions(t *testing.T) {
	for _, c := range []struct {
		id, word string
		want     bool
	}{
		{"over-two-pins", "PIN", true},      // its name, whatever the letters
		{"over-two-pins", "undercut", true}, // one of its words
		{"over-two-pins", "wall", true},     // a role
		{"lost-motion", "backlash", true},   // a word and a role
		{"gear-span", "base tangent", true}, // words of two
		{"over-two-pins", "protractor", false},
		{"runout", "indicator", true}, // a word of the instrument that reads it
	} {
		m, _ := Find(c.id)
		if m.Mentions(c.word) != c.want {
			t.Errorf("%s has to do with %q: %v", c.id, c.word, !c.want)
		}
	}
}
