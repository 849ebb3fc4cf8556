package web

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/say"
)

// simulationPages answer for work that takes long.
type simulationPages struct{ *desk }

func (s *simulationPages) routes(t *table) {
	t.on("GET /job/{job}/long/{task}", s.taskPage)
	t.on("POST /job/{job}/long/{task}/stop", s.stopTask)
	t.on("GET /job/{job}/simulation", s.simulationPage)
	t.on("POST /job/{job}/simulation", s.simulate)
}

// errForgotten is for a task that is not remembered.
var errForgotten = trade.Faults{{Text: "this is not remembered any more: ask for it again"}}

// taskOf finds the task that a request is about.
func (s *desk) taskOf(r *http.Request) (*task, error) {
	t := s.tasks.find(r.PathValue("task"))
	if t == nil || t.Job != r.PathValue("job") {
		return nil, errForgotten
	}
	return t, nil
}

// taskPage shows how far a task is, or what came of it.
func (s *simulationPages) taskPage(w http.ResponseWriter, r *http.Request) error {
	t, err := s.taskOf(r)
	if err != nil {
		return err
	}
	v, err := s.view(r, "")
	if err != nil {
		return err
	}
	if t.Ended() && t.Err != nil && !errors.Is(t.Err, context.Canceled) && asFaults(t.Err) == nil {
		return t.Err
	}
	return s.show(w, r, http.StatusOK, taskPage(s.lookAt(r, v, t.Title), t))
}

// stopTask stops a task that somebody began. One that has ended is left as it is.
func (s *simulationPages) stopTask(w http.ResponseWriter, r *http.Request) error {
	t, err := s.taskOf(r)
	if err != nil {
		return err
	}
	if t.Stops() {
		t.stop()
		select {
		case <-t.ended:
		case <-time.After(soon):
		}
	}
	return goTo(w, r, "/job/"+t.Job+"/long/"+t.ID)
}

// soon is how long a page waits for what may be done at once.
const soon = 80 * time.Millisecond

// beginFor sets a task going for a person and leads to it.
func (s *desk) beginFor(w http.ResponseWriter, r *http.Request, t *task, do work) error {
	t.who = "this computer"
	if d, ok := deviceOf(r.Context()); ok {
		t.who = d.ID
	}
	begun, err := s.tasks.begin(t, do)
	if err != nil {
		return err
	}
	return goTo(w, r, "/job/"+t.Job+"/long/"+begun.ID)
}

// trialChoices are how often the readings' errors are drawn: fewer leave the ends
// of an interval too vague, more take too long on a small computer.
var trialChoices = []int{10_000, 100_000, 1_000_000}

// mostDrawn is how many values a simulation may hold in memory.
const mostDrawn = 20_000_000

// mostTrains is how many sets of change gears are listed.
const mostTrains = 12

// simulationPage asks how long a job is to be drawn.
func (s *simulationPages) simulationPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "sizes")
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, simulationPage(s.lookAt(r, v, "Drawn over and over")))
}

// simulate draws a job.
func (s *simulationPages) simulate(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "sizes")
	if err != nil {
		return err
	}
	if v.Found == nil {
		return v.Faults
	}
	result, trials := v.Found.Result, number(r, "trials")
	if trials < trialChoices[0] || trials > trialChoices[len(trialChoices)-1] || trials*max(1, len(result.Sizes)) > mostDrawn {
		return wrong("drawn %d times: from %d times are of use, and up to %d for this job", trials, trialChoices[0],
			min(trialChoices[len(trialChoices)-1], mostDrawn/max(1, len(result.Sizes))))
	}
	t := &task{
		ID: taskID("simulation", v.ID, string(v.Source), strconv.Itoa(trials)), Job: v.ID,
		Title: "Drawn " + strconv.Itoa(trials) + " times", Path: v.at("simulation"),
	}
	return s.beginFor(w, r, t, func(ctx context.Context, told func(done, all int)) (*doc.Document, error) {
		told(0, trials)
		drawn, err := simulate.SizesUntil(ctx, result, trials, seed, func(made int) { told(made, trials) })
		if err != nil {
			return nil, err
		}
		return say.Simulation(drawn), nil
	})
}

// findGears seeks the change gears for a thread.
func (s *setUpPages) findGears(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "setups")
	if err != nil {
		return err
	}
	machine, wanted, length, err := gearsAsked(r, v)
	if err != nil {
		return err
	}
	t := &task{
		ID: taskID("gears", v.ID, string(v.Source), r.PostForm.Encode()), Job: v.ID,
		Title: "Change gears for " + wanted.Pitch.String(), Path: v.at("setups"),
	}
	return s.beginFor(w, r, t, func(ctx context.Context, told func(done, all int)) (*doc.Document, error) {
		found, err := lathe.FindTrainsUntil(ctx, machine, wanted, told)
		if err != nil {
			return nil, err
		}
		return say.ChangeGears(machine, found, length, mostTrains), nil
	})
}

// gearsAsked reads which thread is to be cut on which lathe.
func gearsAsked(r *http.Request, v *jobView) (lathe *trade.Machinery, wanted lathe.GearsWanted, length float64, err error) {
	if v.worked.Job == nil {
		return nil, wanted, 0, v.Faults
	}
	for i := range v.worked.Job.Shop {
		if v.worked.Job.Shop[i].ID == r.FormValue("lathe") {
			lathe = &v.worked.Job.Shop[i]
		}
	}
	if lathe == nil {
		return nil, wanted, 0, wrong("there is no lathe %q in this job", r.FormValue("lathe"))
	}
	bare := v.worked.Job.Units
	wanted.Feed = r.FormValue("feed") == "yes"
	wanted.Starts = number(r, "starts")
	if wanted.Pitch, err = unit.ParsePitch(r.FormValue("pitch"), bare); err != nil {
		return nil, wanted, 0, wrong("the pitch: %v", err)
	}
	if text := r.FormValue("length"); text != "" {
		over, err := unit.ParseLength(text, bare)
		if err != nil {
			return nil, wanted, 0, wrong("the length of the thread: %v", err)
		}
		length = over.Inside()
	}
	return lathe, wanted, length, nil
}
