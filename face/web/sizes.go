package web

import (
	"fmt"
	"net/http"
	"strings"
	"unicode"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// sizePages answer for the sizes found, each with its working.
type sizePages struct{ *desk }

func (s *sizePages) routes(t *table) {
	t.on("GET /job/{job}/sizes", s.sizesPage)
	t.on("GET /job/{job}/sizes/{size}", s.sizePage)
	t.on("POST /job/{job}/sizes/{size}", s.changeSize)
}

// sizesPage shows the sizes in large figures, then what to think of them.
func (s *sizePages) sizesPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "sizes")
	if err != nil {
		return err
	}
	wrong := said(v.Faults)
	list := []foundSize{}
	if v.worked.Job != nil {
		for _, size := range v.worked.Job.Sizes {
			list = append(list, v.foundSize(size))
		}
	}
	return s.show(w, r, http.StatusOK, sizesPage(s.lookAt(r, v, "Sizes"), list, v.open(), v.generalWarnings(), wrong))
}

// foundSize is a size as it is shown.
type foundSize struct {
	trade.Size
	figure
	Second  string // in the other unit
	Near    string // the nearest 64th of an inch, or threads per inch
	Checked string // what would show that it is wrong
	Doubt   bool   // nothing but its repeats, or nothing at all
	Places  []string
}

// foundSize shows one.
func (v *jobView) foundSize(size trade.Size) foundSize {
	f := foundSize{Size: size, figure: figure{Name: size.ID, Value: "not found yet"}}
	if v.Found == nil {
		return f
	}
	found := v.Found.Result.Size(size.ID)
	if found == nil || !found.Determined {
		return f
	}
	U := adjust.Coverage95 * found.U
	f.Found = true
	if f.Value, f.Half = shown(found.Value, U, found.Dimension, v.worked.view().Unit()); U == 0 {
		f.Half = ""
	}
	f.Second, f.Near = inOther(found.Value, U, found.Dimension, v.worked.view().Unit()), nearOf(size.Kind, found)
	f.Checked, f.Doubt = checkedBy(found)
	if e := found.Extent; e != nil {
		for _, place := range []struct {
			what, by string
			value, u float64
		}{{"tightest", e.LeastBy, e.Least, e.ULeast}, {"slackest", e.MostBy, e.Most, e.UMost}} {
			value, half := shown(place.value, adjust.Coverage95*place.u, found.Dimension, v.worked.view().Unit())
			f.Places = append(f.Places, fmt.Sprintf("%s: %s ± %s, found by %s", place.what, value, half, place.by))
		}
	}
	return f
}

// inOther writes a length in the unit that is not shown first.
func inOther(value, U float64, d unit.Dimension, in unit.Unit) string {
	if d != unit.Length {
		return ""
	}
	other := unit.Inch
	if in == unit.Inch {
		other = unit.Millimetre
	}
	text, half := shown(value, U, d, other)
	if U == 0 {
		return text
	}
	return text + " ± " + half
}

// nearOf writes a size as a rule has it, and a pitch in threads per inch.
func nearOf(kind trade.SizeKind, s *adjust.Size) string {
	switch {
	case kind == trade.Pitch:
		return fmt.Sprintf("%.2f tpi", unit.MillimetresPerInch/s.Value)
	case kind == trade.Module || s.Dimension != unit.Length:
		return ""
	}
	return unit.FractionText(s.Value, 64)
}

// checkedBy says what would show that a size is wrong.
func checkedBy(s *adjust.Size) (words string, doubt bool) {
	switch {
	case s.U == 0:
		return "given", false
	case s.Check == adjust.OthersCheck:
		return "checked by other readings", false
	case s.Check == adjust.RepeatsCheck:
		return "checked by its own repeats only", true
	}
	return "nothing checks it", true
}

// open is what the readings leave open.
func (v *jobView) open() []string {
	var list []string
	if v.Found != nil {
		for _, u := range v.Found.Result.Undetermined {
			list = append(list, u.Text)
		}
	}
	return list
}

// generalWarnings are what makes the result doubtful as a whole.
func (v *jobView) generalWarnings() []string {
	var list []string
	if v.Found != nil {
		for _, w := range v.Found.Result.Warnings {
			if w.Reading == "" {
				list = append(list, w.Text.Shown(v.worked.view()))
			}
		}
	}
	return list
}

