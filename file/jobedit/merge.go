package jobedit

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/record"
)

// Merge returns what two people made of one job, entry by entry, each with the comments
// above it. What one of them changed is taken from him; what both changed alike is
// taken once. What they changed in two ways is a clash: merged has mine, or theirs
// where I took it out, so that nothing is lost. Line ends are those of mine. Where one
// of the texts is no YAML, or what is merged would not be, the texts are merged line by
// line, and merged may then be no YAML either. The error is for a text that is too
// large or is no text.
func Merge(base, mine, theirs []byte) (merged []byte, clashes []record.Clash, err error) {
	for _, source := range [][]byte{base, mine, theirs} {
		if _, err := yamltree.Plain(source); err != nil {
			return nil, nil, err
		}
	}
	form := formOf(mine)
	var pieces [3][]piece
	for i, source := range [][]byte{base, mine, theirs} {
		if pieces[i], err = piecesOf(formOf(source).plain); err != nil {
			return form.mergeLines(base, mine, theirs)
		}
	}
	level(&pieces)
	m := merge3{base: textsOf(pieces[0]), mine: textsOf(pieces[1]), theirs: textsOf(pieces[2])}
	text := m.text(orderOf(pieces[1], pieces[2]))
	if _, err := piecesOf(text); err != nil {
		return form.mergeLines(base, mine, theirs)
	}
	return form.dressed(text), m.clashes, nil
}

// textForm is a text with a line feed behind each line, and how it was written before.
type textForm struct {
	plain   string
	marked  bool // with a byte-order mark
	open    bool // without an end of its last line
	newline string
}

func formOf(source []byte) textForm {
	s := sheet{text: string(source), newline: "\n"}
	s.findLines()
	plain := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s.text[s.begins[0]:])
	f := textForm{plain: plain, marked: s.begins[0] > 0, newline: s.newline}
	if f.open = plain != "" && !strings.HasSuffix(plain, "\n"); f.open {
		f.plain += "\n"
	}
	return f
}

// dressed returns another text written in the same way.
func (f textForm) dressed(text string) []byte {
	if f.open {
		text = strings.TrimSuffix(text, "\n")
	}
	text = strings.ReplaceAll(text, "\n", f.newline)
	if f.marked {
		text = yamltree.ByteOrderMark + text
	}
	return []byte(text)
}

// piece is a run of whole lines of a job: an entry, the line that a section begins with,
// or a whole section, with the blank lines and comments above it.
type piece struct {
	name
	text  string
	whole bool // a section that is not cut up
}

// name is what a piece is known by in each of the texts.
type name struct{ section, id string }

// root returns the section of the file that a piece is in.
func (n name) root() string {
	root, _, _ := strings.Cut(n.section, ".")
	return root
}

// below is the name of what stands below all sections.
var below name

// knife cuts a job up.
type knife struct {
	*sheet
	at     int // all before it has been cut off
	pieces []piece
}

// piecesOf cuts a job up.
func piecesOf(text string) ([]piece, error) {
	s, err := newSheet([]byte(text))
	if err != nil {
		return nil, err
	}
	k := knife{sheet: s}
	if s.root.Shape == yamltree.Mapping && !s.inBrackets(s.root) {
		for _, p := range s.root.Pairs {
			k.cutSection(p.Key.Text, p)
		}
	}
	k.cut(below, len(text), true)
	return k.pieces, nil
}

// cut cuts off all up to an end.
func (k *knife) cut(n name, end int, whole bool) {
	k.pieces = append(k.pieces, piece{n, k.text[k.at:end], whole})
	k.at = end
}

// cutSection cuts off a section, entry by entry where each has its lines. The part has
// such sections in it.
func (k *knife) cutSection(section string, p yamltree.Pair) {
	n := p.Value
	if n.Count() == 0 || k.inBrackets(n) || n.Pos.Line == p.Key.Pos.Line {
		k.cut(name{section, ""}, k.nextLine(k.end(n)), true)
		return
	}
	k.cut(name{section, ""}, k.nextLine(k.afterColon(p)), false)
	for i, id := range idsOf(n) {
		if section == "part" && wantsLines(n.Pairs[i].Value) {
			k.cutSection(section+"."+id, n.Pairs[i])
			continue
		}
		k.cut(name{section, id}, k.nextLine(k.end(n.ValueOf(i))), false)
	}
}

// idsOf returns what each entry of a section is known by: its id, else what it says or
// does, else its place.
func idsOf(n yamltree.Node) (ids []string) {
	taken := map[string]bool{}
	for _, p := range n.Pairs {
		ids = append(ids, p.Key.Text)
	}
	for i, item := range n.Items {
		id := fmt.Sprint(i + 1)
		for _, key := range []string{"do", "that", "id"} {
			if written := item.Under(key); written.Text != "" {
				id = written.Text
			}
		}
		if taken[id] {
			id += fmt.Sprint(" ", i+1)
		}
		taken[id] = true
		ids = append(ids, id)
	}
	return ids
}

// level joins the pieces of a section in all texts where one of them has it whole.
func level(texts *[3][]piece) {
	whole := map[string]bool{}
	for _, pieces := range texts {
		for _, p := range pieces {
			whole[p.root()] = whole[p.root()] || p.whole
		}
	}
	for i, pieces := range texts {
		var joined []piece
		for _, p := range pieces {
			last := len(joined) - 1
			if last >= 0 && whole[p.root()] && joined[last].section == p.root() {
				joined[last].text += p.text
				continue
			}
			joined = append(joined, p)
		}
		texts[i] = joined
	}
}

// merge3 merges the pieces of three texts.
type merge3 struct {
	base, mine, theirs map[name]string
	clashes            []record.Clash
}

// textsOf returns the texts of pieces by their names.
func textsOf(pieces []piece) map[name]string {
	texts := map[name]string{}
	for _, p := range pieces {
		texts[p.name] += p.text
	}
	return texts
}

// orderOf returns the names of pieces in the order of mine; what only they have comes
// where they have it.
func orderOf(mine, theirs []piece) []name {
	var order []name
	for _, p := range mine {
		if !slices.Contains(order, p.name) {
			order = append(order, p.name)
		}
	}
	before := -1
	for _, p := range theirs {
		at := slices.Index(order, p.name)
		if at < 0 {
			at = before + 1
			order = slices.Insert(order, at, p.name)
		}
		before = at
	}
	return order
}

// text returns what is merged. The first line of a section that was taken out is kept
// where entries were added to it.
func (m *merge3) text(order []name) string {
	texts, lives := make([]string, len(order)), map[string]bool{}
	for i, n := range order {
		texts[i] = m.settled(n)
		lives[n.section] = lives[n.section] || texts[i] != ""
		lives[n.root()] = lives[n.root()] || texts[i] != ""
	}
	for i, n := range order {
		if texts[i] == "" && n.id == "" && lives[n.section] {
			texts[i] = m.base[n]
		}
	}
	return strings.Join(texts, "")
}

// settled returns the text of one piece, and notes a clash.
func (m *merge3) settled(n name) string {
	base, mine, theirs := m.base[n], m.mine[n], m.theirs[n]
	switch {
	case mine == theirs, theirs == base:
		return mine
	case mine == base:
		return theirs
	}
	m.clashes = append(m.clashes, record.Clash{Section: n.section, ID: n.id, Base: base, Mine: mine, Theirs: theirs})
	if mine == "" {
		return theirs
	}
	return mine
}
