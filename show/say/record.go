package say

import (
	"fmt"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/show/doc"
)

// Kept says what became of a save, and what to do where it stands beside another.
func Kept(k Keeping) *doc.Document {
	p := &page{}
	if k.Unchanged {
		p.whole("Nothing has changed: this is revision %d of job %s, %s.", k.Saved.Number, k.Job.ID, k.Job.Name)
	} else {
		p.whole("Kept as revision %d of job %s, %s.", k.Saved.Number, strong(k.Job.ID), k.Job.Name)
		p.under(0, "in %s", k.Store)
	}
	p.beside(k)
	p.openBranches(k.Job)
	if k.Doubt != "" {
		p.say("%s", warning(doc.Plain(k.Doubt)))
	}
	return &p.Document
}

// whole adds a line that is not broken.
func (p *page) whole(format string, args ...any) { p.under(0, format, args...) }

// beside says that somebody else saved meanwhile.
func (p *page) beside(k Keeping) {
	if len(k.Later) == 0 {
		return
	}
	current := strconv.Itoa(k.Later[len(k.Later)-1].Number)
	p.say("%s", warning(doc.Say("It stands beside the main line: since revision %d, which it was made from, others were saved. "+
		"Nothing is lost and nothing was overwritten.", k.Saved.From)))
	p.versions(k.Later)
	p.say("Look at the other with `%s`, put the two together, and keep that with --from %s --merges %d.",
		doc.Do(doc.Action{Verb: "history", Args: []string{k.Job.ID, "--get", current}, Words: "the other"}), current, k.Saved.Branch)
}

// openBranches reminds of what is still to be put together.
func (p *page) openBranches(job RecordedJob) {
	var list []string
	for _, b := range job.Branches {
		list = append(list, strconv.Itoa(b))
	}
	if len(list) > 0 {
		p.say("Still beside the main line: from revision %s.", strings.Join(list, ", "))
	}
}

// History lists all revisions of a job.
func History(job RecordedJob, versions []Version) *doc.Document {
	p := titled(job.Name)
	p.under(0, "%s", job.about())
	p.versions(versions)
	p.openBranches(job)
	return &p.Document
}

func (p *page) versions(versions []Version) {
	t := &doc.Table{Name: "revisions", Space: doc.Apart, Columns: append(doc.Columns("revision", "when", "who", "note"), doc.Column{Name: "standing"})}
	for _, v := range versions {
		t.Add(doc.Cells{
			"revision": doc.Say("%d", v.Number), "when": doc.Plain(minute(v.When)), "who": doc.Plain(v.Who), "note": doc.Plain(v.Note),
			"standing": doc.Plain(v.standing()),
		})
	}
	p.Add(t)
}

// Found says what a search found.
func Found(asked string, findings []Finding) *doc.Document {
	p := &page{}
	if len(findings) == 0 {
		p.say("Nothing is found for: %s", asked)
		return &p.Document
	}
	if missing := findings[0].Missing; len(missing) > 0 {
		p.say("Nothing has all of it; without %s:", strings.Join(missing, ", "))
	}
	for _, f := range findings {
		p.finding(f)
	}
	return &p.Document
}

// PutAway lists the jobs that are put away.
func PutAway(findings []Finding) *doc.Document {
	if len(findings) > 0 {
		return Found("", findings)
	}
	p := &page{}
	p.say("No job is put away.")
	return &p.Document
}

func (p *page) finding(f Finding) {
	switch {
	case f.Job == nil:
		p.section("%s  in the kit", f.Kit)
	default:
		p.section("%s", f.Job.Name)
		p.under(0, "%s", f.Job.about())
	}
	for _, m := range f.Matched {
		p.under(0, "%s", m)
	}
	if f.Job != nil && f.Job.OnShelf > 0 {
		p.under(0, "%s", onShelf(f.Job.OnShelf, f.Places))
	}
}

