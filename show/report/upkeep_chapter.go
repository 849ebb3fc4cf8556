package report

import (
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The size of a graph on a page, in mm.
const graphWidth, graphHeight = 150.0, 80.0

// upkeep says what the surveys of the machine tell, with a graph of each, or why
// that cannot be said.
func (a *author) upkeep() {
	a.pages.begin("Upkeep")
	r, err := a.Found.Upkeep()
	if err != nil {
		a.paragraph("", "Nothing can be said of it: "+err.Error())
		return
	}
	a.say(say.UpkeepChapters(r,
		func(answer *upkeep.Answer) doc.Block {
			return drawn(picture.Survey(answer, a.units, graphWidth, graphHeight))
		},
		func(trends []upkeep.Trend) doc.Block {
			return drawn(picture.Wear(trends, a.units, graphWidth, graphHeight))
		}))
}

// drawn is a sheet as a block, or why there is none.
func drawn(sheet *ink.Sheet, err error) doc.Block {
	if err != nil {
		return doc.Paragraph{Words: doc.Plain(sentence("not drawn: " + err.Error()))}
	}
	return doc.Picture{Sheet: sheet, Words: doc.Plain(sheet.Title)}
}
