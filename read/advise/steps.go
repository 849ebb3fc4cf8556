package advise

// MostSteps is how many readings are planned ahead at most.
const MostSteps = 24

// limit returns how well the size can be known at all with the kit, however
// often everything is read that makes sense.
func (s *survey) limit() State {
	own := *s
	own.lends = false
	u, determined := s.r.Limit(with(s.r.Job, own.possible(own.planned())), s.a.For)
	return State{U: u, Determined: determined}
}

// steps returns the few readings that together reach what is wanted, or that
// determine the size: with the kit if that can be, else with what may be
// borrowed. Each is the best after those before it. They are none where one
// reading does, and where no few do.
func (s *survey) steps() []Candidate {
	if len(s.a.Best) == 0 || s.a.Reaches(s.a.Now) || s.a.Reaches(s.a.Best[0].Then) {
		return nil
	}
	if s.a.Want == 0 && s.a.Now.Determined {
		return nil
	}
	if own := s.walk(false); own != nil || !s.lends {
		return own
	}
	return s.walk(true)
}

// walk takes the best reading, again and again, until the aim is reached.
func (s *survey) walk(lends bool) []Candidate {
	if !lends && !s.a.Reaches(s.a.Limit) {
		return nil
	}
	var steps []Candidate
	r, now := s.r, s.a.Now
	for range MostSteps {
		if s.ctx.Err() != nil {
			return nil
		}
		ahead := &Advice{Result: r, For: s.a.For, Why: s.a.Why, Want: s.a.Want, Now: now}
		next := newSurvey(s.ctx, r, ahead)
		next.lends, next.keeps = lends, 1
		best := next.best()
		if len(best) == 0 {
			return nil
		}
		_, after, ok := next.taken(&best[0])
		if !ok {
			return nil
		}
		steps = append(steps, best[0])
		if ahead.Reaches(best[0].Then) {
			return steps
		}
		r, now = after, best[0].Then
	}
	return nil
}
