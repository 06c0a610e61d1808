package photo

import (
	"bytes"
	"encoding/binary"
)

// segments calls f with each segment of a JPEG before the picture itself, until f
// returns false.
// Source: ITU-T T.81, annex B: markers and their lengths.
func segments(src []byte, f func(marker byte, body []byte) bool) {
	if len(src) < 4 || src[0] != 0xff || src[1] != 0xd8 {
		return
	}
	for at := 2; at+4 <= len(src); {
		if src[at] != 0xff {
			return
		}
		marker := src[at+1]
		if marker == 0xff { // filling
			at++
			continue
		}
		if marker == 0xda || marker == 0xd9 {
			return
		}
		n := int(binary.BigEndian.Uint16(src[at+2:]))
		if n < 2 || at+2+n > len(src) {
			return
		}
		if !f(marker, src[at+4:at+2+n]) {
			return
		}
		at += 2 + n
	}
}

// Orientation is how the camera was held, 1 to 8 as Exif counts; 1 when the picture
// does not say.
func Orientation(src []byte) int {
	o := 1
	segments(src, func(marker byte, body []byte) bool {
		tiff, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00"))
		if marker != 0xe1 || !ok {
			return true
		}
		o = orientationOf(tiff)
		return false
	})
	if o == 1 {
		o = chunkOrientation(src)
	}
	return o
}

// chunkOrientation reads the Exif chunk of a WebP or a PNG.
// Source: RFC 9649 (WebP container), section 2.7.1.5; PNG third edition, eXIf.
func chunkOrientation(src []byte) int {
	switch {
	case len(src) > 12 && string(src[:4]) == "RIFF" && string(src[8:12]) == "WEBP":
		for at := 12; at+8 <= len(src); {
			n := int(binary.LittleEndian.Uint32(src[at+4:]))
			if n < 0 || n > len(src)-at-8 {
				return 1
			}
			if string(src[at:at+4]) == "EXIF" {
				return orientationOf(bytes.TrimPrefix(src[at+8:at+8+n], []byte("Exif\x00\x00")))
			}
			at += 8 + n + n&1
		}
	case len(src) > 8 && string(src[1:4]) == "PNG":
		for at := 8; at+12 <= len(src); {
			n := int(binary.BigEndian.Uint32(src[at:]))
			if n < 0 || n > len(src)-at-12 {
				return 1
			}
			if string(src[at+4:at+8]) == "eXIf" {
				return orientationOf(src[at+8 : at+8+n])
			}
			at += 12 + n
		}
	}
	return 1
}

// orientationOf reads tag 274 of the first directory of a TIFF.
// Source: TIFF 6.0, section 2; Exif 2.3, tag 274.
func orientationOf(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if string(tiff[:2]) == "MM" {
		order = binary.BigEndian
	}
	at := int(order.Uint32(tiff[4:]))
	if at < 8 || at+2 > len(tiff) {
		return 1
	}
	count := int(order.Uint16(tiff[at:]))
	for i := 0; i < count; i++ {
		e := at + 2 + 12*i
		if e+12 > len(tiff) {
			return 1
		}
		if order.Uint16(tiff[e:]) == 274 {
			if o := int(order.Uint16(tiff[e+8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
	}
	return 1
}

const profileName = "ICC_PROFILE\x00"

// profile gathers the colour profile of a JPEG; nil when there is none, or when it
// is not for a picture in RGB or grey.
// Source: ICC.1:2022, annex B.4, the profile in JPEG segments; field 16 to 19 of its
// header, the colour space.
func profile(src []byte) []byte {
	parts := map[byte][]byte{}
	count := byte(0)
	segments(src, func(marker byte, body []byte) bool {
		if rest, ok := bytes.CutPrefix(body, []byte(profileName)); marker == 0xe2 && ok && len(rest) > 2 {
			parts[rest[0]] = rest[2:]
			count = rest[1]
		}
		return true
	})
	var whole []byte
	for i := 1; i <= int(count); i++ {
		p, ok := parts[byte(i)]
		if !ok {
			return nil
		}
		whole = append(whole, p...)
	}
	if len(whole) < 128 || string(whole[16:20]) != "RGB " && string(whole[16:20]) != "GRAY" {
		return nil
	}
	return whole
}

// withProfile puts a colour profile into a JPEG, right after its beginning.
func withProfile(jpeg, icc []byte) []byte {
	const most = 65_519 // of a segment, after its length, name and numbers
	if len(icc) == 0 || len(icc) > 255*most {
		return jpeg
	}
	count := (len(icc) + most - 1) / most
	out := append([]byte(nil), jpeg[:2]...)
	for i := 0; i < count; i++ {
		part := icc[i*most : min((i+1)*most, len(icc))]
		out = append(out, 0xff, 0xe2)
		out = binary.BigEndian.AppendUint16(out, uint16(2+len(profileName)+2+len(part)))
		out = append(out, profileName...)
		out = append(out, byte(i+1), byte(count))
		out = append(out, part...)
	}
	return append(out, jpeg[2:]...)
}
