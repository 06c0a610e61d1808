package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"io"
)

// profileOf gathers the colour profile of a JPEG, a PNG or a WebP; nil when there is
// none, or when it is not for a picture in RGB or grey.
func profileOf(src []byte) []byte {
	icc := profile(src)
	chunks(src, func(name string, body []byte) bool {
		switch name {
		case "ICCP": // RFC 9649, section 2.7.1.4
			icc = body
		case "iCCP": // PNG third edition, 11.3.2.3: a name, 0, a method, the profile packed
			end := bytes.IndexByte(body, 0)
			if end < 0 || end+2 > len(body) {
				return false
			}
			if r, err := zlib.NewReader(bytes.NewReader(body[end+2:])); err == nil {
				icc, _ = io.ReadAll(io.LimitReader(r, 4<<20))
			}
		default:
			return true
		}
		return false
	})
	if len(icc) < 128 || string(icc[16:20]) != "RGB " && string(icc[16:20]) != "GRAY" {
		return nil
	}
	return icc
}

// chunks calls f with each chunk of a PNG or a WebP until it returns false.
func chunks(src []byte, f func(name string, body []byte) bool) {
	at, after, order := 8, 4, binary.ByteOrder(binary.BigEndian) // PNG: length, name, body, check
	webp := len(src) > 12 && string(src[:4]) == "RIFF" && string(src[8:12]) == "WEBP"
	if webp { // name, length, body, even
		at, after, order = 12, 0, binary.LittleEndian
	} else if len(src) < 8 || string(src[1:4]) != "PNG" {
		return
	}
	for at+8 <= len(src) {
		size, name := order.Uint32(src[at:]), string(src[at+4:at+8])
		if webp {
			name, size = string(src[at:at+4]), order.Uint32(src[at+4:])
		}
		if int64(size) > int64(len(src)-at-8) {
			return
		}
		n := int(size)
		if !f(name, src[at+8:at+8+n]) {
			return
		}
		at += 8 + n + after
		if webp {
			at += n & 1
		}
	}
}

// withPNGProfile puts a colour profile into a PNG, right after its header.
func withPNGProfile(src, icc []byte) []byte {
	const header = 8 + 4 + 4 + 13 + 4
	if len(icc) == 0 || len(src) < header {
		return src
	}
	body := bytes.NewBufferString("iCCPprofile\x00\x00")
	z := zlib.NewWriter(body)
	if _, err := z.Write(icc); err != nil {
		return src
	}
	if err := z.Close(); err != nil {
		return src
	}
	out := append([]byte(nil), src[:header]...)
	out = binary.BigEndian.AppendUint32(out, uint32(body.Len()-4))
	out = append(out, body.Bytes()...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(body.Bytes()))
	return append(out, src[header:]...)
}
