package web

import (
	"net/http"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/job/record"
)

// findPages answer for the search.
type findPages struct{ *desk }

func (s *findPages) routes(t *table) { t.on("GET /find", s.findPage) }

// findPage shows what is found of what is asked for.
func (s *findPages) findPage(w http.ResponseWriter, r *http.Request) error {
	asked := lineOf(r, "q")
	var hits []record.Hit
	if asked != "" {
		var err error
		if hits, err = s.Record.Find(r.Context(), index.Query(asked)); err != nil {
			return err
		}
	}
	return s.show(w, r, http.StatusOK, findPage(s.look(r, "Find"), asked, hits))
}

// toolWords say what something in the kit is.
func toolWords(t *record.Tool) string { return joined(" ", t.Kind, t.Size.Text) }
