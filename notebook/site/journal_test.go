package site_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
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

// plan is a drawing of two colours on nothing.
func plan(t testing.TB) string {
	t.Helper()
	im := image.NewNRGBA(image.Rect(0, 0, 300, 120))
	for x := range 300 {
		im.Set(x, 60+x%7, color.NRGBA{20, 20, 20, 255})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, im); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// wrenJournal writes wren with its pictures.
func wrenJournal(t *testing.T) string {
	t.Helper()
	dir := journalOf(t, wren)
	save(t, filepath.Join(dir, "photos/side.JPG"), snapshot(t, 800, 600, 3, true, "a camera"))
	save(t, filepath.Join(dir, "photos/on the beach.jpg"), snapshot(t, 1700, 300, 4, false, ""))
	save(t, filepath.Join(dir, "photos/plan.png"), plan(t))
	return dir
}

// wren is a small journal with a little of everything.
var wren = map[string]string{
	"journal.md": `---
title: Wren
boat: Wren, a pram
author: Ashlar & Sons
language: en-GB
licence: CC BY 4.0
canonical: https://boats.example.org/wren
description: A pram in <eight> evenings & a bit.
cover: photos/on the beach.jpg
---
# Wren, {beam} wide

A pram.[^1] See [the keel](<logs/2027-05-02 keel & all.md#wood>).

[^1]: A small boat with a transom at both ends.

~~~calc
drawn beam = 4' 6"
frames = 7
part rib: 2 * frames of 1/2" by 1" by beam in ash
check beam > 4 ft
~~~
`,
	"logs/2027-05-02 keel & all.md": `---
subjects: [the keel, "wood/ash & oak", "Über"]
---
# Ashlar & Sons, {beam}

## Wood

Half is {beam / 2}; in all {frames * beam}. [Back](../journal.md), [sheet](../sheet.pdf), [photo](../photos/side.JPG), [a heading](#wood), [out](https://example.org/a?b=1&c=2).

| offsets: | st 1 | st 2 |
|----------|------|------|
| sheer    | 1-2-3 | 1-3-4+ |
| chine    | 0-4-5 |       |

![The keel <on> the bench, {beam / 2} from the end](../photos/side.JPG "Taken at noon")

![](../photos/plan.png)

~~~calc
made rib: 4
found beam = 4' 6 1/4" ± 1/16"   # across the sheer
frame_spacing(beam, frames)
work 3 h on ribs
~~~

- [x] ribs
- [ ] keel

<div class="x">A <b>raw</b> word</div>
`,
	"2027-05-09.md":       "At the fair.\n\nOnly words, ~~none~~ a few. Term\n: What it means.\n",
	"2027-05-09-again.md": "---\ntitle: Again\n---\n\n~~~calc\nrevise frames = 8\nwork 2 h on ribs\n~~~\n",
	"index.md":            "---\ntitle: A page called index\ndate: 2027-05-10\n---\nIt is not the title page.\n",
	"sheet.pdf":           "%PDF-1.4 not much of one\n",
}
