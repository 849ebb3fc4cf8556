package web

import "net/http"

// you answers for what a person chooses for themselves.
func (s *server) you() {
	s.on("POST /you/units", func(w http.ResponseWriter, r *http.Request) error {
		keep(w, unitsCookie, r.FormValue("units"))
		return goTo(w, r, back(r, "/you"))
	})
}
