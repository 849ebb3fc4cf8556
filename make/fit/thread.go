package fit

import (
	"cmp"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// thread makes a thread by the tables: the sheet keeps the limits of its class
// alone.
func (b *bench) thread(size *trade.NewSize) Made {
	t, ok := b.designated(size)
	if !ok {
		return missing(size)
	}
	sheet := series.ThreadSheet(t)
	made := Made{Size: size, Determined: true, Target: sheet.Basic.Major, Thread: &sheet}
	made.within(0)
	sheet.Limits = b.limitsOf(size, sheet.Limits)
	for _, l := range sheet.Limits {
		if !l.Inside && strings.HasSuffix(l.Of, "major") {
			made.Low, made.High = l.Low, l.High
		}
	}
	return made
}

// designated finds a thread in the tables by its designation.
func (b *bench) designated(size *trade.NewSize) (facts.Thread, bool) {
	t, err := facts.ThreadNamed(size.Thread)
	if err != nil {
		b.faults.Add(size.Pos, "size %s: %s", size.ID, err)
	}
	return t, err == nil
}

// limitsOf returns the limits of a thread's class, of its side where the job
// tells that: of no class stated, those of the first that the tables have of
// each side. A diameter with the same limits in every class belongs to all.
func (b *bench) limitsOf(size *trade.NewSize, all []series.Limit) []series.Limit {
	const every = "all"
	var list []series.Limit
	var classes []string
	first := map[bool]string{}
	for _, l := range all {
		if b.otherSide(size, l) {
			continue
		}
		list = append(list, l)
		if l.Class != every && first[l.Inside] == "" {
			first[l.Inside] = l.Class
		}
		if l.Class != every && !slices.Contains(classes, l.Class) {
			classes = append(classes, l.Class)
		}
	}
	if size.Class != "" && !slices.Contains(classes, size.Class) {
		b.noClass(size, classes)
	}
	return slices.DeleteFunc(list, func(l series.Limit) bool {
		return l.Class != every && l.Class != cmp.Or(size.Class, first[l.Inside])
	})
}

func (b *bench) noClass(size *trade.NewSize, classes []string) {
	if len(classes) == 0 {
		b.faults.Add(size.Pos, "size %s: the tables have no classes of %s; leave class out", size.ID, size.Thread)
		return
	}
	b.faults.Add(size.Pos, "size %s: %s has no class %q here; the tables have %s", size.ID, size.Thread, size.Class, strings.Join(classes, ", "))
}

// otherSide reports whether limits are of the nut where a screw is made, or the
// other way round. Where nothing tells which it is, both sides are kept.
func (b *bench) otherSide(size *trade.NewSize, l series.Limit) bool {
	switch b.side(size) {
	case trade.Inside:
		return !l.Inside
	case trade.Outside:
		return l.Inside
	}
	return false
}

// side returns whether a thread is a screw or a nut: as it is stated, else by
// where the shape has it.
func (b *bench) side(size *trade.NewSize) trade.Surface {
	outside, inside := b.part.Shape.Threads()
	screw, nut := slices.Contains(outside, size.ID), slices.Contains(inside, size.ID)
	switch {
	case size.Surface != "":
		return size.Surface
	case screw && nut:
		return trade.NoSurface
	case screw:
		return trade.Outside
	case nut || b.part.Kind.Word().Nut:
		return trade.Inside
	}
	return trade.NoSurface
}
