package paper

import (
	"math"

	"codeberg.org/oddleg/oddleg/show/ink"
)

// The handles of what every drawing has.
const (
	viewTable = iota + 1
	lineTypeTable
	layerTable
	styleTable
	viewsTable
	coordinatesTable
	applicationTable
	dimensionTable
	recordTable
	modelRecord
	paperRecord
	rootDictionary
	groups
	layouts
	plotStyles
	plainPlotStyle
	modelLayout
	paperLayout
	standardStyle
	firstFreeHandle
)

// layers are the names of the layers, and how lines on them are by themselves.
var layers = [...]struct {
	name string
	kind ink.LineKind
}{
	ink.Outlines:    {"OUTLINES", ink.Visible},
	ink.Axes:        {"AXES", ink.CentreLine},
	ink.HiddenEdges: {"HIDDEN", ink.Hidden},
	ink.Hatches:     {"HATCHING", ink.Hatching},
	ink.Dimensions:  {"DIMENSIONS", ink.Thin},
	ink.Notes:       {"NOTES", ink.Thin},
	ink.Border:      {"BORDER", ink.Frame},
	ink.Threads:     {"THREADS", ink.Thin},
}

// lineTypes are the patterns of lines, in mm on the paper; the header says what
// that is in the drawing.
var lineTypes = []struct {
	name, say string
	kind      ink.LineKind
}{
	{"DASHED", "Dashed __ __ __ __", ink.Hidden},
	{"CENTER", "Long dash, dot ____ . ____", ink.CentreLine},
	{"PHANTOM", "Long dash, two dots ____ . . ____", ink.Phantom},
}

// lineType returns the name of the pattern of a line.
func lineType(l line) string {
	switch len(l.dashes) {
	case len(dashed):
		return "DASHED"
	case len(longDashDotted):
		return "CENTER"
	case len(longDashTwoDots):
		return "PHANTOM"
	}
	return "Continuous"
}

// The names of the styles.
const (
	plainStyle     = "CONDENSED"
	boldStyle      = "CONDENSED-BOLD"
	dimensionStyle = "ODDLEG"
)

func textStyle(bold bool) string {
	if bold {
		return boldStyle
	}
	return plainStyle
}

// hundredths returns a width of a line as the format has it.
func hundredths(width float64) int { return int(math.Round(width * 100)) }

// colour returns the number of a tone in the format's palette: 7, which is black
// on white and white on black, else the nearest grey of 250 to 255.
func colour(tone float64) int {
	if tone >= 1 {
		return 7
	}
	const darkest, greys = 250, 5
	return darkest + int(math.Round(greys*(1-max(tone, 0))))
}

// file returns the whole drawing round what has been drawn.
func (p *dxfPen) file(s *ink.Sheet) []byte {
	var t tags
	t.section("CLASSES", func() {})
	t.section("TABLES", func() { p.tables(&t, s) })
	t.section("BLOCKS", func() {
		for i, record := range []int{modelRecord, paperRecord} {
			p.blockBegin(&t, []string{"*Model_Space", "*Paper_Space"}[i], record, 0)
			p.blockClose(&t, record)
		}
		t.Write(p.blocks.Bytes())
	})
	t.section("ENTITIES", func() { t.Write(p.model.Bytes()) })
	t.section("OBJECTS", func() { p.objects(&t, s) })
	t.put(0, "EOF")
	var head tags // last, as it names the next free handle
	head.section("HEADER", func() { p.header(&head, s) })
	return append(head.Bytes(), t.Bytes()...)
}

// section writes what stands between the ends of a section.
func (t *tags) section(name string, content func()) {
	t.put(0, "SECTION", 2, name)
	content()
	t.put(0, "ENDSEC")
}

// header writes the settings of the drawing.
func (p *dxfPen) header(t *tags, s *ink.Sheet) {
	width, height := s.Width*p.k, s.Height*p.k
	t.put(9, "$ACADVER", 1, "AC1015", 9, "$DWGCODEPAGE", 3, "ANSI_1252",
		9, "$INSBASE", 10, 0.0, 20, 0.0, 30, 0.0,
		9, "$EXTMIN", 10, 0.0, 20, 0.0, 30, 0.0, 9, "$EXTMAX", 10, width, 20, height, 30, 0.0,
		9, "$LIMMIN", 10, 0.0, 20, 0.0, 9, "$LIMMAX", 10, width, 20, height,
		9, "$LTSCALE", 40, p.k, 9, "$TEXTSTYLE", 7, plainStyle, 9, "$CLAYER", 8, "0",
		9, "$DIMSTYLE", 2, dimensionStyle, 9, "$LUNITS", 70, 2, 9, "$LUPREC", 70, 3,
		9, "$AUNITS", 70, 0, 9, "$AUPREC", 70, 2, 9, "$MEASUREMENT", 70, 1, 9, "$INSUNITS", 70, millimetres,
		9, "$LWDISPLAY", 290, 1, 9, "$HANDSEED", 5, handle(p.next))
}

