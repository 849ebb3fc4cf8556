package report

import (
	"oddleg/booklet"
	"oddleg/setup"
)

// The size of a picture of a set-up on a page, in mm.
const setUpWidth, setUpHeight = 150.0, 85.0

// setUps says how the part is set up for, with a picture of each set-up, or why
// that cannot be said.
func (a *author) setUps() {
	switch {
	case a.SetUps != nil:
		a.pages.begin("Set-ups")
		p := &settingUp{printer: a.printer, plan: a.SetUps}
		for _, write := range []func(){p.stocked, p.order, p.steps, p.holdingNotes, p.atTheMachine, p.allSources} {
			write()
		}
	case a.NoSetUps != "":
		a.pages.begin("Set-ups")
		a.paragraph("", "There are none: "+a.NoSetUps)
	}
}

// picture shows a set-up as it looks from above, on paper only.
func (p *settingUp) picture(scene setup.Scene) {
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
