package web

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"sync"
)

// The bounds of a picture that is sent: of what it takes in memory, of the scans
// that a JPEG is made up from (common practice, no source: about ten), and of its
// longer side once it is kept.
const (
	mostMemory = 256 << 20
	mostScans  = 64
	mostSide   = 2400
	quality    = 85 // of a JPEG, out of 100
)

// picturing has one picture read at a time, so that many at once do not fill the
// memory.
var picturing sync.Mutex

// reencode makes a picture anew: upright, no larger than need be, and with
// nothing in it but what can be seen. Where and with what it was taken is left
// behind, and so are its colour profile and whatever else was in the file. A JPEG
// stays one, and so does a PNG; anything else is refused, before it is unpacked
// where it would be huge.
func reencode(data []byte) ([]byte, error) {
	picturing.Lock()
	defer picturing.Unlock()
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		return jpegAnew(data)
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return pngAnew(data)
	}
	return nil, wrong("this is no photograph that can be kept: JPEG and PNG can")
}

func jpegAnew(data []byte) ([]byte, error) {
	head, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	perPixel := 4
	if bytes.Contains(data, []byte{0xff, 0xc2}) {
		perPixel = 16 // made up from scans, all of which are held
	}
	if err := fits(head, perPixel); err != nil {
		return nil, err
	}
	if bytes.Count(data, []byte{0xff, 0xda}) > mostScans {
		return nil, wrong("the picture is made up from too many scans to be read: save it as a plain JPEG")
	}
	full, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, upright(shrunk(full, mostSide), orientation(data)), &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}

func pngAnew(data []byte) ([]byte, error) {
	head, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	perPixel := 4
	if head.ColorModel == color.RGBA64Model || head.ColorModel == color.NRGBA64Model {
		perPixel = 8
	}
	if err := fits(head, perPixel); err != nil {
		return nil, err
	}
	full, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	var b bytes.Buffer
	err = png.Encode(&b, shrunk(full, mostSide))
	return b.Bytes(), err
}

func broken(err error) error {
	return wrong("the picture is broken or cut short, and cannot be shown: %v", err)
}

// fits refuses a picture that would fill the memory.
func fits(head image.Config, perPixel int) error {
	const million = 1_000_000
	if head.Width <= 0 || head.Height <= 0 {
		return wrong("the picture has nothing in it")
	}
	if head.Width > mostMemory/perPixel/head.Height {
		return wrong("the picture has %d × %d points; the most is about %d million: take it with a lower resolution",
			head.Width, head.Height, mostMemory/perPixel/million)
	}
	return nil
}

// shrunk returns a picture whose longer side is this many points at most. Each of
// its points is the mean of what it covers.
func shrunk(full image.Image, most int) *image.RGBA {
	from := full.Bounds()
	width, height := from.Dx(), from.Dy()
	if longer := max(width, height); longer > most {
		width, height = max(1, width*most/longer), max(1, height*most/longer)
	}
	to := image.NewRGBA(image.Rect(0, 0, width, height))
	if width == from.Dx() && height == from.Dy() {
		draw.Draw(to, to.Bounds(), full, from.Min, draw.Src)
		return to
	}
	across := covered(from.Dx(), width)
	sum := make([]float64, 4*width)
	strip := image.NewRGBA(image.Rect(0, 0, from.Dx(), 1))
	for y, rows := range covered(from.Dy(), height) {
		clear(sum)
		for i, weight := range rows.weights {
			draw.Draw(strip, strip.Bounds(), full, image.Pt(from.Min.X, from.Min.Y+rows.first+i), draw.Src)
			addRow(sum, strip.Pix, across, weight)
		}
		for i, v := range sum {
			to.Pix[y*to.Stride+i] = uint8(v + 0.5)
		}
	}
	return to
}

// addRow adds a row of points, each mean with this weight.
func addRow(sum []float64, row []uint8, across []cover, weight float64) {
	for x, columns := range across {
		for i, part := range columns.weights {
			at := 4 * (columns.first + i)
			for c := range 4 {
				sum[4*x+c] += weight * part * float64(row[at+c])
			}
		}
	}
}

// cover is what one point covers of a line of smaller ones: from the first, with
// weights that add up to 1.
type cover struct {
	first   int
	weights []float64
}

// covered says for each of a line's fewer points what it covers of the many.
func covered(many, few int) []cover {
	list := make([]cover, few)
	for i := range list {
		// In parts of 1/few, so that all is whole numbers.
		low, high := i*many, (i+1)*many
		list[i].first = low / few
		for at := list[i].first; at*few < high; at++ {
			part := min(high, (at+1)*few) - max(low, at*few)
			list[i].weights = append(list[i].weights, float64(part)/float64(many))
		}
	}
	return list
}

// upright turns a picture as its Exif orientation says: 1 is upright, 3, 6 and 8
// are turned, the even ones below and the odd ones above 4 are mirrored too
// (Exif 2.32, CIPA DC-008, 4.6.4 A, tag 274).
func upright(m *image.RGBA, orientation int) *image.RGBA {
	width, height := m.Rect.Dx(), m.Rect.Dy()
	if orientation < 2 || orientation > 8 {
		return m
	}
	swapped := orientation > 4
	to := image.NewRGBA(image.Rect(0, 0, width, height))
	if swapped {
		to = image.NewRGBA(image.Rect(0, 0, height, width))
	}
	for y := range to.Rect.Dy() {
		for x := range to.Rect.Dx() {
			fromX, fromY := x, y
			if swapped {
				fromX, fromY = y, x
			}
			if mirrorsX[orientation] {
				fromX = width - 1 - fromX
			}
			if mirrorsY[orientation] {
				fromY = height - 1 - fromY
			}
			copy(to.Pix[to.PixOffset(x, y):][:4], m.Pix[m.PixOffset(fromX, fromY):][:4])
		}
	}
	return to
}

// mirrorsX and mirrorsY say for each orientation whether the file runs against
// the upright picture along its own rows and columns.
var (
	mirrorsX = [9]bool{2: true, 3: true, 7: true, 8: true}
	mirrorsY = [9]bool{3: true, 4: true, 6: true, 7: true}
)
