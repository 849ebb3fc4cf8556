package solid

import (
	"archive/zip"
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/make/part"
)

// The fixed files of a 3MF package (3MF Core Specification 1.2, from memory).
const (
	contentTypes = xml.Header + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>` + "\n"
	relationships = xml.Header + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>` + "\n"
	coreSpace = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
)

// ThreeMF writes a part as a 3MF package, in mm, no face farther off than Chord.
func ThreeMF(w io.Writer, m *part.Model) error {
	mesh, err := MeshOf(m, Chord)
	if err != nil {
		return err
	}
	archive := zip.NewWriter(w)
	for _, file := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{"[Content_Types].xml", text(contentTypes)},
		{"_rels/.rels", text(relationships)},
		{"3D/3dmodel.model", func(w io.Writer) error { return mesh.writeModel(w, m.Name) }},
	} {
		entry, err := archive.Create(file.name) // without a date
		if err != nil {
			return err
		}
		if err := file.write(entry); err != nil {
			return err
		}
	}
	return archive.Close()
}

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// writeModel writes the mesh as the XML of a 3MF model.
func (m *Mesh) writeModel(w io.Writer, name string) error {
	out := bufio.NewWriter(w) // keeps the first error for Flush
	fmt.Fprintf(out, "%s<model unit=\"millimeter\" xml:lang=\"en-GB\" xmlns=\"%s\">\n", xml.Header, coreSpace)
	fmt.Fprintf(out, "<metadata name=\"Title\">%s</metadata>\n<metadata name=\"Description\">%s</metadata>\n", escaped(name), escaped(ThreadsNote))
	fmt.Fprint(out, "<resources><object id=\"1\" type=\"model\"><mesh>\n<vertices>\n")
	for _, p := range m.Points {
		fmt.Fprintf(out, "<vertex x=%q y=%q z=%q/>\n", single(p[0]), single(p[1]), single(p[2]))
	}
	fmt.Fprint(out, "</vertices>\n<triangles>\n")
	for _, t := range m.Triangles {
		fmt.Fprintf(out, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", t[0], t[1], t[2])
	}
	fmt.Fprint(out, "</triangles>\n</mesh></object></resources>\n<build><item objectid=\"1\"/></build>\n</model>\n")
	return out.Flush()
}

// single prints a number so that single precision reads it back.
func single(x float32) string { return strconv.FormatFloat(float64(x), 'g', -1, 32) }

// escaped makes a text fit to stand in XML.
func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		panic("solid: a text builder refuses a text")
	}
	return b.String()
}
