package web

import (
	"net/http"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/say"
)

// mostNext is how many readings are proposed.
const mostNext = 3

// proposal is a reading that is worth taking next.
type proposal struct {
	What  string
	Touch bool   // by a stylus
	Again string // the reading of which one more value is wanted, or
	New   bool   // which would be its first
	Start string // where it is begun
}

// nextPage says what to read next. It takes longer than to show what was read:
// the list asks for it when it is there.
func (s *readingPages) nextPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "readings")
	if err != nil {
		return err
	}
	why, list := s.next(v)
	return s.show(w, r, http.StatusOK, nextPage(s.lookAt(r, v, "Read this next"), why, list))
}

// next proposes the readings that tell most, with what the job has first.
func (s *readingPages) next(v *jobView) (why string, list []proposal) {
	if v.Found == nil || len(v.worked.Job.Sizes) == 0 {
		return "", nil
	}
	advice := v.Next()
	why, what := say.WordsOn(v.worked.Job, v.Found, v.worked.view()).Advice(advice)
	for _, borrow := range []bool{false, true} {
		for i := range advice.Best {
			if c := &advice.Best[i]; what[i] != "" && len(c.Borrow) > 0 == borrow && len(list) < mostNext {
				list = append(list, v.propose(c, what[i]))
			}
		}
	}
	return why, list
}

// propose leads to where a reading is begun with its set-up filled in.
func (v *jobView) propose(c *advise.Candidate, what string) proposal {
	if c.Again {
		return proposal{What: what, Again: c.Reading.ID, Touch: gauge.Pairs(c.Reading.By)}
	}
	if r := v.plannedLike(&c.Reading); r != nil {
		return proposal{What: what, Again: r.ID, New: true}
	}
	values := likeReading(&c.Reading)
	for _, piece := range c.Borrow {
		for _, arg := range c.Reading.Of {
			if field := "of." + arg.Role; arg.ID == piece.ID {
				values.Set(field, newPiece)
				values.Set(field+".piece", string(piece.Kind))
				values.Set(field+".size", piece.Size.String())
				values.Set(field+".tolerance", piece.Tolerance.String())
			}
		}
	}
	return proposal{What: what, Start: v.at("take/by/" + c.Reading.By + "?" + values.Encode())}
}

// plannedLike returns the reading of the job that has this set-up and has not
// been taken, nil where none has.
func (v *jobView) plannedLike(wanted *trade.Reading) *trade.Reading {
	job := v.worked.Job
	for i := range job.Readings {
		r := &job.Readings[i]
		if len(r.Saw) == 0 && !r.GoNoGo() && r.By == wanted.By && r.With == wanted.With && setUpOf(r) == setUpOf(wanted) {
			return r
		}
	}
	return nil
}

// setUpOf tells set-ups apart by what stands in their roles.
func setUpOf(r *trade.Reading) string {
	values := likeReading(r)
	for _, besides := range []string{"feel", "at", "say", "seated"} {
		values.Del(besides)
	}
	return values.Encode()
}
