package main

import (
	"context"
	"io"
	"regexp"
	"slices"
	"strings"

	"oddleg/cmd/wired"
	"oddleg/facts"
	"oddleg/record"
	"oddleg/report"
	"oddleg/store"
	"oddleg/unit"
)

// findCommand searches the record.
type findCommand struct {
	Words  []string    `arg:"" optional:"" help:"What is sought: a machine, a part, a size (11.11 mm), a thread (7/16 BSW), any word. Nothing lists all jobs."`
	Record recordFlags `embed:""`
	JSON   bool        `name:"json" help:"Print what is found as JSON."`
}

// Run prints what is found.
func (c *findCommand) Run(s streams) error {
	asked := strings.Join(c.Words, " ")
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		hits, err := findIn(ctx, shop, asked)
		list := findings(hits)
		return answer{
			print: func(w io.Writer, style report.Style) error { return report.Found(w, asked, list, style) },
			json:  func(w io.Writer) error { return report.FoundJSON(w, list) },
		}, err
	})
}

// findIn searches, or lists all jobs where nothing is asked for.
func findIn(ctx context.Context, shop *store.Store, asked string) ([]record.Hit, error) {
	if strings.TrimSpace(asked) != "" {
		return shop.Find(ctx, queryOf(asked))
	}
	jobs, err := shop.Jobs(ctx)
	return hitsOf(jobs), err
}

// findings are hits in the words of a report.
func findings(hits []record.Hit) []report.Finding {
	list := make([]report.Finding, len(hits))
	for i, hit := range hits {
		list[i] = report.Finding{Matched: append([]string{}, hit.Matched...), Missing: append([]string{}, hit.Missing...), Places: append([]string{}, hit.Places...)}
		if hit.Job != nil {
			job := wired.Recorded(*hit.Job)
			list[i].Job = &job
			continue
		}
		list[i].Kit = strings.TrimSpace(hit.Tool.ID + ", " + hit.Tool.Kind + " " + hit.Tool.Size.Text)
	}
	return list
}

// emptyWords say nothing of what is sought.
var emptyWords = []string{
	"a", "all", "an", "and", "any", "are", "at", "do", "does", "for", "from", "had", "has", "have", "in", "is", "it", "of", "on", "or", "our",
	"take", "takes", "that", "the", "there", "this", "to", "was", "we", "what", "where", "which", "who", "with",
}

// longestPhrase is how many words a size or a thread may be written in.
const longestPhrase = 4

// queryOf reads what is sought. Threads and sizes are taken out of it where they
// stand, the longest first; what is left are words.
func queryOf(asked string) record.Query {
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
	mm, ok := lengthWithUnit(text)
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

// lengthWithUnit reads a length that says its unit: a bare number may be a year.
func lengthWithUnit(text string) (mm float64, ok bool) {
	metric, wrong := unit.ParseLength(text, unit.Millimetre)
	inch, wrongInch := unit.ParseLength(text, unit.Inch)
	if wrong != nil || wrongInch != nil || metric.Sign() <= 0 || !metric.Equal(inch) {
		return 0, false
	}
	return metric.Inside(), true
}
