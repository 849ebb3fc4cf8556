package report

import (
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The size of a picture of a set-up on a page, in mm.
const setUpWidth, setUpHeight = 150.0, 85.0

// setUps says how the part is set up for, with a picture of each set-up, or why
// that cannot be said.
func (a *author) setUps() {
	a.pages.begin("Set-ups")
	plan, err := a.Found.SetUps()
	if err != nil {
		a.paragraph("", "There are none: "+err.Error())
		return
	}
	a.say(say.SetUpChapter(plan, a.units, func(s sketch.Scene) doc.Block {
		return drawn(picture.SetUp(s, setUpWidth, setUpHeight))
	}))
}
