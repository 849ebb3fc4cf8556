package web

import (
	"net/http"
	"strconv"
	"strings"

	"oddleg"
)

// shop answers for the pages of the shop.
func (s *server) shop() {
	s.on("GET /{$}", s.jobsPage)
	s.on("GET /", func(http.ResponseWriter, *http.Request) error { return errNotThere })
}

// jobsPage lists the jobs, the one saved last first.
func (s *server) jobsPage(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.Jobs(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, jobsPage(s.look(r, "Jobs"), jobs))
}

// machineText says which machine is being mended.
func machineText(m oddleg.Machine) string {
	var said []string
	if m.What != "" {
		said = append(said, m.What)
	}
	if m.Built > 0 {
		said = append(said, "built "+strconv.Itoa(m.Built))
	}
	if m.Country != "" {
		said = append(said, m.Country)
	}
	return strings.Join(said, ", ")
}