// Kit lists what the shop has to measure and to make with.
func Kit(kit []KitEntry) *doc.Document {
	p := &page{}
	if len(kit) == 0 {
		put := doc.Action{Verb: "kit put", Args: []string{"roll6", "--kind", "roller", "--size", "'6 mm'", "--tolerance", "'0.002 mm'"}, Words: "put"}
		p.say("Nothing is in the kit yet: `%s` puts a roller there.", doc.Do(put))
		return &p.Document
	}
	t := &doc.Table{Name: "kit", Columns: append(doc.Columns("id", "kind", "size", "±", "calibrated", "as written"), doc.Column{Name: "say"})}
	for _, k := range kit {
		t.Add(doc.Cells{
			"id": doc.Plain(k.ID), "kind": doc.Plain(k.Kind), "size": doc.Plain(k.Size), "±": doc.Plain(k.Tolerance),
			"calibrated": doc.Plain(k.Calibrated), "as written": doc.Plain(k.Written), "say": doc.Plain(k.Say),
		})
	}
	p.Add(t)
	return &p.Document
}

// Shelf says what was made of a job's part, what became of it, and what there is to
// know for the next time.
func Shelf(job RecordedJob, places []string, entries []ShelfEntry) *doc.Document {
	p := titled(job.Name)
	p.under(0, "%s", job.about())
	p.under(0, "%s", onShelf(job.OnShelf, places))
	if len(entries) == 0 {
		p.apart("Nothing made of it is recorded.")
		return &p.Document
	}
	t := &doc.Table{
		Name: "shelf", Space: doc.Apart,
		Columns: doc.Columns("when", "who", "made", "fitted", "scrapped", "where", "drawing", "material"),
	}
	for _, e := range entries {
		t.Add(doc.Cells{
			"when": doc.Plain(minute(e.When)), "who": doc.Plain(e.Who), "made": unlessNought(e.Made), "fitted": unlessNought(e.Fitted),
			"scrapped": unlessNought(e.Scrapped), "where": doc.Plain(e.Place), "drawing": doc.Plain(e.Drawing), "material": doc.Plain(e.Material),
		})
	}
	p.Add(t)
	for _, e := range entries {
		p.made(e)
	}
	return &p.Document
}

func unlessNought(n int) doc.Text { return doc.Plain(unlessNone(n)) }

// made says how parts were made and came out.
func (p *page) made(e ShelfEntry) {
	if e.How == "" && e.Better == "" && len(e.Sizes) == 0 {
		return
	}
	p.chapter("Made to revision %d, %s", e.Revision, minute(e.When))
	if e.How != "" {
		p.say("How: %s", e.How)
	}
	if e.Better != "" {
		p.say("Next time: %s", e.Better)
	}
	for _, size := range e.Sizes {
		p.under(0, "%s  %s", size.Name, size.Text)
	}
}

// Spares lists all jobs of whose part some were made.
func Spares(findings []Finding) *doc.Document {
	p := &page{}
	if len(findings) == 0 {
		made := doc.Action{Verb: "shelf", Args: []string{"JOB", "--made", "2", "--place", "'drawer 4'"}, Words: "the shelf"}
		p.say("Nothing made is recorded yet: `%s` does it.", doc.Do(made))
		return &p.Document
	}
	t := &doc.Table{Name: "spares", Columns: doc.Columns("on the shelf", "where", "part", "machine", "job")}
	for _, f := range findings {
		place := ""
		if len(f.Places) > 0 {
			place = f.Places[0]
		}
		t.Add(doc.Cells{
			"on the shelf": doc.Say("%d", f.Job.OnShelf), "where": doc.Plain(place), "part": doc.Plain(f.Job.Part),
			"machine": doc.Plain(f.Job.Machine), "job": doc.Plain(fmt.Sprintf("%s %s", f.Job.ID, f.Job.Name)),
		})
	}
	p.Add(t)
	return &p.Document
}
