package facts

import (
	"fmt"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/num/near"
)

// threadsByName holds every thread under its designation without blanks and
// capitals, a coarse metric one also with its pitch: m8 and m8x1.25.
var threadsByName = sync.OnceValue(func() map[string]Thread {
	byName := map[string]Thread{}
	for _, t := range readThreads() {
		byName[closed(t.Designation)] = t
		if t.Family == "M-coarse" {
			byName[fmt.Sprintf("%sx%g", closed(t.Designation), t.Pitch)] = t
		}
	}
	return byName
})

// closed is a designation without blanks and capitals.
func closed(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }

// FindThread returns the thread of a designation; blanks and capitals do not
// count, and a coarse metric thread may be written with its pitch.
func FindThread(designation string) (Thread, bool) {
	t, ok := threadsByName()[closed(designation)]
	return t, ok
}

// ThreadNamed is FindThread with an error that says what would be right.
func ThreadNamed(designation string) (Thread, error) {
	if t, ok := FindThread(designation); ok {
		return t, nil
	}
	var names []string
	for _, t := range readThreads() {
		names = append(names, t.Designation)
	}
	hint := "write it as the tables do, 7/16 BSW or M10x1"
	if name, ok := near.Word(designation, names); ok {
		hint = "did you mean " + name + "?"
	}
	return Thread{}, fmt.Errorf("%q is no thread of the tables; %s", designation, hint)
}
