package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
)

// pictureFlags are what verbs that draw into a folder share.
type pictureFlags struct {
	Pictures string `placeholder:"FOLDER" help:"Write its pictures into this folder (SVG)."`
	Force    bool   `help:"Overwrite pictures that are there already."`
}

// named is a sheet to be written to a file of its own, or why it cannot be drawn.
type named struct {
	name  string
	sheet *ink.Sheet
	err   error
}

// write writes the pictures where these are wanted, and returns a line for each.
func (f *pictureFlags) write(list []named) ([]string, error) {
	if f.Pictures == "" {
		return nil, nil
	}
	if err := os.MkdirAll(f.Pictures, 0o777); err != nil {
		return nil, err
	}
	var lines []string
	for _, p := range list {
		if p.err != nil {
			lines = append(lines, "not drawn: "+p.err.Error())
			continue
		}
		path := filepath.Join(f.Pictures, p.file())
		if err := writeNew(path, f.Force, func(w io.Writer) error { return paper.SVG(w, p.sheet) }); err != nil {
			return nil, err
		}
		lines = append(lines, "wrote "+path)
	}
	if lines == nil {
		lines = []string{"there is nothing to draw to scale"}
	}
	return lines, nil
}

// file is the name of the file: what a job calls a thing may hold any sign, a file
// is named by letters and digits.
func (p *named) file() string {
	plain := func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' {
			return unicode.ToLower(r)
		}
		return '-'
	}
	return strings.Map(plain, p.name) + ".svg"
}

// listed adds lines to what is said.
func listed(d *doc.Document, lines []string) *doc.Document {
	for i, line := range lines {
		p := doc.Line(0, doc.Plain(line))
		if i == 0 {
			p.Space = doc.Apart
		}
		d.Add(p)
	}
	return d
}
