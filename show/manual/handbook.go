package manual

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
)

// Handbook writes the page docs/job-file.md.
func Handbook(w io.Writer, file *keys.Entry) error {
	p := page{}
	p.say("# The job file\n\n%s It is written in YAML; `oddleg help job SECTION` says the same section by section.\n\n", file.Says)
	p.say("This page is written by `oddleg help job --handbook docs`: change the description, not the page.\n\n")
	p.say("%s\n\nUnknown keys are faults, and so are ids that nothing has; the line, the column and the word that was probably meant "+
		"are told. There are no anchors, aliases and tags. `oddleg help job --schema` prints a JSON Schema, by which an editor for YAML "+
		"completes keys and underlines what is wrong while it is written.\n\n", writing)
	for _, name := range sections(file) {
		p.say("- [%s](#%s)\n", name, anchor(name))
	}
	p.say("\n")
	p.keys(file)
	for _, e := range file.Described() {
		p.entry(e)
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}

// page is the page being written.
type page struct {
	b strings.Builder
}

func (p *page) say(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

// entry writes one part of the page.
func (p *page) entry(e *keys.Entry) {
	level := "##"
	if strings.Contains(e.Name, ".") {
		level = "###"
	}
	p.say("%s %s\n\n*%s.* %s\n\n", level, e.Name, capital(e.Each), e.Says)
	p.keys(e)
	if e.Example != "" {
		p.say("```yaml\n%s```\n\n", e.Example)
	}
	if e.Also != "" {
		p.say("```yaml\n%s```\n\n", e.Also)
	}
}

// keys writes the table of the keys, and what they ask of each other.
func (p *page) keys(e *keys.Entry) {
	p.say("| key | | holds | left out |\n|---|---|---|---|\n")
	for _, k := range shown(e) {
		without := k.Default
		if k.Required {
			without = "must be there"
		}
		example := ""
		if k.Example != "" {
			example = "<br>`" + k.Name + ": " + k.Example + "`"
		}
		p.say("| `%s` | %s | %s%s | %s |\n", k.Name, cell(k.Says), cell(k.Holds.String()), example, without)
	}
	p.say("\n")
	for _, rule := range rules(e) {
		p.say("- %s\n", rule)
	}
	if len(rules(e)) > 0 {
		p.say("\n")
	}
}

// cell keeps a text within its column.
func cell(text string) string { return strings.ReplaceAll(text, "|", "\\|") }

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// anchor is how a heading is linked to.
func anchor(heading string) string { return strings.ReplaceAll(heading, ".", "") }
