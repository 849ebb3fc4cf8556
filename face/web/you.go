package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
)

// settingPages answer for what a person chooses for themselves, and for who else may
// come in.
type settingPages struct{ *desk }

func (s *settingPages) routes(t *table) {
	t.on("GET /you", s.youPage)
	t.on("POST /you/units", func(w http.ResponseWriter, r *http.Request) error {
		keep(w, unitsCookie, r.FormValue("units"))
		return goTo(w, r, back(r, "/you"))
	})
	t.on("POST /you/name", s.name)
	t.on("POST /you/invite", s.invite)
	t.on("GET /you/invitation", s.invitationPage)
	t.on("POST /you/revoke", s.revoke)
}

// longestNameText is for the fields of names.
var longestNameText = strconv.Itoa(longestName)

// threshold is who may come in, as the page shows it.
type threshold struct {
	Guard
	Key     string // for a new invitation
	Devices []record.Device
	This    string // id of the device that looks, empty for this computer
	Zone    *time.Location
}

// youPage shows the person's own choices, and who may write the devices.
func (s *settingPages) youPage(w http.ResponseWriter, r *http.Request) error {
	a := threshold{Guard: s.guard, Key: newKey(), Zone: s.Now().Location()}
	if !personOf(r).Guest {
		var err error
		if a.Devices, err = s.Record.Devices(r.Context()); err != nil {
			return err
		}
	}
	if d, ok := deviceOf(r.Context()); ok {
		a.This = d.ID
	}
	return s.show(w, r, http.StatusOK, youPage(s.look(r, "You"), a))
}

// name has the browser remember how the person is called.
func (s *settingPages) name(w http.ResponseWriter, r *http.Request) error {
	name := strings.TrimSpace(r.FormValue("name"))
	if len(name) > longestName {
		return wrong("the name has %d letters; the most is %d", len(name), longestName)
	}
	keep(w, nameCookie, name)
	return goTo(w, r, "/you")
}

// invite lets one more device join. The key comes with the form: sent twice it
// is one invitation.
func (s *settingPages) invite(w http.ResponseWriter, r *http.Request) error {
	key := r.FormValue("once")
	if !aKey.MatchString(key) {
		return wrong("the form does not say which invitation it is; open the page again")
	}
	if err := invite(r.Context(), s.Config, key, r.FormValue("may") == "look"); err != nil {
		return err
	}
	return goTo(w, r, "/you/invitation?key="+url.QueryEscape(key))
}

// invitationPage shows where a device joins, to be read by its camera.
func (s *settingPages) invitationPage(w http.ResponseWriter, r *http.Request) error {
	key := r.FormValue("key")
	if personOf(r).Guest || !aKey.MatchString(key) || !s.guard.Shared {
		return errNotThere
	}
	address := s.addressFor(r) + joinPath(key)
	code, err := report.Code(address)
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, invitationPage(s.look(r, "Let a device in"), code, address))
}

// addressFor is where other devices find the page: by the address that is known
// from the start, else by the one that somebody came by.
func (s *settingPages) addressFor(r *http.Request) string {
	if s.guard.Address != "" {
		return s.guard.Address
	}
	if s.guard.Sealed {
		return "https://" + r.Host
	}
	return "http://" + r.Host
}

// revoke keeps a device out.
func (s *settingPages) revoke(w http.ResponseWriter, r *http.Request) error {
	if err := s.Record.Revoke(r.Context(), r.FormValue("device"), s.Now()); err != nil {
		return err
	}
	return goTo(w, r, "/you")
}

// day writes a moment as the shop's clock has it.
func (a threshold) day(t time.Time) string { return t.In(a.Zone).Format("2 Jan 2006 15:04") }
