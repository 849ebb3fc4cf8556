package jobedit

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
)

// Section returns the text of one section of a file, from its key to the last of
// its lines, indented comments below them included: to be changed by hand. It is
// empty where there is no such section.
func Section(source []byte, name string) (string, error) {
	s, err := newSheet(source)
	if err != nil {
		return "", err
	}
	i := s.root.Index(name)
	if i < 0 {
		return "", nil
	}
	from, to, err := s.section(i)
	if err != nil {
		return "", err
	}
	return strings.ReplaceAll(s.text[from:to], s.newline, "\n"), nil
}

// SetSection returns the text of a file with another text in the place of a section,
// written as Section returns it. A section that is new goes where files usually have
// it; an empty text takes it out. The faults of the text have their places in it.
func SetSection(source []byte, name, text string) ([]byte, error) {
	s, err := newSheet(source)
	if err != nil {
		return nil, err
	}
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	section, err := sectionIn(name, strings.TrimRight(text, "\n "))
	if err != nil {
		return nil, err
	}
	s.less = true // the comments of a section are the user's to rewrite
	i := s.root.Index(name)
	switch {
	case i >= 0:
		return s.withSection(i, section)
	case section.text == "":
		return source, nil
	}
	want := s.root.With(section.Key, section.Value, sections)
	s.addSection(want.Index(name), section.text)
	return s.proved(want)
}

// withSection writes another text in the place of a section, or takes it out.
func (s *sheet) withSection(i int, section handwritten) ([]byte, error) {
	from, to, err := s.section(i)
	if err != nil {
		return nil, err
	}
	if section.text == "" {
		s.cutLines(from, to)
		return s.proved(s.root.Without(i))
	}
	s.replace(from, to, section.text)
	return s.proved(s.root.Replaced(i, section.Value))
}

// handwritten is a section as it was written by hand.
type handwritten struct {
	yamltree.Pair
	text string
}

// sectionIn reads a section that was written by hand.
func sectionIn(name, text string) (handwritten, error) {
	if !slices.Contains(sections, name) {
		return handwritten{}, refusal("there is no section %s; there are %s", yamltree.Quote(name), strings.Join(sections, ", "))
	}
	plain, err := yamltree.Plain([]byte(text))
	if err != nil || strings.TrimSpace(text) == "" {
		return handwritten{}, err
	}
	root, err := yamltree.Parse(plain)
	if err != nil {
		return handwritten{}, err
	}
	if root.Shape != yamltree.Mapping || len(root.Pairs) != 1 || root.Pairs[0].Key.Text != name {
		return handwritten{}, refusal("this text must be the section %s and nothing else: its first line begins with %s:", name, name)
	}
	return handwritten{root.Pairs[0], text}, nil
}

// section returns where a section begins and ends.
func (s *sheet) section(i int) (from, to int, err error) {
	if s.inBrackets(s.root) {
		return 0, 0, refusal("this file is written in braces; it has no sections to change by hand")
	}
	p := s.root.Pairs[i]
	from, to = s.begin(p.Key), s.lineEnd(s.end(p.Value))
	for at := s.nextLine(to); at < len(s.text); at = s.nextLine(at) {
		indent := s.indentOf(at)
		if _, isComment := slices.BinarySearch(s.comments, at+len(indent)); isComment && indent != "" {
			to = s.lineEnd(at)
		} else if !s.isBlank(at) {
			break
		}
	}
	return from, to, nil
}

// addSection writes a new section where it comes in the order; one of several lines is
// set apart by a blank one.
func (s *sheet) addSection(at int, text string) {
	gap := "\n"
	if strings.Contains(text, "\n") {
		gap = "\n\n"
	}
	switch {
	case s.root.Count() == 0:
		s.insert(len(s.text), text+"\n")
	case at == 0:
		s.insert(s.begin(s.root), text+"\n")
	default:
		s.insert(s.lineEnd(s.end(s.root.Pairs[at-1].Value)), gap+text)
	}
}
