package site_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// journalOf writes a journal of the given files; ~~~ fences are written as ```.
func journalOf(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if strings.HasSuffix(name, ".md") {
			text = strings.ReplaceAll(text, "~~~", "```")
		}
		save(t, filepath.Join(dir, filepath.FromSlash(name)), text)
	}
	return dir
}

func save(t testing.TB, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// snapshot is a photo of w by h pixels, its corner at the top left red, as a camera
// writes it: lying on its side when told so, and with what the camera knows, a place and
// a name, beside the picture.
func snapshot(t testing.TB, w, h int, seed uint32, lying bool, told string) string {
	t.Helper()
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := 0; i < len(im.Pix); i += 4 {
		seed = seed*1664525 + 1013904223
		im.Pix[i], im.Pix[i+1], im.Pix[i+2], im.Pix[i+3] = byte(seed>>24)/4+byte(i/4%w*190/w), byte(i/4/w*190/h), 90, 255
	}
	for y := range h / 4 {
		for x := range w / 4 {
			im.Set(x, y, color.RGBA{230, 10, 10, 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, im, &jpeg.Options{Quality: 80}); err != nil {
		t.Fatal(err)
	}
	if told == "" && !lying {
		return b.String()
	}
	orientation := byte(1)
	if lying {
		orientation = 6
	}
	// Exif 2.3 (CIPA DC-008), section 4.5: the APP1 segment; TIFF tag 274, Orientation,
	// and tag 271, the maker's name.
	tiff := append([]byte("MM\x00\x2a\x00\x00\x00\x08\x00\x02\x01\x0f\x00\x02"), 0, 0, 0, byte(len(told)+1), 0, 0, 0, 38)
	tiff = append(tiff, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0)
	tiff = append(append(tiff, told...), 0)
	out := append([]byte{0xff, 0xd8}, segment(0xe1, append([]byte("Exif\x00\x00"), tiff...))...)
	out = append(out, segment(0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>"+told+"</x:xmpmeta>"))...)
	out = append(out, segment(0xed, []byte("Photoshop 3.0\x008BIM"+told))...)
	out = append(out, segment(0xfe, []byte(told))...)
	return string(append(out, b.Bytes()[2:]...)) + told
}

// segment is a marker segment of a JPEG.
func segment(kind byte, data []byte) []byte {
	return append(binary.BigEndian.AppendUint16([]byte{0xff, kind}, uint16(len(data)+2)), data...)
}
