package main

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/say"
)

// methodsCommand lists and explains the gauging methods.
type methodsCommand struct {
	Word     string `arg:"" optional:"" help:"A method's name to explain it, or a word to look for (pin, taper, bore ...)."`
	Sketch   string `placeholder:"FILE.svg" help:"Write the sketch of the method to a file: .svg, .pdf or .dxf."`
	Handbook string `placeholder:"FOLDER" help:"Write gauging.md, all methods with their sketches, into a folder."`
}

// Run prints the methods.
func (c *methodsCommand) Run(s streams) error {
	if c.Handbook != "" {
		return writeHandbook(c.Handbook)
	}
	method, ok := gauge.Find(c.Word)
	switch {
	case ok && c.Sketch != "":
		return writeSketch(s, method, c.Sketch)
	case ok:
		return answer{says: say.Method(method)}.tell(s, false)
	}
	var found []*gauge.Method
	var ids []string
	for _, m := range gauge.Methods() {
		ids = append(ids, m.ID)
		if m.Mentions(c.Word) {
			found = append(found, m)
		}
	}
	switch {
	case len(found) == 0:
		hint := ""
		if id, ok := near.Word(c.Word, ids); ok {
			hint = fmt.Sprintf("; did you mean %s?", id)
		}
		fmt.Fprintf(s.complain, "oddleg: no method has to do with %q%s\n", c.Word, hint)
		return errReported
	case c.Sketch != "":
		fmt.Fprintf(s.complain, "oddleg: --sketch wants the name of one method, %q is none\n", c.Word)
		return errReported
	}
	return answer{says: say.Methods(found)}.tell(s, false)
}
