package report

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
)

// Version is one revision of a job in the record.
type Version struct {
	Number   int       `json:"revision"`
	When     time.Time `json:"when"`
	Who      string    `json:"who"`
	Note     string    `json:"note"`
	From     int       `json:"from"`
	Branch   int       `json:"branch"`   // 0: the main line
	Merges   int       `json:"merges"`   // 0: none
	Restores int       `json:"restores"` // 0: none
}

// RecordedJob is a job as the record has it.
type RecordedJob struct {
	ID       string `json:"id"`
	Name     string `json:"job"`
	Machine  string `json:"machine"`
	Part     string `json:"part"`
	Revision int    `json:"revision"`
	OnShelf  int    `json:"on_shelf"`
	Branches []int  `json:"branches"`
	Example  bool   `json:"example"`  // it came with the program
	PutAway  bool   `json:"put_away"` // out of the lists
}

// Keeping is what became of a save.
type Keeping struct {
	Job       RecordedJob `json:"job"`
	Saved     Version     `json:"saved"`
	Unchanged bool        `json:"unchanged"`
	Later     []Version   `json:"saved_since"`
	Store     string      `json:"store"`
	Doubt     string      `json:"doubt,omitempty"` // why it can be found by less than it might be
}

// Kept says what became of a save, and what to do where it stands beside
// another.
func Kept(w io.Writer, k Keeping, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		switch {
		case k.Unchanged:
			p.line("Nothing has changed: this is revision %d of job %s, %s.", k.Saved.Number, k.Job.ID, k.Job.Name)
		default:
			p.line("Kept as revision %d of job %s, %s.", k.Saved.Number, p.paint(bold, k.Job.ID), k.Job.Name)
			p.line("  in %s", k.Store)
		}
		p.beside(k)
		p.openBranches(k.Job)
		if k.Doubt != "" {
			p.paragraph("", p.paint(yellow, k.Doubt))
		}
	})
}

// beside says that somebody else saved meanwhile.
func (p *printer) beside(k Keeping) {
	if len(k.Later) == 0 {
		return
	}
	current := k.Later[len(k.Later)-1].Number
	p.paragraph("", p.paint(yellow, fmt.Sprintf(
		"It stands beside the main line: since revision %d, which it was made from, others were saved. Nothing is lost and nothing was overwritten.", k.Saved.From)))
	p.versions(k.Later)
	p.paragraph("", fmt.Sprintf("Look at the other with `oddleg history %s --get %d`, put the two together, and keep that with --from %d --merges %d.",
		k.Job.ID, current, current, k.Saved.Branch))
}

// openBranches reminds of what is still to be put together.
func (p *printer) openBranches(job RecordedJob) {
	if len(job.Branches) == 0 {
		return
	}
	var list []string
	for _, b := range job.Branches {
		list = append(list, strconv.Itoa(b))
	}
	p.line("  Still beside the main line: from revision %s.", strings.Join(list, ", "))
}

// KeptJSON writes the same for programs.
func KeptJSON(w io.Writer, k Keeping) error { return encode(w, k) }

// History writes all revisions of a job.
func History(w io.Writer, job RecordedJob, versions []Version, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.line("%s\n  %s\n", p.paint(bold, job.Name), job.about())
		p.versions(versions)
		p.openBranches(job)
	})
}

// HistoryJSON writes the same for programs.
func HistoryJSON(w io.Writer, job RecordedJob, versions []Version) error {
	return encode(w, struct {
		RecordedJob
		Revisions []Version `json:"revisions"`
	}{job, versions})
}

// about says in one line which job it is.
func (j RecordedJob) about() string {
	var parts []string
	for _, part := range []string{j.ID, j.Machine, j.Part, "revision " + strconv.Itoa(j.Revision)} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if j.Example {
		parts = append(parts, "example")
	}
	if j.PutAway {
		parts = append(parts, "put away")
	}
	return strings.Join(parts, " · ")
}

func (p *printer) versions(versions []Version) {
	rows := [][]string{{"revision", "when", "who", "note", ""}}
	for _, v := range versions {
		rows = append(rows, []string{strconv.Itoa(v.Number), minute(v.When), v.Who, v.Note, v.standing()})
	}
	p.table(rows)
}

// minute writes a time as people of the shop read it.
func minute(t time.Time) string { return t.Format("2006-01-02 15:04") }

// standing says where a revision stands among the others.
func (v Version) standing() string {
	switch {
	case v.Branch != 0:
		return fmt.Sprintf("beside the main line, made from %d", v.From)
	case v.Merges != 0:
		return fmt.Sprintf("takes in %d", v.Merges)
	case v.Restores != 0:
		return fmt.Sprintf("brings back %d", v.Restores)
	}
	return ""
}

// Finding is something found in the record: a job, or something in the kit.
type Finding struct {
	Job     *RecordedJob `json:"job,omitempty"`
	Kit     string       `json:"kit,omitempty"`
	Matched []string     `json:"matched"`
	Missing []string     `json:"missing"`
	Places  []string     `json:"places"`
}

// Found writes what a search found.
func Found(w io.Writer, asked string, findings []Finding, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		if len(findings) == 0 {
			p.line("Nothing is found for: %s", asked)
			return
		}
		if missing := findings[0].Missing; len(missing) > 0 {
			p.line("Nothing has all of it; without %s:", strings.Join(missing, ", "))
		}
		for i, f := range findings {
			if i > 0 || len(f.Missing) > 0 {
				p.line("")
			}
			p.finding(f)
		}
	})
}

func (p *printer) finding(f Finding) {
	if f.Job == nil {
		p.line("%s  in the kit", p.paint(bold, f.Kit))
	} else {
		p.line("%s\n  %s", p.paint(bold, f.Job.Name), f.Job.about())
	}
	for _, m := range f.Matched {
		p.line("  %s", m)
	}
	if f.Job != nil && f.Job.OnShelf > 0 {
		p.line("  %s", onShelf(f.Job.OnShelf, f.Places))
	}
}

// onShelf says how many spares there are, and where.
func onShelf(n int, places []string) string {
	text := fmt.Sprintf("%d on the shelf", n)
	if len(places) > 0 {
		text += ": " + strings.Join(places, ", ")
	}
	return text
}

// FoundJSON writes the same for programs.
func FoundJSON(w io.Writer, findings []Finding) error {
	return encode(w, struct {
		Found []Finding `json:"found"`
	}{append([]Finding{}, findings...)})
}

// SaidJSON writes for programs what is one sentence for people.
func SaidJSON(w io.Writer, text string) error {
	return encode(w, struct {
		Said string `json:"said"`
	}{text})
}
