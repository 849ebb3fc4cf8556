package store

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Find returns what has all sizes and threads sought and fewest of the words
// missing, the nearest first; jobs that are put away are left out. A query for
// nothing finds nothing.
func (s *Store) Find(ctx context.Context, q record.Query) ([]record.Hit, error) {
	f := finder{ctx: ctx, db: s.db, all: map[subject]*tally{}}
	f.away, f.err = awayIDs(ctx, s.db)
	for _, span := range q.Sizes {
		f.size(span)
	}
	for _, thread := range q.Threads {
		f.thread(thread)
	}
	firm := f.asked
	for _, word := range q.Words {
		f.word(word)
	}
	if f.err != nil {
		return nil, s.told(f.err)
	}
	hits, err := f.hits(firm)
	return hits, s.told(err)
}

// subject is what a search leads to: a job, or something in the kit.
type subject struct {
	kit bool
	ref string
}

// tally is what a subject has of what is asked for.
type tally struct {
	met     map[int]bool
	matched []string
	off     float64
}

type finder struct {
	ctx   context.Context
	db    asker
	all   map[subject]*tally
	away  map[string]bool // jobs that are put away
	asked int
	words []string // asked for, each after the sizes and threads
	err   error
}

// match is one row that answers to what is asked for.
type match struct {
	source, ref, text string
	off               float64
}

func readMatch(r row) (m match, err error) { return m, r.Scan(&m.source, &m.ref, &m.text, &m.off) }

func (f *finder) size(span record.Span) {
	f.ask(`SELECT source, ref, name || ' ' || text, abs(mm - ?1) / max(?2, 1e-9) FROM sizes
		WHERE mm BETWEEN ?1 - ?2 AND ?1 + ?2 ORDER BY abs(mm - ?1)`, span.MM, span.Within)
}

func (f *finder) thread(designation string) {
	f.ask("SELECT source, ref, CASE WHEN name = '' THEN designation ELSE name || ' ' || designation END, 0.0 FROM threads WHERE designation = ?", designation)
}

// word looks for a word by its beginning. One without letters and figures says
// nothing and is passed over.
func (f *finder) word(word string) {
	word = strings.ReplaceAll(strings.ToValidUTF8(word, ""), "\x00", "")
	if !strings.ContainsFunc(word, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		return
	}
	f.words = append(f.words, word)
	f.ask(`SELECT d.source, d.ref, '', 0.0 FROM words JOIN documents d ON d.id = words.rowid WHERE words MATCH ?`,
		`"`+strings.ReplaceAll(word, `"`, `""`)+`"*`)
}

// ask counts for each subject whether it answers to one thing.
func (f *finder) ask(query string, args ...any) {
	if f.err != nil {
		return
	}
	var rows []match
	rows, f.err = list(f.ctx, f.db, readMatch, query, args...)
	for _, m := range rows {
		f.count(m)
	}
	f.asked++
}

func (f *finder) count(m match) {
	key := subject{m.source == fromKit, m.ref}
	if !key.kit && f.away[key.ref] {
		return
	}
	t := f.all[key]
	if t == nil {
		t = &tally{met: map[int]bool{}}
		f.all[key] = t
	}
	if !t.met[f.asked] {
		t.off += m.off
	}
	t.met[f.asked] = true
	if m.text == "" {
		return
	}
	text := strings.TrimSpace(m.text)
	if m.source == fromShelf {
		text += ", on the shelf"
	}
	if !slices.Contains(t.matched, text) {
		t.matched = append(t.matched, text)
	}
}

// hits returns the best; the first `firm` things asked for must all be there.
func (f *finder) hits(firm int) ([]record.Hit, error) {
	var best []ranked
	for key, t := range f.all {
		hit := ranked{Hit: record.Hit{Matched: t.matched, Missing: f.missing(t, firm)}, off: t.off}
		if !t.all(firm) || len(best) > 0 && len(hit.Missing) > len(best[0].Missing) {
			continue
		}
		if len(best) > 0 && len(hit.Missing) < len(best[0].Missing) {
			best = nil
		}
		if err := f.fill(&hit.Hit, key); err != nil {
			return nil, err
		}
		best = append(best, hit)
	}
	return sorted(best), nil
}

// ranked is a hit, and how far its sizes are from those sought, as parts of what
// they may be.
type ranked struct {
	record.Hit
	off float64
}

// sorted returns hits, the nearest first.
func sorted(all []ranked) []record.Hit {
	slices.SortFunc(all, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.off, b.off), strings.Compare(a.name(), b.name()))
	})
	var hits []record.Hit
	for _, one := range all {
		hits = append(hits, one.Hit)
	}
	return hits
}

// all reports whether the first n things asked for are there.
func (t *tally) all(n int) bool {
	for i := range n {
		if !t.met[i] {
			return false
		}
	}
	return true
}

func (f *finder) missing(t *tally, firm int) []string {
	var list []string
	for i, word := range f.words {
		if !t.met[firm+i] {
			list = append(list, word)
		}
	}
	return list
}

// fill looks up what a subject is.
func (f *finder) fill(hit *record.Hit, key subject) error {
	if key.kit {
		tool, err := toolByID(f.ctx, f.db, key.ref)
		hit.Tool = &tool
		return err
	}
	job, err := needJob(f.ctx, f.db, key.ref)
	if err != nil {
		return err
	}
	hit.Job = &job
	if job.OnShelf > 0 {
		hit.Places, err = places(f.ctx, f.db, key.ref)
	}
	return err
}

// name orders hits that are as good as each other: jobs come before kit.
func (h *ranked) name() string {
	if h.Job != nil {
		return "1 " + h.Job.Name + " " + h.Job.ID
	}
	return "2 " + h.Tool.ID
}

// machineText says what a machine is, in words that are searched.
func machineText(m trade.Machine) string {
	if m.Built == 0 {
		return m.What + " " + m.Country
	}
	return fmt.Sprintf("%s %d %s", m.What, m.Built, m.Country)
}
