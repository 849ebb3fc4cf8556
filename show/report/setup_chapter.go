package report

import (
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/show/booklet"
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
	p := &settingUp{printer: a.printer, plan: plan}
	for _, write := range []func(){p.stocked, p.order, p.steps, p.holdingNotes, p.atTheMachine, p.allSources} {
		write()
	}
}

// picture shows a set-up as it looks from above, on paper only.
func (p *settingUp) picture(scene sketch.Scene) {
	if p.pages == nil {
		return
	}
	sheet, err := booklet.SetUp(scene, setUpWidth, setUpHeight)
	if err != nil {
		p.paragraph("", sentence("not drawn: "+err.Error()))
		return
	}
	p.pages.add(booklet.Picture{Sheet: sheet})
}
