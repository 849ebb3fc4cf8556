package booklet

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The margins of a page. The left one is for filing (ISO 5457).
const (
	leftMargin  = 20.0
	rightMargin = 12.0
	topMargin   = 13.0
	footMargin  = 14.0
	footLine    = 5.0 // base line of the foot
)

// book is a booklet being filled, page by page.
type book struct {
	options Options
	pages   []*ink.Sheet
	waiting []*ink.Sheet // pages by themselves, to follow the one that is being filled
	at      float64      // height at which the next strip begins
	bare    bool         // nothing stands on the last page yet
}

// turn begins a page.
func (b *book) turn() {
	b.pages = append(b.pages, b.waiting...)
	b.waiting = nil
	page := ink.Blank(b.options.Paper, true)
	b.pages = append(b.pages, page)
	b.at, b.bare = page.Height-topMargin, true
}

func (b *book) page() *ink.Sheet { return b.pages[len(b.pages)-1] }

// close ends a booklet: pages that wait come last, and an empty one goes.
func (b *book) close() {
	if b.bare && len(b.pages)+len(b.waiting) > 1 {
		b.pages = b.pages[:len(b.pages)-1]
	}
	b.pages = append(b.pages, b.waiting...)
}

// chapter lays a chapter out under its title.
func (b *book) chapter(c *Chapter) {
	width := ink.Blank(b.options.Paper, true).Width - leftMargin - rightMargin
	var strips []strip
	if c.Title != "" {
		strips = chapterTitle.titled(c.Title, 9, width)
	}
	for i, block := range c.Blocks {
		list := block.strips(width)
		if i > 0 && len(list) > 0 {
			if _, table := c.Blocks[i-1].(Table); table {
				list[0].above = max(list[0].above, afterTable)
			}
		}
		strips = append(strips, list...)
	}
	b.fill(strips)
}

// afterTable is left free under a table.
const afterTable = 3.5

var (
	chapterTitle = style{height: 4.2, bold: true}
	headingStyle = style{height: 2.9, bold: true}
)

// fill puts strips on pages. What is kept together goes to the next page where
// it does not fit; what is higher than a page is broken all the same.
func (b *book) fill(strips []strip) {
	for len(strips) > 0 {
		n := 1
		for n < len(strips) && strips[n-1].keeps {
			n++
		}
		group := strips[:n]
		if group[n-1].whole {
			b.whole(group)
		} else {
			b.group(group)
		}
		strips = strips[n:]
	}
}

func (b *book) group(group []strip) {
	if !b.bare && !b.fits(group) {
		b.turn()
	}
	for i := range group {
		if !b.bare && !b.fits(group[i:i+1]) {
			b.turn()
		}
		if head := group[i].head; b.bare && head != nil && b.fits([]strip{*head, group[i]}) {
			b.put(head)
		}
		b.put(&group[i])
	}
}

// fits reports whether strips have room on what is left of the page.
func (b *book) fits(strips []strip) bool {
	high := 0.0
	for i := range strips {
		high += strips[i].above + strips[i].Height
	}
	return high <= b.at-footMargin
}

func (b *book) put(s *strip) {
	if !b.bare {
		b.at -= s.above
	}
	b.at -= s.Height
	b.page().Put(s.Sheet, geom.Point{X: leftMargin, Y: b.at})
	b.bare = false
}

// whole gives a sheet a page of its own, with the titles that are kept with it
// in the margin at its head. It follows the page that is being filled, so that
// this is filled first.
func (b *book) whole(group []strip) {
	last := group[len(group)-1]
	page := &ink.Sheet{Title: last.Title, Width: last.Width, Height: last.Height, Scale: last.Scale}
	page.Put(last.Sheet, geom.Point{})
	var titles []string
	for i := range group[:len(group)-1] {
		if group[i].title != "" {
			titles = append(titles, group[i].title)
		}
	}
	words := headingStyle.cut(strings.Join(titles, ", "), page.Width-leftMargin-rightMargin)
	page.Add(headingStyle.text(words, geom.Point{X: leftMargin, Y: page.Height - titleLine}, ink.LeftAligned))
	b.waiting = append(b.waiting, page)
}

// titleLine is how far below the edge of a drawing's page its title stands, in
// the margin over the frame.
const titleLine = 7.5

var foot = style{height: 2, grey: true}

// number writes the foot of every page.
func (b *book) number() {
	for i, page := range b.pages {
		right := fmt.Sprintf("page %d of %d", i+1, len(b.pages))
		if b.options.Date != "" {
			right = b.options.Date + "   " + right
		}
		end := page.Width - rightMargin
		if page.Title == "" {
			page.Title = right
		}
		room := end - leftMargin - foot.width(right) - 8
		page.Add(
			foot.text(foot.cut(b.options.Job, room), geom.Point{X: leftMargin, Y: footLine}, ink.LeftAligned),
			foot.text(right, geom.Point{X: end, Y: footLine}, ink.RightAligned),
		)
	}
}
