package strength

import (
	"fmt"
	"slices"
	"strings"
	"sync/atomic"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Mode is a way of giving way, as a verb.
type Mode string

// The modes.
const (
	Breaks  Mode = "breaks"
	Strips  Mode = "strips"
	Shears  Mode = "shears"
	Crushes Mode = "crushes"
	Bends   Mode = "bends"
	Slips   Mode = "slips"
)

// Piece is what gives way, in words. Keys and pins of a job go by their ids.
type Piece string

// The pieces.
const (
	Stud       Piece = "stud"
	StudThread Piece = "stud thread"
	NutThread  Piece = "nut thread"
	Head       Piece = "head"
	Tee        Piece = "tee"
	Pin        Piece = "pin"
	Key        Piece = "key"
	Fitted     Piece = "press fit"
)

// Property is what the tables say of a material.
type Property string

// The properties.
const (
	Tensile   Property = "tensile strength"
	Yield     Property = "yield"
	Proof     Property = "proof stress" // of a nut of a property class
	Stiffness Property = "stiffness"
	Expansion Property = "expansion"
)

// Role is something that a load depends on.
type Role struct {
	Name, Symbol, Unit string
}

// Args are the values in the roles of a way of giving, with their gradients.
type Args []grad.Number

// Failure is one entry of the catalogue: how one piece gives in one way.
type Failure struct {
	Piece   Piece
	Mode    Mode
	When    string // one plain sentence: what happens
	Formula string // of the load in N, "F = R·A"
	Source  string

	// Roles are what the load depends on. The first is the stress, where By names
	// the properties that may be it: the first that the tables have of the material.
	// Needs are properties besides. Unless names one with which it does not go so.
	Roles  []Role
	By     []Property
	Needs  []Property
	Unless Property

	Fuse    trade.Fuse // by what a job means the piece to give way first; a key or pin by its id
	Clamped bool       // the pull of the stud alone may do it, while it is tightened
	Assumes []string   // sentences about what is taken for granted

	// Take returns the values of the roles after the stress, at the least that the
	// piece may hold and at the most, nil where the piece cannot give so. Model is the
	// load in N at values in all roles.
	Take  func(l *Loaded) (least, most []float64)
	Model func(a Args) grad.Number

	// Begins is from which part of the load at the yield stress the piece is changed
	// for good, 0: from all of it. AtOnce says that it gives as soon as it is changed.
	// MostRatio is the factor of Model for the most that the piece may hold, 0: 1.
	Begins    float64
	AtOnce    bool
	MostRatio float64

	Softer bool // of the piece and what it bears on, the softer gives

	// Turned returns the pull from which the piece gives while it is tightened, nil
	// where turning makes no difference. How says stress and area in words.
	Turned func(l *Loaded, stress float64) float64
	How    func(l *Loaded, v []float64, load float64) unit.Text

	Example []float64 // values in all roles, for a worked figure and for the tests
}

// Name is the piece and its verb: "nut thread strips". Where a piece gives in one
// way by different properties of its material, several entries have one name.
func (f *Failure) Name() string { return string(f.Piece) + " " + string(f.Mode) }

// ID tells an entry from all others: "nut thread strips by proof stress".
func (f *Failure) ID() string {
	if len(f.By) == 0 {
		return f.Name()
	}
	return f.Name() + " by " + string(f.By[0])
}

// Load returns the load at these values in the roles, in N, with its gradient.
func (f *Failure) Load(v []float64) grad.Number {
	args := make(Args, len(v))
	for i, x := range v {
		args[i] = grad.Var(x, i)
	}
	return f.Model(args)
}

// Missing names what an entry lacks; it is empty for a complete one.
func Missing(f *Failure) []string {
	var list []string
	lacks := func(is bool, what string) {
		if is {
			list = append(list, what)
		}
	}
	lacks(f.Piece == "", "Piece")
	lacks(f.Mode == "", "Mode")
	lacks(f.When == "", "When")
	lacks(f.Formula == "", "Formula")
	lacks(f.Source == "", "Source")
	lacks(len(f.Roles) == 0, "Roles")
	lacks(len(f.Roles) > grad.Width, "few enough Roles")
	lacks(len(f.By)+len(f.Needs) == 0, "By nor Needs")
	lacks(f.Take == nil, "Take")
	lacks(f.Model == nil, "Model")
	lacks(f.How == nil, "How")
	lacks(len(f.Example) != len(f.Roles), "Example")
	for _, r := range f.Roles {
		lacks(r.Name == "" || r.Symbol == "" || r.Unit == "", fmt.Sprintf("Name, Symbol or Unit of its role %q", r.Name))
	}
	return list
}

var current = func() *atomic.Pointer[[]*Failure] {
	var p atomic.Pointer[[]*Failure]
	all := slices.Concat(studFailures, threadFailures, headFailures, shearedFailures, pressFailures)
	p.Store(&all)
	return &p
}()

// Failures returns the whole catalogue. The entries are shared and must not be
// changed.
func Failures() []*Failure { return slices.Clone(*current.Load()) }

// Add puts an entry of the caller's own at the end of the catalogue, for every joint
// that is worked out from then on. It panics on one that is not complete, or that
// is there already. The catalogue is one for the whole program; undo puts it
// back to what it was before.
func Add(f *Failure) (undo func()) {
	if missing := Missing(f); len(missing) > 0 {
		panic("strength: " + f.Name() + " has no " + strings.Join(missing, ", no "))
	}
	before := current.Load()
	if slices.ContainsFunc(*before, func(there *Failure) bool { return there.ID() == f.ID() }) {
		panic("strength: there is an entry " + f.ID() + " already")
	}
	after := append(slices.Clone(*before), f)
	current.Store(&after)
	return func() { current.Store(before) }
}
