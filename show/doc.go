// Package show is the wing of what is said and drawn.
//
// say turns results into documents, doc has the blocks that documents are made of;
// term, booklet, html and asjson show a document on a terminal, on paper, in a page
// and to programs, and know no result. ink has what stands on a sheet; draw makes
// sheets of parts and sketches; paper writes a sheet as SVG, PDF and DXF, solid a
// part as STL, 3MF and STEP; picture draws what stages found; manual tells of the
// job file. report has the agreed objects for programs, the label and the handbook.
// The wing has no code of its own.
package show
