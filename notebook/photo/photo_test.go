package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"testing"
)

// corner is a picture whose upper left quarter is red, as a person sees it.
func corner(w, h int) *image.RGBA {
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := 0; y < h; y++ {
		for x := 0; x < w; x++ {
			c := color.RGBA{20, 20, 200, 255}
			if x < w/2 && y < h/2 {
				c = color.RGBA{220, 20, 20, 255}
			}
			im.Set(x, y, c)
		}
	}
	return im
}

// held is how a camera stores an upright picture when it is held so.
func held(im *image.RGBA, orientation int) image.Image {
	inverse := [9]int{0, 1, 2, 3, 4, 5, 8, 7, 6}
	return turned(im, inverse[orientation])
}

// fromCamera is a JPEG with orientation, a place and a serial number in its Exif.
func fromCamera(im image.Image, orientation int, order binary.ByteOrder) []byte {
	var b bytes.Buffer
	_ = jpeg.Encode(&b, im, nil)
	mark := "II"
	if order == binary.BigEndian {
		mark = "MM"
	}
	tiff := append([]byte(mark), make([]byte, 6)...)
	order.PutUint16(tiff[2:], 42)
	order.PutUint32(tiff[4:], 8)
	entry := func(tag, kind uint16, value uint16) {
		e := make([]byte, 12)
		order.PutUint16(e, tag)
		order.PutUint16(e[2:], kind)
		order.PutUint32(e[4:], 1)
		order.PutUint16(e[8:], value)
		tiff = append(tiff, e...)
	}
	tiff = append(tiff, 0, 0)
	order.PutUint16(tiff[8:], 2)
	entry(274, 3, uint16(orientation))
	entry(0x8825, 4, 0) // the directory of the place
	tiff = append(tiff, "SECRET-PLACE 54.1N SERIAL-1234"...)
	body := append([]byte("Exif\x00\x00"), tiff...)
	seg := []byte{0xff, 0xe1, 0, 0}
	binary.BigEndian.PutUint16(seg[2:], uint16(len(body)+2))
	seg = append(seg, body...)
	raw := b.Bytes()
	return append(append(append([]byte(nil), raw[:2]...), seg...), raw[2:]...)
}

// TestUpright holds every orientation and both byte orders to the same upright picture.
func TestUpright(t *testing.T) {
	for o := 1; o <= 8; o++ {
		for _, order := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
			src := fromCamera(held(corner(80, 48), o), o, order)
			if got := Orientation(src); got != o {
				t.Fatalf("orientation %d is read as %d", o, got)
			}
			p, err := Upright(src, 0)
			if err != nil {
				t.Fatal(err)
			}
			im, err := jpeg.Decode(bytes.NewReader(p.Bytes))
			if err != nil {
				t.Fatal(err)
			}
			if p.Width != 80 || p.Height != 48 || p.Ext != ".jpg" {
				t.Errorf("orientation %d: %d × %d%s", o, p.Width, p.Height, p.Ext)
			}
			for _, q := range []struct {
				x, y int
				red  bool
			}{{10, 10, true}, {70, 10, false}, {10, 40, false}, {70, 40, false}} {
				r, _, b, _ := im.At(q.x, q.y).RGBA()
				if (r > b) != q.red {
					t.Errorf("orientation %d: the corner at %d, %d is wrong", o, q.x, q.y)
				}
			}
			if bytes.Contains(p.Bytes, []byte("SECRET")) || bytes.Contains(p.Bytes, []byte("Exif")) {
				t.Error("the camera's data is still there")
			}
		}
	}
}

// TestColourProfileIsKept puts back the profile, in pieces where it is long, and no other.
func TestColourProfileIsKept(t *testing.T) {
	for _, n := range []int{128, 500, 70_000, 200_000} {
		icc := bytes.Repeat([]byte{7}, n)
		copy(icc[16:], "RGB ")
		var b bytes.Buffer
		_ = jpeg.Encode(&b, corner(8, 8), nil)
		p, err := Upright(withProfile(b.Bytes(), icc), 0)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(profile(p.Bytes), icc) {
			t.Errorf("a profile of %d bytes did not come through", n)
		}
		copy(icc[16:], "CMYK")
		if p, _ = Upright(withProfile(b.Bytes(), icc), 0); profile(p.Bytes) != nil {
			t.Error("a profile for another kind of colour was kept")
		}
	}
}

func TestLargeIsMadeSmaller(t *testing.T) {
	var b bytes.Buffer
	_ = jpeg.Encode(&b, corner(3000, 1000), nil)
	p, err := Upright(b.Bytes(), 0)
	if err != nil || p.Width != MaxEdge || p.Height != 800 {
		t.Errorf("%d × %d, %v", p.Width, p.Height, err)
	}
	if p, err = Upright(b.Bytes(), 600); err != nil || p.Width != 600 || p.Height != 200 {
		t.Errorf("%d × %d, %v", p.Width, p.Height, err)
	}
}

func TestKindsOfPictures(t *testing.T) {
	clear := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	var a, b, c bytes.Buffer
	_ = png.Encode(&a, clear)
	_ = png.Encode(&b, corner(4, 4))
	_ = gif.Encode(&c, corner(4, 4), nil)
	for name, q := range map[string]struct {
		src []byte
		ext string
	}{"a clear PNG": {a.Bytes(), ".png"}, "a full PNG": {b.Bytes(), ".jpg"}, "a GIF": {c.Bytes(), ".jpg"}} {
		if p, err := Upright(q.src, 0); err != nil || p.Ext != q.ext {
			t.Errorf("%s: %s, %v", name, p.Ext, err)
		}
	}
	for _, bad := range []string{"", "GIF8", "<svg onload=alert(1)>", "\xff\xd8\xff\xe1\xff\xff", "<!doctype html>"} {
		if _, err := Upright([]byte(bad), 0); !errors.Is(err, ErrKind) {
			t.Errorf("%q: %v", bad, err)
		}
	}
	if _, err := Upright(a.Bytes()[:40], 0); err == nil {
		t.Error("half a picture was taken")
	}
}

// FuzzUpright feeds damaged pictures: a refusal is right, a panic is not.
func FuzzUpright(f *testing.F) {
	f.Add(fromCamera(corner(8, 8), 6, binary.LittleEndian))
	var b bytes.Buffer
	_ = png.Encode(&b, corner(4, 4))
	f.Add(b.Bytes())
	f.Add([]byte("RIFF\x10\x00\x00\x00WEBPEXIF\xff\xff\xff\x7f"))
	f.Fuzz(func(t *testing.T, src []byte) {
		if c, _, err := image.DecodeConfig(bytes.NewReader(src)); err == nil && c.Width*c.Height > 1<<20 {
			return
		}
		Orientation(src)
		profile(src)
		_, _ = Upright(src, 0)
	})
}
