package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
)

// Copies reads a picture and writes copies of it in the given widths, which must rise:
// each turned upright, without metadata, its colour profile kept. A picture is never
// made wider; one narrower than a width is copied in its own width, once.
//
// A drawing with few colours stays a PNG, and so does a picture with see-through parts.
// Errors: those of Upright.
func Copies(src []byte, widths []int) ([]Picture, error) {
	if len(src) > MaxBytes {
		return nil, fmt.Errorf("the picture has %d MB; %d is the most", len(src)>>20, MaxBytes>>20)
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(src))
	if err != nil {
		return nil, ErrKind
	}
	if c.Width < 1 || c.Height < 1 || int64(c.Width)*int64(c.Height) > MaxPixels {
		return nil, fmt.Errorf("the picture is %d × %d pixels; %d million is the most", c.Width, c.Height, MaxPixels/1_000_000)
	}
	im, _, err := image.Decode(bytes.NewReader(src))
	if err != nil {
		return nil, errors.New("the picture cannot be read: it breaks off or is damaged")
	}
	o := Orientation(src)
	w, h := im.Bounds().Dx(), im.Bounds().Dy()
	if o >= 5 { // it lies on its side
		w, h = h, w
	}
	icc := profileOf(src)
	if c.ColorModel == color.CMYKModel {
		icc = nil
	}
	var list []Picture
	for i := len(widths) - 1; i >= 0; i-- {
		wide := min(widths[i], w)
		if i > 0 && w <= widths[i-1] {
			continue
		}
		tall := max(1, (h*wide+w/2)/w)
		if o >= 5 {
			im = shrunk(im, tall, wide)
		} else {
			im = shrunk(im, wide, tall)
		}
		p, err := encoded(turned(im, o), kind, icc)
		if err != nil {
			return nil, err
		}
		list = append([]Picture{p}, list...)
	}
	return list, nil
}

// encoded writes a picture as JPEG, or as PNG where that says more for not much more.
func encoded(im image.Image, kind string, icc []byte) (Picture, error) {
	p := Picture{Ext: ".jpg", Width: im.Bounds().Dx(), Height: im.Bounds().Dy()}
	var photo, drawing bytes.Buffer
	if err := jpeg.Encode(&photo, im, &jpeg.Options{Quality: 84}); err != nil {
		return p, err
	}
	p.Bytes = withProfile(photo.Bytes(), icc)
	if kind != "jpeg" {
		if err := png.Encode(&drawing, im); err != nil {
			return p, err
		}
		if !opaque(im) || drawing.Len() < 2*photo.Len() {
			p.Bytes, p.Ext = withPNGProfile(drawing.Bytes(), icc), ".png"
		}
	}
	return p, nil
}

// bandOf is how many rows or columns are scaled at a time, so that the scaler's
// intermediate picture, 32 bytes a pixel, stays small.
const bandOf = 64

// shrunk scales a picture down, first across, then down, a band at a time.
func shrunk(im image.Image, w, h int) image.Image {
	b := im.Bounds()
	if b.Dx() <= w && b.Dy() <= h {
		return im
	}
	across := image.NewRGBA(image.Rect(0, 0, w, b.Dy()))
	for y := 0; y < b.Dy(); y += bandOf {
		n := min(bandOf, b.Dy()-y)
		draw.CatmullRom.Scale(across, image.Rect(0, y, w, y+n), im, image.Rect(b.Min.X, b.Min.Y+y, b.Max.X, b.Min.Y+y+n), draw.Src, nil)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for x := 0; x < w; x += bandOf {
		n := min(bandOf, w-x)
		draw.CatmullRom.Scale(out, image.Rect(x, 0, x+n, h), across, image.Rect(x, 0, x+n, b.Dy()), draw.Src, nil)
	}
	return out
}
