// Package expr reads formulas over the sizes and gauge pieces of a job and
// works out their values with exact gradients.
//
// A formula is written with + - * / ^, brackets, the functions sqrt exp ln sin
// cos tan asin acos atan abs min max, the constant pi, names, and numbers with
// or without a unit: (mouth - nose)/(2*tan(taper)) + 1/8 in. Every part of it
// has a dimension, and what does not go together is an error with its place;
// Parse gives the rules. An Expr is immutable: any number of goroutines may
// evaluate one at the same time.
package expr

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Env is what a formula may speak of.
type Env struct {
	// Bare is the unit of a constant that is added to or compared with a length
	// without having one, Millimetre or Inch.
	Bare unit.Unit

	// Lookup returns what a name stands for, false where it is not known. A name
	// may have one dot in it, part.nose; it is looked up whole.
	Lookup func(name string) (Symbol, bool)

	// Names are those that may have been meant by one that is not known.
	Names []string
}

// Symbol is what a name stands for.
type Symbol struct {
	Dimension unit.Dimension
}

// Expr is a formula that has been read and checked.
type Expr struct {
	text      string
	dimension Dimension
	names     []string
	uses      []use
	program   []instruction
}

// use is one place in the text where a name stands.
type use struct {
	start, end int // in bytes
	name       int // index into names
}

// Error says what is wrong in a formula.
type Error struct {
	Column int    // where, in runes of the formula from 1
	Text   string // what stands there; empty at the end
	Want   string // what was expected
}

// Error returns the column, what stands there and what was expected.
func (e *Error) Error() string {
	if e.Text == "" {
		return fmt.Sprintf("column %d: %s", e.Column, e.Want)
	}
	return fmt.Sprintf("column %d: %q: %s", e.Column, e.Text, e.Want)
}

// Dimension returns what the value of the formula measures.
func (e *Expr) Dimension() Dimension { return e.dimension }

// Names returns the distinct names in the formula, in the order in which they
// are first used. The list is not to be changed.
func (e *Expr) Names() []string { return e.names }

// String returns the formula as it was written.
func (e *Expr) String() string { return e.text }

// WithNumbers returns the formula with every name replaced by what show
// returns for it, in brackets where that begins with a minus.
func (e *Expr) WithNumbers(show func(name string) string) string {
	var b strings.Builder
	at := 0
	for _, u := range e.uses {
		shown := show(e.names[u.name])
		if strings.HasPrefix(shown, "-") {
			shown = "(" + shown + ")"
		}
		b.WriteString(e.text[at:u.start])
		b.WriteString(shown)
		at = u.end
	}
	b.WriteString(e.text[at:])
	return b.String()
}

// column returns the column of a byte of text.
func column(text string, at int) int { return utf8.RuneCountInString(text[:at]) + 1 }
