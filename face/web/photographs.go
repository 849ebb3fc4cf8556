package web

import (
	"io"
	"net/http"
	"strconv"

	"codeberg.org/oddleg/oddleg/job/record"
)

// photographPages answer for the pictures of a job.
type photographPages struct{ *desk }

func (s *photographPages) routes(t *table) {
	t.on("GET /job/{job}/photographs", s.photographsPage)
	t.on("POST /job/{job}/photographs", s.addPhotograph)
	t.on("GET /job/{job}/photographs/{picture}", s.photographPage)
	t.on("GET /job/{job}/photographs/{picture}/file", s.photographFile)
	t.on("POST /job/{job}/photographs/{picture}/caption", s.captionPhotograph)
	t.on("POST /job/{job}/photographs/{picture}/pins", s.putPin)
	t.on("POST /job/{job}/photographs/{picture}/pins/{pin}/drop", s.dropPin)
}

// photographsPage shows all pictures of a job.
func (s *photographPages) photographsPage(w http.ResponseWriter, r *http.Request) error {
	return s.showPhotographs(w, r, http.StatusOK, nil)
}

func (s *photographPages) showPhotographs(w http.ResponseWriter, r *http.Request, status int, wrongs []string) error {
	v, err := s.view(r, "photographs")
	if err != nil {
		return err
	}
	list, err := s.Record.Photographs(r.Context(), v.ID)
	if err != nil {
		return err
	}
	return s.show(w, r, status, photographsPage(s.lookAt(r, v, "Photographs"), list, wrongs))
}

// addPhotograph keeps a picture, made anew so that nothing but the picture is
// in it: a telephone writes into it where it was taken.
func (s *photographPages) addPhotograph(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "photographs")
	if err != nil {
		return err
	}
	data, err := uploaded(r, "picture")
	if err == nil {
		data, err = reencode(data)
	}
	if err == nil {
		_, err = s.Record.AddPhotograph(r.Context(), record.Photograph{Stamp: s.stamp(r, r.FormValue("caption")), Job: v.ID, Data: data})
	}
	if wrongs := said(faultsOf(err)); isFault(err) {
		return s.showPhotographs(w, r, http.StatusUnprocessableEntity, wrongs)
	}
	if err != nil {
		return err
	}
	return goTo(w, r, v.at("photographs"))
}

// uploaded reads a file of a form.
func uploaded(r *http.Request, name string) ([]byte, error) {
	file, _, err := r.FormFile(name)
	switch {
	case err == http.ErrMissingFile:
		return nil, wrong("no file was chosen")
	case err != nil:
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(file)
}

// photographPage shows one picture with its pins.
func (s *photographPages) photographPage(w http.ResponseWriter, r *http.Request) error {
	return s.showPhotograph(w, r, http.StatusOK, nil)
}

func (s *photographPages) showPhotograph(w http.ResponseWriter, r *http.Request, status int, wrongs []string) error {
	v, err := s.view(r, "photographs")
	if err != nil {
		return err
	}
	picture, err := s.Record.Photograph(r.Context(), v.ID, r.PathValue("picture"))
	if err != nil {
		return err
	}
	picture.Data = nil
	l := s.lookAt(r, v, "Photograph")
	l.Scripts = []string{"pins.js"}
	return s.show(w, r, status, photographPage(l, picture, v.figures(), wrongs))
}

// photographFile sends the picture itself. Its name is the hash of its bytes:
// it never changes.
func (s *photographPages) photographFile(w http.ResponseWriter, r *http.Request) error {
	job, err := s.Record.Job(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	picture, err := s.Record.Photograph(r.Context(), job.ID, r.PathValue("picture"))
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", picture.MIME)
	h.Set("Content-Length", strconv.Itoa(len(picture.Data)))
	h.Set("Cache-Control", "private, max-age=31536000, immutable")
	_, err = w.Write(picture.Data)
	return ignoreGone(r.Context(), err)
}

func (s *photographPages) captionPhotograph(w http.ResponseWriter, r *http.Request) error {
	err := s.Record.Caption(r.Context(), r.PathValue("job"), r.PathValue("picture"), r.FormValue("caption"))
	return s.photographChanged(w, r, err)
}

// putPin ties a point of the picture to a size, or to words.
func (s *photographPages) putPin(w http.ResponseWriter, r *http.Request) error {
	x, wrongX := hundredth(r.FormValue("across"))
	y, wrongY := hundredth(r.FormValue("down"))
	var err error
	switch {
	case wrongX || wrongY:
		err = wrong("where the pin goes is given in hundredths of the picture, from 0 to 100, across and down")
	case r.FormValue("size") == "" && r.FormValue("say") == "":
		err = wrong("a pin needs a size, or words to say what is there")
	default:
		pin := record.Pin{X: x, Y: y, Size: r.FormValue("size"), Say: r.FormValue("say")}
		_, err = s.Record.PutPin(r.Context(), r.PathValue("job"), r.PathValue("picture"), pin, s.stamp(r, ""))
	}
	return s.photographChanged(w, r, err)
}

func (s *photographPages) dropPin(w http.ResponseWriter, r *http.Request) error {
	return s.photographChanged(w, r, s.Record.DropPin(r.Context(), r.PathValue("job"), r.PathValue("picture"), r.PathValue("pin")))
}

// photographChanged shows the picture again after something was done to it.
func (s *photographPages) photographChanged(w http.ResponseWriter, r *http.Request, err error) error {
	if isFault(err) {
		return s.showPhotograph(w, r, http.StatusUnprocessableEntity, said(faultsOf(err)))
	}
	if err != nil {
		return err
	}
	return goTo(w, r, "/job/"+r.PathValue("job")+"/photographs/"+r.PathValue("picture"))
}

// hundredth reads a number from 0 to 100 as a part of 1.
func hundredth(text string) (part float64, bad bool) {
	x, err := strconv.ParseFloat(text, 64)
	return x / 100, err != nil || !(x >= 0 && x <= 100)
}
