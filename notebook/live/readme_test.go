package live_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestPicturesOfTheReadme opens the page and the card that README.md shows. With
// SCARPH_UPDATE set it takes the pictures anew.
func TestPicturesOfTheReadme(t *testing.T) {
	s := open(t, filepath.FromSlash("../../examples/sorrel"))
	b := newTab(t, size{"readme", 1120, 860, false})
	picture := func(name string) {
		t.Helper()
		if os.Getenv("SCARPH_UPDATE") == "" {
			return
		}
		ctx, cancel := context.WithTimeout(b.ctx, 20*time.Second)
		defer cancel()
		png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.FromSlash("../../docs/images/"+name), png, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	b.goTo(s.url + "/entry/2027-02-07-frames")
	b.waitText(`button.v[data-name=frame_spacing]`, `1' 2 5/16"`)
	picture("diary.png")
	b.click(`.row button.v[data-name=frame_spacing]`)
	b.waitText("#dock h2", "Frame spacing")
	b.waitText("#dock", "What hangs on it")
	picture("card.png")
}