// millimetres is the number of that unit.
const millimetres = 4

// table begins a table of so many records.
func (t *tags) table(name string, number, records int) {
	t.put(0, "TABLE", 2, name, 5, handle(number), 330, 0, 100, "AcDbSymbolTable", 70, records)
}

// record begins a record of a table.
func (p *dxfPen) record(t *tags, kind string, table int, class string) {
	t.put(0, kind, 5, handle(p.handle()), 330, handle(table), 100, "AcDbSymbolTableRecord", 100, class)
}

func (p *dxfPen) tables(t *tags, s *ink.Sheet) {
	p.viewport(t, s)
	p.lineTypes(t)
	p.layers(t)
	p.styles(t)
	t.table("VIEW", viewsTable, 0)
	t.put(0, "ENDTAB")
	t.table("UCS", coordinatesTable, 0)
	t.put(0, "ENDTAB")
	t.table("APPID", applicationTable, 1)
	p.record(t, "APPID", applicationTable, "AcDbRegAppTableRecord")
	t.put(2, "ACAD", 70, 0, 0, "ENDTAB")
	p.dimensionStyle(t)
	p.blockRecords(t)
}

// viewport shows the whole sheet when the drawing is opened.
func (p *dxfPen) viewport(t *tags, s *ink.Sheet) {
	t.table("VPORT", viewTable, 1)
	p.record(t, "VPORT", viewTable, "AcDbViewportTableRecord")
	t.put(2, "*Active", 70, 0, 10, 0.0, 20, 0.0, 11, 1.0, 21, 1.0, 12, s.Width*p.k/2, 22, s.Height*p.k/2,
		13, 0.0, 23, 0.0, 14, 10.0, 24, 10.0, 15, 10.0, 25, 10.0, 16, 0.0, 26, 0.0, 36, 1.0, 17, 0.0, 27, 0.0, 37, 0.0,
		40, s.Height*p.k, 41, s.Width/s.Height, 42, 50.0, 43, 0.0, 44, 0.0, 50, 0.0, 51, 0.0,
		71, 0, 72, 1000, 73, 1, 74, 3, 75, 0, 76, 0, 77, 0, 78, 0, 0, "ENDTAB")
}

func (p *dxfPen) lineTypes(t *tags) {
	const class, aligned = "AcDbLinetypeTableRecord", 65
	t.table("LTYPE", lineTypeTable, len(lineTypes)+3)
	for _, name := range []string{"ByBlock", "ByLayer", "Continuous"} {
		p.record(t, "LTYPE", lineTypeTable, class)
		t.put(2, name, 70, 0, 3, "", 72, aligned, 73, 0, 40, 0.0)
	}
	for _, kind := range lineTypes {
		p.record(t, "LTYPE", lineTypeTable, class)
		pattern, length := lines[kind.kind].pattern(), 0.0
		for _, d := range pattern {
			length += d
		}
		t.put(2, kind.name, 70, 0, 3, kind.say, 72, aligned, 73, len(pattern), 40, length)
		for i, d := range pattern {
			if i%2 == 1 {
				d = -d // a gap
			}
			t.put(49, d, 74, 0)
		}
	}
	t.put(0, "ENDTAB")
}

func (p *dxfPen) layers(t *tags) {
	t.table("LAYER", layerTable, len(layers)+1)
	p.layer(t, "0", lines[ink.Thin])
	for _, l := range layers {
		p.layer(t, l.name, lines[l.kind])
	}
	t.put(0, "ENDTAB")
}

func (p *dxfPen) layer(t *tags, name string, l line) {
	p.record(t, "LAYER", layerTable, "AcDbLayerTableRecord")
	t.put(2, name, 70, 0, 62, 7, 6, lineType(l), 370, hundredths(l.width), 390, handle(plainPlotStyle))
}

func (p *dxfPen) styles(t *tags) {
	t.table("STYLE", styleTable, 3)
	for _, style := range [][2]string{{"Standard", "txt"}, {plainStyle, "DejaVuSansCondensed.ttf"}, {boldStyle, "DejaVuSansCondensed-Bold.ttf"}} {
		number := p.handle()
		if style[0] == plainStyle {
			number = standardStyle
		}
		t.put(0, "STYLE", 5, handle(number), 330, handle(styleTable), 100, "AcDbSymbolTableRecord", 100, "AcDbTextStyleTableRecord",
			2, style[0], 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 3.5, 3, style[1], 4, "")
	}
	t.put(0, "ENDTAB")
}

