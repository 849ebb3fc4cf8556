package doc

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Tone is how words are meant to be heard.
type Tone uint8

// The tones.
const (
	Even    Tone = iota
	Strong       // the word that matters
	Quiet        // for who wants to know more
	Warning      // makes a result doubtful
	Alarm        // wrong, or dangerous
)

// Text is words in order, each with its tone.
type Text []Span

// Span is words of one tone. Words is a string's unit.Words, or an amount that is
// written in the units of who reads. Of tells what they name, Do what the reader
// can do next about it, Verdict what they judge.
type Span struct {
	Words   unit.Amount
	Tone    Tone
	Of      Ref
	Do      *Action
	Verdict Verdict
}

// Kind is what a reference leads to.
type Kind string

// What can be referred to. Nothing is the zero value.
const (
	Nothing    Kind = ""
	Reading    Kind = "reading"
	Size       Kind = "size"
	Part       Kind = "part"
	Instrument Kind = "instrument"
	Method     Kind = "method"
)

// Ref names one thing of the job.
type Ref struct {
	Kind Kind
	ID   string
}

// Verdict is what a cell judges: good, doubtful or bad.
type Verdict string

// The verdicts. A span that judges nothing has none.
const (
	NoVerdict Verdict = ""
	Good      Verdict = "good"
	Doubtful  Verdict = "doubtful"
	Bad       Verdict = "bad"
)

// Action is what a reader can do next: on a terminal it is told as the command, in
// a page it is a link under Words.
type Action struct {
	Verb  string   // of the command: next, taper, fit ...
	Args  []string // as they are typed behind it
	Words string   // what a link says
}

// Command returns the action as it is typed.
func (a *Action) Command() string {
	return strings.Join(append([]string{"oddleg", a.Verb}, a.Args...), " ")
}

// Plain returns plain words; none are an empty text.
func Plain(words string) Text {
	if words == "" {
		return nil
	}
	return Text{{Words: unit.Words(words)}}
}

// Show returns an amount as a text.
func Show(a unit.Amount) Text { return Text{{Words: a}} }

// Name returns the id of something of the job, as a reference to it.
func Name(kind Kind, id string) Text { return Text{{Words: unit.Words(id), Of: Ref{kind, id}}} }

// Judged returns words that judge something.
func Judged(v Verdict, words string) Text {
	tone := map[Verdict]Tone{Doubtful: Warning, Bad: Alarm}[v]
	return Text{{Words: unit.Words(words), Tone: tone, Verdict: v}}
}

// Do returns what can be done next as a text.
func Do(a Action) Text { return Text{{Words: unit.Words(a.Words), Do: &a}} }

// In returns a text whose even words have a tone.
func In(tone Tone, t Text) Text {
	list := append(Text{}, t...)
	for i := range list {
		if list[i].Tone == Even {
			list[i].Tone = tone
		}
	}
	return list
}

// Say returns a text by a format of fmt, one verb for one argument. An argument
// that is a Text keeps its tones and references, one that is a unit.Amount is
// written when it is shown; others are formatted at once. A format that does not
// suit its arguments panics.
func Say(format string, args ...any) Text {
	var t Text
	for _, piece := range pieces(format) {
		if piece[0] != '%' || piece == "%%" {
			t = t.plus(strings.TrimPrefix(piece, "%"))
			continue
		}
		if len(args) == 0 {
			panic("doc: a format has more verbs than arguments")
		}
		switch arg := args[0].(type) {
		case Text:
			t = append(t, arg...)
		case unit.Amount:
			t = append(t, Span{Words: arg})
		default:
			t = t.plus(fmt.Sprintf(piece, arg))
		}
		args = args[1:]
	}
	if len(args) > 0 {
		panic("doc: a format has fewer verbs than arguments")
	}
	return t
}

// plus adds plain words.
func (t Text) plus(words string) Text {
	if words == "" {
		return t
	}
	return append(t, Span{Words: unit.Words(words)})
}

// pieces cuts a format into verbs and what is between them.
func pieces(format string) []string {
	var list []string
	for format != "" {
		n := strings.IndexByte(format, '%')
		switch {
		case n < 0:
			n = len(format)
		case n == 0:
			n = verb(format)
		}
		list = append(list, format[:n])
		format = format[n:]
	}
	return list
}

// verb returns how long the verb is with which a format begins.
func verb(format string) int {
	n := 1
	for n < len(format) && strings.IndexByte("+-# 0123456789.", format[n]) >= 0 {
		n++
	}
	return min(n+1, len(format))
}

// Join puts texts one behind the other with words between them.
func Join(list []Text, between string) Text {
	var t Text
	for i, item := range list {
		if i > 0 {
			t = t.plus(between)
		}
		t = append(t, item...)
	}
	return t
}

// Shown writes a text without its tones. What can be done is told as a command.
func (t Text) Shown(v unit.View) string {
	var b strings.Builder
	for i := range t {
		b.WriteString(t[i].Shown(v))
	}
	return b.String()
}

// Shown writes the words of a span.
func (s *Span) Shown(v unit.View) string {
	if s.Do != nil {
		return s.Do.Command()
	}
	return s.Words.Shown(v)
}

// Empty reports whether there are no words.
func (t Text) Empty() bool { return t.Shown(unit.View{}) == "" }
