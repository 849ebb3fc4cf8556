package main

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// setupCommand says how the part of a job is set up for.
type setupCommand struct {
	File         string `arg:"" help:"The job file (YAML) with a part, and best a shop and an order of work; - reads standard input."`
	JSON         bool   `name:"json" help:"Print the answer as JSON (mm, N, degrees)."`
	pictureFlags `embed:""`
}

// Run prints the set-ups, and writes their pictures where these are wanted.
func (c *setupCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(s.context(), c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		plan, err := found.SetUps()
		if err != nil {
			return answer{}, err
		}
		written, err := c.write(setUpPictures(plan))
		return answer{
			says: listed(say.SetUps(plan), written), view: inJob(found.Result.Job),
			json: func(w io.Writer) error { return report.SetupJSON(w, plan) },
		}, err
	})
}

// The size of a picture of a set-up by itself, in mm: half a sheet of A4.
const setUpWidth, setUpHeight = 190.0, 190.0

// setUpPictures are the pictures of all set-ups.
func setUpPictures(plan *plan.Plan) []named {
	var list []named
	for i, step := range plan.Steps {
		for _, scene := range plan.Scenes(step) {
			sheet, err := picture.SetUp(scene, plan.Job.Units, setUpWidth, setUpHeight)
			list = append(list, named{setUpName(i+1, step, scene.Title), sheet, err})
		}
	}
	return list
}

// setUpName names a picture by the number and id of its operation, and its title.
func setUpName(number int, step *plan.Step, title string) string {
	words := []string{fmt.Sprint(number)}
	if step.Operation != nil && step.Operation.ID != fmt.Sprintf("operation %d", step.Turn.Number) {
		words = append(words, step.Operation.ID)
	}
	return strings.Join(append(words, title), "-")
}
