package web_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// quarters is a picture whose quarters are red, green, blue and white, row by row.
func quarters(width, height int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			m.Set(x, y, colours[2*(2*y/height)+2*x/width])
		}
	}
	return m
}

var colours = [4]color.RGBA{{200, 0, 0, 255}, {0, 160, 0, 255}, {0, 0, 220, 255}, {250, 250, 250, 255}}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withExif puts an Exif segment that says how the camera was held, and where it
// was, at the beginning of a JPEG.
func withExif(data []byte, order binary.AppendByteOrder, orientation uint16) []byte {
	tiff := []byte("MM")
	if order == binary.LittleEndian {
		tiff = []byte("II")
	}
	tiff = order.AppendUint16(tiff, 42)
	tiff = order.AppendUint32(tiff, 8)
	tiff = order.AppendUint16(tiff, 2)
	for _, entry := range [][2]uint16{{0x010e, 1}, {0x0112, orientation}} {
		tiff = order.AppendUint16(order.AppendUint16(tiff, entry[0]), 3)
		tiff = order.AppendUint32(tiff, 1)
		tiff = order.AppendUint16(order.AppendUint16(tiff, entry[1]), 0)
	}
	body := append([]byte("Exif\x00\x00"), append(tiff, "51 deg 28 min north"...)...)
	segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return append(append(append([]byte{}, data[:2]...), append(segment, body...)...), data[2:]...)
}

// TestUpright holds a camera in all eight ways. Where the first row and the first
// column of the file are seen is from Exif 2.32 (CIPA DC-008), 4.6.4 A, tag 274.
func TestUpright(t *testing.T) {
	sides := [9][2]string{
		1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
	}
	opposite := map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
	for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
		for held := 1; held <= 8; held++ {
			data, err := web.Reencode(withExif(asJPEG(t, quarters(96, 64)), order, uint16(held)))
			if err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(data, []byte("Exif")) || bytes.Contains(data, []byte("51 deg")) {
				t.Errorf("held %d: it still says where it was taken", held)
			}
			got := decoded(t, data)
			row, column := sides[held][0], sides[held][1]
			for i, want := range colours {
				at := map[string]bool{row: true, column: true}
				if i >= 2 {
					delete(at, row)
					at[opposite[row]] = true
				}
				if i%2 == 1 {
					delete(at, column)
					at[opposite[column]] = true
				}
				if seen := got.At(seenAt(got.Bounds(), at)); !near(seen, want, 12) {
					t.Errorf("%v, held %d: quarter %d is %v where %v is wanted", order, held, i, seen, want)
				}
			}
		}
	}
}

// seenAt is the middle of the quarter that lies at two sides.
func seenAt(b image.Rectangle, at map[string]bool) (x, y int) {
	x, y = b.Dx()/4, b.Dy()/4
	if at["right"] {
		x = b.Dx() * 3 / 4
	}
	if at["bottom"] {
		y = b.Dy() * 3 / 4
	}
	return x, y
}

func near(a, b color.Color, within int) bool {
	ra, ga, ba, _ := a.RGBA()
	rb, gb, bb, _ := b.RGBA()
	off := func(p, q uint32) bool { return math.Abs(float64(p>>8)-float64(q>>8)) > float64(within) }
	return !off(ra, rb) && !off(ga, gb) && !off(ba, bb)
}