// sizePage shows how one size came about, and lets it be described.
func (s *sizePages) sizePage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "sizes")
	if err != nil {
		return err
	}
	if v.worked.Job == nil {
		return goTo(w, r, v.at("sizes"))
	}
	size := v.worked.Job.Size(r.PathValue("size"))
	if size == nil {
		return errNotThere
	}
	return s.showSize(w, r, http.StatusOK, v, *size, nil)
}

func (s *sizePages) showSize(w http.ResponseWriter, r *http.Request, status int, v *jobView, size trade.Size, wrong []string) error {
	f := described{foundSize: v.foundSize(size), Fields: sizeFields(size), Wrong: wrong}
	if wrong != nil {
		f.Fields = typedFields(r)
	}
	if v.Found != nil {
		words := say.WordsOn(v.worked.Job, v.Found, v.worked.view())
		f.Working = v.spoken(words.Working(size.ID))
		f.Shares = shares(words, v.Found.Result.Shares(size.ID))
	}
	return s.show(w, r, status, sizePage(s.lookAt(r, v, size.ID), f))
}

// described is a size with its working and the fields that describe it.
type described struct {
	foundSize
	Shares  []shareOf
	Working *spoken
	Fields  map[string]string
	Wrong   []string
}

// shareOf is the part of a size's uncertainty that comes from one source.
type shareOf struct {
	Source  string
	Percent int
}

// leastShare is the least part that is spoken of.
const leastShare = 0.005

// shares lists where an uncertainty comes from, the largest first.
func shares(words *say.Words, list []adjust.Share) []shareOf {
	var out []shareOf
	for _, share := range list {
		if share.Part >= leastShare {
			out = append(out, shareOf{words.Source(share.Source), int(100*share.Part + 0.5)})
		}
	}
	return out
}

// sizeKeys are what a size may state, as the job file has it.
var sizeKeys = []string{"kind", "surface", "wear", "form", "make", "guess", "known", "within", "meant", "say"}

// sizeFields are the keys of a size as they are written.
func sizeFields(size trade.Size) map[string]string {
	wear := string(size.Wear)
	if size.Wear == trade.TypicalWear {
		wear = size.TypicalWear.String()
	}
	return map[string]string{
		"kind": string(size.Kind), "surface": string(size.Surface), "wear": wear, "form": size.Form.String(), "make": size.Make.String(),
		"guess": size.Guess.String(), "known": size.Known.Value.String(), "within": size.Known.Within.String(), "meant": size.Meant, "say": size.Say,
	}
}

func typedFields(r *http.Request) map[string]string {
	list := map[string]string{}
	for _, key := range sizeKeys {
		list[key] = strings.TrimSpace(r.FormValue(key))
	}
	return list
}

// changeSize writes what is said of a size. Only what differs is written.
func (s *sizePages) changeSize(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("size")
	saved, err := s.change(w, r, "size "+id+" described", s.readable(func(source []byte) ([]byte, error) {
		job, err := readJob(source)
		if err != nil {
			return nil, err
		}
		size := job.Size(id)
		if size == nil {
			return nil, wrong("there is no size %s any more", id)
		}
		return s.putChanged(source, record.Item{Section: "sizes", ID: id}, sizeFields(*size), typedFields(r))
	}))
	if told := untold(err); told != nil {
		v, err := s.view(r, "sizes")
		if err != nil {
			return err
		}
		if v.worked.Job == nil || v.worked.Job.Size(id) == nil {
			return errNotThere
		}
		return s.showSize(w, r, http.StatusUnprocessableEntity, v, *v.worked.Job.Size(id), told)
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+saved.Job+"/sizes/"+id)
}

// putChanged writes the keys of an entry that are not as they were.
func (s *sizePages) putChanged(source []byte, item record.Item, was, is map[string]string) ([]byte, error) {
	for _, key := range sizeKeys {
		if is[key] != was[key] {
			item.Fields = append(item.Fields, record.Field{Key: key, Text: is[key]})
		}
	}
	if len(item.Fields) == 0 {
		return source, nil
	}
	return jobedit.Put(source, item)
}

// places are where holes, circles and lines were found.
func (v *jobView) places() *spoken {
	if v.Found == nil {
		return nil
	}
	return v.spoken(say.Places(v.Found.Result))
}

// asSentence writes what a stage says as a sentence of its own.
func asSentence(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + strings.TrimSuffix(text[size:], ".") + "."
}
