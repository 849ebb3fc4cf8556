package report

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/show/booklet"
)

// ChangeGearsChapters says what ChangeGears says, for a page.
func ChangeGearsChapters(lathe *trade.Machinery, found *lathe.ChangeGears, length float64, most int) []booklet.Chapter {
	return asked(&printer{}, func(p *printer) { p.changeGears(lathe, found, length, most) })
}

// DividingChapters says what Dividing says, for a page.
func DividingChapters(d *lathe.Dividing, assumed string) []booklet.Chapter {
	return asked(&printer{}, func(p *printer) { p.divided(d, assumed) })
}

// asked gathers what is written for a page.
func asked(p *printer, write func(*printer)) []booklet.Chapter {
	p.style, p.pages = Style{Colour: true}, &pages{}
	p.pages.begin("")
	write(p)
	return p.pages.all()
}