func decoded(t testing.TB, data []byte) image.Image {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestShrunk: no side is longer than 2400 points, no shape is changed, and fine
// stripes become their mean.
func TestShrunk(t *testing.T) {
	stripes := image.NewGray(image.Rect(0, 0, 4800, 1200))
	for i := range stripes.Pix {
		stripes.Pix[i] = uint8(i % 2 * 200)
	}
	for _, c := range []struct {
		name          string
		data          []byte
		width, height int
		middle        color.Color
	}{
		{"stripes", asPNG(t, stripes), 2400, 600, color.Gray{100}},
		{"upright", asJPEG(t, quarters(1000, 3000)), 800, 2400, colours[3]},
		{"small", asJPEG(t, quarters(100, 30)), 100, 30, colours[3]},
		{"a hair", asPNG(t, quarters(5000, 1)), 2400, 1, colours[3]},
	} {
		data, err := web.Reencode(c.data)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got := decoded(t, data)
		if b := got.Bounds(); b.Dx() != c.width || b.Dy() != c.height {
			t.Errorf("%s: %v", c.name, b)
		}
		if seen := got.At(c.width*3/4, c.height*3/4); !near(seen, c.middle, 8) && c.height > 1 {
			t.Errorf("%s: %v is seen where %v is wanted", c.name, seen, c.middle)
		}
	}
}

// TestPicturesRefused sends what is no picture, or a bomb.
func TestPicturesRefused(t *testing.T) {
	var asGIF bytes.Buffer
	if err := gif.Encode(&asGIF, quarters(10, 10), nil); err != nil {
		t.Fatal(err)
	}
	whole := asJPEG(t, quarters(200, 200))
	for _, c := range []struct {
		name  string
		data  []byte
		words string
	}{
		{"nothing", nil, "JPEG and PNG"},
		{"GIF", asGIF.Bytes(), "JPEG and PNG"},
		{"SVG", []byte(`<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`), "JPEG and PNG"},
		{"HTML", []byte("<!DOCTYPE html><script>alert(1)</script>"), "JPEG and PNG"},
		{"cut short", whole[:len(whole)/2], "cut short"},
		{"only a head", whole[:4], "cut short"},
		{"PNG cut short", asPNG(t, quarters(50, 50))[:60], "cut short"},
		{"PNG bomb", sizedPNG(50_000, 50_000, 8, 2), "the most is about"},
		{"deep PNG bomb", sizedPNG(6_000, 6_000, 16, 6), "the most is about"},
		{"PNG of no width", sizedPNG(0, 10, 8, 2), "broken"},
		{"PNG wider than can be", sizedPNG(math.MaxInt32, math.MaxInt32, 8, 2), ""},
		{"JPEG bomb", sizedJPEG(whole, 65_535, 65_535), "the most is about"},
		{"JPEG of no height", sizedJPEG(whole, 0, 10), ""},
		{"JPEG of many scans", append(bytes.Clone(whole), bytes.Repeat([]byte{0xff, 0xda}, 1000)...), "too many scans"},
	} {
		_, err := web.Reencode(c.data)
		var faults trade.Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// sizedPNG is a PNG that states a size and holds nothing.
func sizedPNG(width, height uint32, depth, kind byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), width), height)
	head = append(head, depth, kind, 0, 0, 0)
	data := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(head))
}

// sizedJPEG states another size in the frame of a JPEG.
func sizedJPEG(data []byte, width, height uint16) []byte {
	data = bytes.Clone(data)
	at := bytes.Index(data, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(data[at+5:], height)
	binary.BigEndian.PutUint16(data[at+7:], width)
	return data
}

// TestNothingButThePicture: what is in a file beside its picture does not come
// out again.
func TestNothingButThePicture(t *testing.T) {
	for name, data := range map[string][]byte{"JPEG": asJPEG(t, quarters(40, 40)), "PNG": asPNG(t, quarters(40, 40))} {
		out, err := web.Reencode(append(data, "<script>alert(1)</script>PK\x03\x04"...))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if bytes.Contains(out, []byte("script")) || bytes.Contains(out, []byte("PK\x03\x04")) {
			t.Errorf("%s: what was behind the picture is there still", name)
		}
	}
}

// FuzzPictures sends anything: it is refused or becomes a picture that can be
// read.
func FuzzPictures(f *testing.F) {
	f.Add(withExif(asJPEG(f, quarters(16, 8)), binary.LittleEndian, 6))
	f.Add(asPNG(f, quarters(8, 8)))
	f.Add(sizedPNG(9, 9, 16, 6))
	f.Fuzz(func(t *testing.T, data []byte) {
		out, err := web.Reencode(data)
		if err != nil {
			var faults trade.Faults
			if !errors.As(err, &faults) {
				t.Fatalf("not the sender's fault: %v", err)
			}
			return
		}
		decoded(t, out)
	})
}

// BenchmarkReencode takes a telephone's picture in, of twelve million points.
func BenchmarkReencode(b *testing.B) {
	data := withExif(asJPEG(b, quarters(4000, 3000)), binary.BigEndian, 6)
	for b.Loop() {
		if _, err := web.Reencode(data); err != nil {
			b.Fatal(err)
		}
	}
}
