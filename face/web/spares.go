package web

import (
	"cmp"
	"net/http"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
)

// sparePages answer for what is on the shelf.
type sparePages struct{ *desk }

func (s *sparePages) routes(t *table) { t.on("GET /spares", s.sparesPage) }

// shelfOf is what is on the shelf for one machine.
type shelfOf struct {
	Machine string
	Spares  []record.Hit
}

// sparesPage lists the spares by machine, and where they are.
func (s *sparePages) sparesPage(w http.ResponseWriter, r *http.Request) error {
	hits, err := s.Record.OnShelf(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, sparesPage(s.look(r, "Spares"), shelves(hits)))
}

// shelves gathers spares by machine, in the order of its words.
func shelves(hits []record.Hit) []shelfOf {
	var list []shelfOf
	for _, hit := range hits {
		machine := cmp.Or(machineText(hit.Job.Machine), "no machine named")
		i := slices.IndexFunc(list, func(s shelfOf) bool { return s.Machine == machine })
		if i < 0 {
			i = len(list)
			list = append(list, shelfOf{Machine: machine})
		}
		list[i].Spares = append(list[i].Spares, hit)
	}
	slices.SortFunc(list, func(a, b shelfOf) int { return strings.Compare(a.Machine, b.Machine) })
	return list
}
