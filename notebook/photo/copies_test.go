package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"golang.org/x/image/draw"
)

// grain is a picture with detail everywhere.
func grain(w, h int) *image.RGBA {
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := 0; y < h; y++ {
		for x := 0; x < w; x++ {
			v := 127 + 100*math.Sin(float64(x)*.21)*math.Cos(float64(y)*.13)
			im.Set(x, y, color.RGBA{uint8(v), uint8(x * 255 / w), uint8(y * 255 / h), 255})
		}
	}
	return im
}

// TestBandsLeaveNoSeam holds scaling by bands to scaling at once.
func TestBandsLeaveNoSeam(t *testing.T) {
	im := grain(700, 530)
	want := image.NewRGBA(image.Rect(0, 0, 300, 227))
	draw.CatmullRom.Scale(want, want.Bounds(), im, im.Bounds(), draw.Src, nil)
	got := shrunk(im, 300, 227).(*image.RGBA)
	for i := range want.Pix {
		// a band's edge sees no neighbours beyond it in the direction that is not scaled,
		// so only rounding is between the two
		if d := int(want.Pix[i]) - int(got.Pix[i]); d > 3 || d < -3 {
			t.Fatalf("pixel %d,%d is %d off", i/4%300, i/4/300, d)
		}
	}
}

func TestCopiesAreUprightAndRise(t *testing.T) {
	for o := 1; o <= 8; o++ {
		src := fromCamera(held(corner(400, 240), o), o, binary.BigEndian)
		list, err := Copies(src, []int{100, 200, 1000})
		if err != nil || len(list) != 3 {
			t.Fatal(len(list), err)
		}
		for i, w := range []int{100, 200, 400} {
			p := list[i]
			if p.Width != w || p.Height != w*240/400 {
				t.Errorf("orientation %d: %d × %d", o, p.Width, p.Height)
			}
			im, err := jpeg.Decode(bytes.NewReader(p.Bytes))
			if err != nil {
				t.Fatal(err)
			}
			if r, _, b, _ := im.At(p.Width/8, p.Height/8).RGBA(); r < b {
				t.Errorf("orientation %d: the red corner is elsewhere", o)
			}
			if bytes.Contains(p.Bytes, []byte("SECRET")) || bytes.Contains(p.Bytes, []byte("Exif")) {
				t.Error("the camera's words are still there")
			}
		}
	}
}

func TestSmallPicturesAreCopiedOnce(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, corner(90, 60)); err != nil {
		t.Fatal(err)
	}
	list, err := Copies(b.Bytes(), []int{100, 200, 1000})
	if err != nil || len(list) != 1 || list[0].Width != 90 || list[0].Ext != ".png" {
		t.Errorf("%d copies, %v", len(list), err)
	}
}

// TestProfileOfAPNG keeps a profile through a copy.
func TestProfileOfAPNG(t *testing.T) {
	icc := append(bytes.Repeat([]byte{7}, 16), append([]byte("RGB "), bytes.Repeat([]byte{9}, 300)...)...)
	var b bytes.Buffer
	if err := png.Encode(&b, corner(90, 60)); err != nil {
		t.Fatal(err)
	}
	with := withPNGProfile(b.Bytes(), icc)
	if _, err := png.Decode(bytes.NewReader(with)); err != nil {
		t.Fatal(err)
	}
	list, err := Copies(with, []int{60})
	if err != nil || !bytes.Equal(profileOf(list[0].Bytes), icc) {
		t.Errorf("the profile is lost: %v", err)
	}
}
