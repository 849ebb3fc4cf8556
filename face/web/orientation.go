package web

import (
	"bytes"
	"encoding/binary"
)

// Marks of a JPEG and of the Exif in it (Exif 2.32, CIPA DC-008).
const (
	segmentMark    = 0xff
	exifSegment    = 0xe1
	scanSegment    = 0xda
	orientationTag = 0x0112
	shortType      = 3
	entryLength    = 12
)

// orientation returns how a camera was held, from the Exif of its JPEG: 1 to 8,
// 1 where nothing is said, or nothing that can be understood.
func orientation(data []byte) int {
	for at := 2; at+4 <= len(data) && data[at] == segmentMark && data[at+1] != scanSegment; {
		length := int(binary.BigEndian.Uint16(data[at+2:]))
		if length < 2 || at+2+length > len(data) {
			return 1
		}
		body := data[at+4 : at+2+length]
		if exif, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok && data[at+1] == exifSegment {
			return orientationIn(exif)
		}
		at += 2 + length
	}
	return 1
}

// orientationIn looks for it in the first directory of the Exif, which is laid
// out as a TIFF file.
func orientationIn(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if string(tiff[:2]) == "II" {
		order = binary.LittleEndian
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 1
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < entryLength {
			return 1
		}
		if order.Uint16(entries) == orientationTag && order.Uint16(entries[2:]) == shortType {
			if held := int(order.Uint16(entries[8:])); held >= 1 && held <= 8 {
				return held
			}
			return 1
		}
		entries = entries[entryLength:]
	}
	return 1
}
