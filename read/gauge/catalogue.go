package gauge

import "slices"

// family is one page of the catalogue.
type family struct {
	name    string
	methods []*Method
}

var families = []family{
	{"straight readings", straight},
	{"gauge pieces against round walls", walls},
	{"bores", bores},
	{"tapers", tapers},
	{"dovetails and vees", dovetails},
	{"threads", threads},
	{"arcs", arcs},
	{"holes and centres", holes},
	{"keys, flats, hexagons", keys},
	{"gears", gears},
	{"the general reading", general},
}

var catalogue, byID = gather(families)

func gather(families []family) ([]*Method, map[string]*Method) {
	var list []*Method
	index := map[string]*Method{}
	for _, f := range families {
		for _, m := range f.methods {
			m.Family = f.name
			list = append(list, m)
			index[m.ID] = m
		}
	}
	return list, index
}

// Methods returns the whole catalogue, family by family. The methods are shared
// and must not be changed.
func Methods() []*Method { return slices.Clone(catalogue) }

// Find returns the method with this id.
func Find(id string) (*Method, bool) {
	m, ok := byID[id]
	return m, ok
}