// dimensionStyle says how a dimension is drawn again once it is moved: as on the
// paper, after ISO 129-1.
func (p *dxfPen) dimensionStyle(t *tags) {
	t.table("DIMSTYLE", dimensionTable, 2)
	t.put(100, "AcDbDimStyleTable")
	for _, name := range []string{"Standard", dimensionStyle} {
		t.put(0, "DIMSTYLE", 105, handle(p.handle()), 330, handle(dimensionTable),
			100, "AcDbSymbolTableRecord", 100, "AcDbDimStyleTableRecord", 2, name, 70, 0,
			40, p.k, 41, 2.5, 42, 1.0, 43, 7.0, 44, 1.5, 140, 2.5, 141, 2.5, 144, 1.0, 147, 0.8,
			73, 0, 74, 0, 77, 1, 172, 1, 179, 2, 271, 3, 277, 2, 278, '.', 340, handle(standardStyle))
	}
	t.put(0, "ENDTAB")
}

func (p *dxfPen) blockRecords(t *tags) {
	t.table("BLOCK_RECORD", recordTable, len(p.records)+2)
	record := func(name string, number int, layout int) {
		t.put(0, "BLOCK_RECORD", 5, handle(number), 330, handle(recordTable),
			100, "AcDbSymbolTableRecord", 100, "AcDbBlockTableRecord", 2, name, 340, handle(layout))
	}
	record("*Model_Space", modelRecord, modelLayout)
	record("*Paper_Space", paperRecord, paperLayout)
	for i, number := range p.records {
		record(blockName(i+1), number, 0)
	}
	t.put(0, "ENDTAB")
}

func (p *dxfPen) blockBegin(t *tags, name string, record, flags int) {
	t.put(0, "BLOCK", 5, handle(p.handle()), 330, handle(record), 100, "AcDbEntity", 8, "0", 100, "AcDbBlockBegin",
		2, name, 70, flags, 10, 0.0, 20, 0.0, 30, 0.0, 3, name, 1, "")
}

func (p *dxfPen) blockClose(t *tags, record int) {
	t.put(0, "ENDBLK", 5, handle(p.handle()), 330, handle(record), 100, "AcDbEntity", 8, "0", 100, "AcDbBlockEnd")
}

// objects writes what is not drawn: dictionaries and the layouts they name.
func (p *dxfPen) objects(t *tags, s *ink.Sheet) {
	dictionary := func(number, owner int, entries ...any) {
		t.put(0, "DICTIONARY", 5, handle(number), 330, handle(owner), 100, "AcDbDictionary", 281, 1)
		t.put(entries...)
	}
	dictionary(rootDictionary, 0, 3, "ACAD_GROUP", 350, handle(groups), 3, "ACAD_LAYOUT", 350, handle(layouts),
		3, "ACAD_PLOTSTYLENAME", 350, handle(plotStyles))
	dictionary(groups, rootDictionary)
	dictionary(layouts, rootDictionary, 3, "Model", 350, handle(modelLayout), 3, "Layout1", 350, handle(paperLayout))
	t.put(0, "ACDBDICTIONARYWDFLT", 5, handle(plotStyles), 330, handle(rootDictionary), 100, "AcDbDictionary", 281, 1,
		3, "Normal", 350, handle(plainPlotStyle), 100, "AcDbDictionaryWithDefault", 340, handle(plainPlotStyle))
	t.put(0, "ACDBPLACEHOLDER", 5, handle(plainPlotStyle), 330, handle(plotStyles))
	p.layout(t, s, "Model", modelLayout, modelRecord, 0)
	p.layout(t, s, "Layout1", paperLayout, paperRecord, 1)
}

// layout writes the settings of a page: of the model the first, number 0.
func (p *dxfPen) layout(t *tags, s *ink.Sheet, name string, number, record, order int) {
	const modelFlag = 1024
	t.put(0, "LAYOUT", 5, handle(number), 330, handle(layouts), 100, "AcDbPlotSettings", 1, "", 2, "none_device", 4, "", 6, "",
		40, 0.0, 41, 0.0, 42, 0.0, 43, 0.0, 44, s.Width, 45, s.Height, 46, 0.0, 47, 0.0, 48, 0.0, 49, 0.0, 140, 0.0, 141, 0.0,
		142, 1.0, 143, p.k, 70, modelFlag*(1-order), 72, 1, 73, 0, 74, 1, 7, "", 75, 0, 147, s.Scale, 148, 0.0, 149, 0.0,
		100, "AcDbLayout", 1, name, 70, 1, 71, order, 10, 0.0, 20, 0.0, 11, s.Width*p.k, 21, s.Height*p.k,
		12, 0.0, 22, 0.0, 32, 0.0, 14, 0.0, 24, 0.0, 34, 0.0, 15, s.Width*p.k, 25, s.Height*p.k, 35, 0.0, 146, 0.0,
		13, 0.0, 23, 0.0, 33, 0.0, 16, 1.0, 26, 0.0, 36, 0.0, 17, 0.0, 27, 1.0, 37, 0.0, 76, 0, 330, handle(record))
}
