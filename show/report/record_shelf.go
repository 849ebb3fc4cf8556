package report

import (
	"fmt"
	"io"
	"strconv"
	"time"
)

// ShelfEntry is what happened to parts made of a job.
type ShelfEntry struct {
	When     time.Time   `json:"when"`
	Who      string      `json:"who"`
	Revision int         `json:"revision"`
	Made     int         `json:"made"`
	Fitted   int         `json:"fitted"`
	Scrapped int         `json:"scrapped"`
	Place    string      `json:"place"`
	Drawing  string      `json:"drawing"`
	Material string      `json:"material"`
	How      string      `json:"how"`
	Better   string      `json:"better"`
	Sizes    []FinalSize `json:"sizes"`
}

// FinalSize is a size as it came out, as written and in mm.
type FinalSize struct {
	Name string  `json:"name"`
	Text string  `json:"text"`
	MM   float64 `json:"mm"`
}

// Shelf writes what was made of a job's part, what became of it, and what there
// is to know for the next time.
func Shelf(w io.Writer, job RecordedJob, places []string, entries []ShelfEntry, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.line("%s\n  %s\n  %s\n", p.paint(bold, job.Name), job.about(), onShelf(job.OnShelf, places))
		if len(entries) == 0 {
			p.line("  Nothing made of it is recorded.")
			return
		}
		rows := [][]string{{"when", "who", "made", "fitted", "scrapped", "where", "drawing", "material"}}
		for _, e := range entries {
			rows = append(rows, []string{
				minute(e.When), e.Who, figureUnless0(e.Made), figureUnless0(e.Fitted), figureUnless0(e.Scrapped), e.Place, e.Drawing, e.Material,
			})
		}
		p.table(rows)
		for _, e := range entries {
			p.made(e)
		}
	})
}

func figureUnless0(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// made says how parts were made and came out.
func (p *printer) made(e ShelfEntry) {
	if e.How == "" && e.Better == "" && len(e.Sizes) == 0 {
		return
	}
	p.heading(fmt.Sprintf("Made to revision %d, %s", e.Revision, minute(e.When)))
	for _, said := range [][2]string{{"How: ", e.How}, {"Next time: ", e.Better}} {
		if said[1] != "" {
			p.paragraph("", said[0]+said[1])
		}
	}
	for _, size := range e.Sizes {
		p.line("  %s  %s", size.Name, size.Text)
	}
}

// ShelfJSON writes the same for programs.
func ShelfJSON(w io.Writer, job RecordedJob, places []string, entries []ShelfEntry) error {
	return encode(w, struct {
		RecordedJob
		Places  []string     `json:"places"`
		Entries []ShelfEntry `json:"entries"`
	}{job, append([]string{}, places...), append([]ShelfEntry{}, entries...)})
}

// Spares writes all jobs of whose part some were made.
func Spares(w io.Writer, findings []Finding, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		if len(findings) == 0 {
			p.line("Nothing made is recorded yet: `oddleg shelf JOB --made 2 --place 'drawer 4'` does it.")
			return
		}
		rows := [][]string{{"on the shelf", "where", "part", "machine", "job"}}
		for _, f := range findings {
			place := ""
			if len(f.Places) > 0 {
				place = f.Places[0]
			}
			rows = append(rows, []string{strconv.Itoa(f.Job.OnShelf), place, f.Job.Part, f.Job.Machine, f.Job.ID + " " + f.Job.Name})
		}
		p.table(rows)
	})
}
