package keys

import (
	"regexp"

	"codeberg.org/oddleg/oddleg/num/expr"
)

// anID is what an id looks like: a letter, then letters, digits and _.
const anID = `^[A-Za-z][A-Za-z0-9_]*$`

var idPattern = regexp.MustCompile(anID)

// IsID reports whether a word looks like an id. Whether it may be one, IsReserved
// says.
func IsID(word string) bool { return idPattern.MatchString(word) }

// IsReserved reports whether a word means itself in an expression or a value, such
// as pi or mm, and so names nothing.
func IsReserved(word string) bool { return expr.Reserved(word) || word == "ft" }
