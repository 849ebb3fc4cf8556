package paper

import (
	"encoding/binary"
	"math"
	"testing"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// TestWidthsAreTheFonts holds every width in draw against the font itself.
func TestWidthsAreTheFonts(t *testing.T) {
	unknown := ink.Width("\uffff", 1, false)
	for bold, data := range map[bool][]byte{false: dejavusanscondensed.TTF, true: dejavusanscondensedbold.TTF} {
		f := readFont(data)
		if got := float64(f.capHeight()) / f.unitsPerEm; got != ink.CapHeight {
			t.Errorf("bold %v: CapHeight is %v in the font", bold, got)
		}
		known := 0
		for r := rune(' '); r < 0xFFFE; r++ {
			glyph, ok := f.glyph(r)
			want := f.advance(glyph) / f.unitsPerEm / ink.CapHeight
			got := ink.Width(string(r), 1, bold)
			if ok && math.Abs(got/want-1) < 1e-12 {
				known++
			} else if got != 0 && got != ink.Width("\uffff", 1, bold) {
				t.Errorf("bold %v: %q is %v wide, in the font %v", bold, r, got, want)
			}
		}
		if known < 600 {
			t.Errorf("bold %v: only %d characters have the width of the font", bold, known)
		}
	}
	// What drawings need is in the table, not guessed at.
	for _, r := range "⌀±°×−–…′″½⅛¼¾≤≥√²³µ→☐ΔπαβΩØß£Łőž" {
		if ink.Width(string(r), 1, false) == unknown {
			t.Errorf("%q is not in the table", r)
		}
	}
}

func TestWidthAddsUp(t *testing.T) {
	one, two := ink.Width("⌀19", 3.5, false), ink.Width(".02 g6", 3.5, false)
	if both := ink.Width("⌀19.02 g6", 3.5, false); math.Abs(both-one-two) > 1e-12 {
		t.Errorf("%v and %v are %v together", one, two, both)
	}
	if got := ink.Width("a\x00b", 1, false) - ink.Width("ab", 1, false); got != 0 {
		t.Errorf("a control character is %v wide", got)
	}
}

// font reads what the tests need of a TrueType file.
type font struct {
	data       []byte
	tables     map[string]int // offsets
	unitsPerEm float64
}

func readFont(data []byte) font {
	f := font{data: data, tables: map[string]int{}}
	for i := range f.u16(4) {
		entry := 12 + 16*i
		f.tables[string(data[entry:entry+4])] = f.u32(entry + 8)
	}
	f.unitsPerEm = float64(f.u16(f.tables["head"] + 18))
	return f
}

func (f font) u16(at int) int { return int(binary.BigEndian.Uint16(f.data[at:])) }
func (f font) u32(at int) int { return int(binary.BigEndian.Uint32(f.data[at:])) }

// advance returns the width of a glyph in units of the font.
func (f font) advance(glyph int) float64 {
	last := f.u16(f.tables["hhea"]+34) - 1
	return float64(f.u16(f.tables["hmtx"] + 4*min(glyph, last)))
}

// capHeight returns the top of H, which stands on the base line.
func (f font) capHeight() int {
	glyph, _ := f.glyph('H')
	if f.u16(f.tables["head"]+50) == 0 {
		return f.u16(f.tables["glyf"] + 2*f.u16(f.tables["loca"]+2*glyph) + 8)
	}
	return f.u16(f.tables["glyf"] + f.u32(f.tables["loca"]+4*glyph) + 8)
}

// glyph looks a character up in the segments of cmap's format 4.
func (f font) glyph(r rune) (int, bool) {
	cmap := f.tables["cmap"]
	for i := range f.u16(cmap + 2) {
		table := cmap + f.u32(cmap+4+8*i+4)
		if f.u16(table) == 4 {
			return f.inSegments(table, int(r))
		}
	}
	return 0, false
}

func (f font) inSegments(table, r int) (int, bool) {
	twice := f.u16(table + 6)
	for at := table + 14; at < table+14+twice; at += 2 {
		if r > f.u16(at) {
			continue
		}
		start, delta, place := f.u16(at+twice+2), f.u16(at+2*twice+2), at+3*twice+2
		if r < start {
			return 0, false
		}
		offset := f.u16(place)
		if offset == 0 {
			return (r + delta) & 0xFFFF, true
		}
		glyph := f.u16(place + offset + 2*(r-start))
		return (glyph + delta) & 0xFFFF, glyph != 0
	}
	return 0, false
}
