// Package photo makes a picture from a camera fit for a journal: turned upright, no
// larger than a page needs, and without what the camera wrote beside the picture, above
// all the place where it was taken. Only the colour profile is kept.
package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/gif" // a kind of picture that is read
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp" // a kind of picture that is read
)

// Limits of a picture.
const (
	MaxBytes  = 40 << 20
	MaxPixels = 64 << 20
	// MaxEdge is the longest edge that is kept; a larger picture is made smaller.
	MaxEdge = 2400
)

// Picture is a picture made fit.
type Picture struct {
	Bytes         []byte
	Ext           string // .jpg or .png
	Width, Height int
}

// ErrKind says that the bytes are no picture of a kind that is read.
var ErrKind = errors.New("this is no JPEG, PNG, WebP or GIF picture")

// Upright reads a JPEG, PNG, WebP or GIF and writes it anew: turned as the camera was
// held, at most edge pixels long (0 for MaxEdge), without metadata. A picture with
// see-through parts stays a PNG; all others become JPEG.
//
// Errors: ErrKind for anything else, and words for a picture that is too large or
// breaks off.
func Upright(src []byte, edge int) (Picture, error) {
	if edge <= 0 {
		edge = MaxEdge
	}
	if len(src) > MaxBytes {
		return Picture{}, fmt.Errorf("the picture has %d MB; %d is the most", len(src)>>20, MaxBytes>>20)
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(src))
	if err != nil {
		return Picture{}, ErrKind
	}
	if c.Width < 1 || c.Height < 1 || int64(c.Width)*int64(c.Height) > MaxPixels {
		return Picture{}, fmt.Errorf("the picture is %d × %d pixels; %d million is the most", c.Width, c.Height, MaxPixels/1_000_000)
	}
	im, _, err := image.Decode(bytes.NewReader(src))
	if err != nil {
		return Picture{}, errors.New("the picture cannot be read: it breaks off or is damaged")
	}
	im = turned(im, Orientation(src))
	im = smaller(im, edge)
	p := Picture{Ext: ".jpg", Width: im.Bounds().Dx(), Height: im.Bounds().Dy()}
	var out bytes.Buffer
	if kind != "jpeg" && !opaque(im) {
		p.Ext = ".png"
		err = png.Encode(&out, im)
	} else {
		err = jpeg.Encode(&out, im, &jpeg.Options{Quality: 86})
	}
	if err != nil {
		return Picture{}, err
	}
	p.Bytes = out.Bytes()
	if kind == "jpeg" && c.ColorModel != color.CMYKModel {
		p.Bytes = withProfile(p.Bytes, profile(src))
	}
	return p, nil
}

func opaque(im image.Image) bool {
	o, ok := im.(interface{ Opaque() bool })
	return !ok || o.Opaque()
}

// smaller scales a picture down to an edge.
func smaller(im image.Image, edge int) image.Image {
	w, h := im.Bounds().Dx(), im.Bounds().Dy()
	if max(w, h) <= edge {
		return im
	}
	if w >= h {
		w, h = edge, max(1, h*edge/w)
	} else {
		w, h = max(1, w*edge/h), edge
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.CatmullRom.Scale(out, out.Bounds(), im, im.Bounds(), draw.Src, nil)
	return out
}

// turned turns a picture as its orientation says.
// Source: Exif 2.3 (CIPA DC-008), tag 274 Orientation, values 1 to 8.
func turned(im image.Image, orientation int) image.Image {
	if orientation < 2 || orientation > 8 {
		return im
	}
	b := im.Bounds()
	w, h := b.Dx(), b.Dy()
	size := image.Rect(0, 0, w, h)
	if orientation >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	src := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(src, src.Bounds(), im, b.Min, draw.Src)
	out := image.NewRGBA(size)
	for y := 0; y < h; y++ {
		for x := 0; x < w; x++ {
			tx, ty := x, y
			switch orientation {
			case 2:
				tx = w - 1 - x
			case 3:
				tx, ty = w-1-x, h-1-y
			case 4:
				ty = h - 1 - y
			case 5:
				tx, ty = y, x
			case 6:
				tx, ty = h-1-y, x
			case 7:
				tx, ty = h-1-y, w-1-x
			case 8:
				tx, ty = y, w-1-x
			}
			copy(out.Pix[out.PixOffset(tx, ty):][:4], src.Pix[src.PixOffset(x, y):][:4])
		}
	}
	return out
}
