package report

import (
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/ink"
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
	for i := range r.Answers {
		a.survey(&r.Answers[i])
	}
	a.trends(r)
	a.upkeepCautions()
}

// surveyPlot shows what a survey found over places: as a graph on paper, else in
// letters.
func (p *printer) surveyPlot(a *upkeep.Answer) {
	switch {
	case len(a.Plot.Series) == 0:
	case p.pages == nil:
		p.plot(&a.Plot)
	default:
		p.graph(booklet.Survey(a, p.units, graphWidth, graphHeight))
	}
}

// wearPlots shows how wear goes on, on paper only.
func (p *printer) wearPlots(r *upkeep.Result) {
	if p.pages == nil {
		return
	}
	for _, trends := range r.Things() {
		p.graph(booklet.Wear(trends, p.units, graphWidth, graphHeight))
	}
}

func (p *printer) graph(sheet *ink.Sheet, err error) {
	if err != nil {
		p.paragraph("", sentence("not drawn: "+err.Error()))
		return
	}
	p.pages.add(booklet.Picture{Sheet: sheet})
}
