package jobfile

import (
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/num/near"
)

// complaints gathers what is wrong, and guesses at what a word should have been.
type complaints struct {
	faults yamltree.Faults
}

// fault adds a fault at the place of a node.
func (r *complaints) fault(n yamltree.Node, format string, args ...any) {
	r.faults.Add(n.Pos, format, args...)
}

// mostGuesses is how many unknown words of a file get a guess at what they
// should have been: each is compared with all that there are.
const mostGuesses = 100

// mostListed is how many words a fault lists of which one would be right.
const mostListed = 20

// unknown adds a fault for a word that is none of those known.
func (r *complaints) unknown(word yamltree.Node, about, what string, known []string) {
	likely, found := "", false
	if r.guesses() {
		likely, found = near.Word(word.Text, known)
	}
	switch {
	case found:
		r.fault(word, "%s: unknown %s %s; did you mean %s?", about, what, yamltree.Quote(word.Text), yamltree.Quote(likely))
	case len(known) > 0 && len(known) <= mostListed:
		r.fault(word, "%s: unknown %s %s; it can be %s", about, what, yamltree.Quote(word.Text), strings.Join(known, ", "))
	default:
		r.fault(word, "%s: unknown %s %s", about, what, yamltree.Quote(word.Text))
	}
}

// guesses reports whether a guess at what a word should have been is still made.
func (r *complaints) guesses() bool { return r.faults.Count() < mostGuesses }
