package index

import (
	"regexp"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// emptyWords say nothing of what is sought.
var emptyWords = []string{
	"a", "all", "an", "and", "any", "are", "at", "do", "does", "for", "from", "had", "has", "have", "in", "is", "it", "of", "on", "or", "our",
	"take", "takes", "that", "the", "there", "this", "to", "was", "we", "what", "where", "which", "who", "with",
}

// longestPhrase is how many words a size or a thread may be written in.
const longestPhrase = 4

// Query reads what is sought, as a person asks for it. Threads and sizes are taken out of it where they
// stand, the longest first; what is left are words.
func Query(asked string) record.Query {
	var q record.Query
	words := strings.Fields(asked)
	for len(words) > 0 {
		used := 0
		for n := min(longestPhrase, len(words)); n > 0 && used == 0; n-- {
			if phrase(&q, strings.Join(words[:n], " ")) {
				used = n
			}
		}
		if used == 0 {
			used = 1
			if word := strings.Trim(words[0], `?!.,;:"'()`); word != "" && !slices.Contains(emptyWords, strings.ToLower(word)) {
				q.Words = append(q.Words, word)
			}
		}
		words = words[used:]
	}
	return q
}

// phrase takes a text for a thread or a size, if it is one.
func phrase(q *record.Query, text string) bool {
	text = strings.TrimRight(text, "?!.,;:")
	if thread, ok := facts.FindThread(withoutInch(text)); ok {
		q.Threads = append(q.Threads, thread.Designation)
		return true
	}
	mm, ok := LengthWithUnit(text)
	if ok {
		q.Sizes = append(q.Sizes, record.Span{MM: mm, Within: max(sameSize*mm, leastSpan)})
	}
	return ok
}

// inchSign is that of an inch in a designation, which the tables leave out.
var inchSign = regexp.MustCompile(`(\d)\s*(in|")\s+`)

// withoutInch makes 7/16" BSW and 7/16 in BSW what the tables have.
func withoutInch(text string) string { return inchSign.ReplaceAllString(text, "$1 ") }

// How far a size may be from one that is sought: a worn one by a hundredth of
// itself, a small one by some wear (common practice, no source).
const (
	sameSize  = 0.01
	leastSpan = 0.05
)

// LengthWithUnit reads a length that says its unit: a bare number may be a year.
// It is in mm.
func LengthWithUnit(text string) (mm float64, ok bool) {
	metric, wrong := unit.ParseLength(text, unit.Millimetre)
	inch, wrongInch := unit.ParseLength(text, unit.Inch)
	if wrong != nil || wrongInch != nil || metric.Sign() <= 0 || !metric.Equal(inch) {
		return 0, false
	}
	return metric.Inside(), true
}
