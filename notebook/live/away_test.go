package live_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"

	"scarph/notebook/live"
)

// shed is a network of two machines on this one: who calls 127.0.0.1 sits at the bench,
// who calls 127.0.0.2 stands at the boat with a phone. To the server its own address is
// that of the bench in the shed's network.
type shed struct{ net.Listener }

const (
	benchInShed = "192.168.1.5"
	phoneInShed = "192.168.1.77"
)

func (s shed) Addr() net.Addr {
	return &net.TCPAddr{IP: net.ParseIP(benchInShed), Port: s.Listener.Addr().(*net.TCPAddr).Port}
}

func (s shed) Accept() (net.Conn, error) {
	c, err := s.Listener.Accept()
	if err == nil && c.LocalAddr().(*net.TCPAddr).IP.Equal(net.IPv4(127, 0, 0, 2)) {
		c = guest{c}
	}
	return c, err
}

// guest is a connection from the phone.
type guest struct{ net.Conn }

func (g guest) RemoteAddr() net.Addr {
	return &net.TCPAddr{IP: net.ParseIP(phoneInShed), Port: 50123}
}

// openInShed serves a journal to the bench and to the phone, and gives their addresses.
func openInShed(t *testing.T, o live.Options) (s *shop, bench, phone string) {
	t.Helper()
	s = open(t, wren)
	s.stop()
	l := listener(t, "0.0.0.0:0")
	o.Now = func() time.Time { return day }
	s.serveOn(shed{l}, o)
	_, port, _ := net.SplitHostPort(l.Addr().String())
	return s, "http://127.0.0.1:" + port, "http://127.0.0.2:" + port
}

// readPicture reads the code in a picture as a phone's camera does.
func readPicture(t *testing.T, im image.Image) string {
	t.Helper()
	bits, err := gozxing.NewBinaryBitmapFromImage(im)
	if err != nil {
		t.Fatal(err)
	}
	r, err := qrcode.NewQRCodeReader().Decode(bits, nil)
	if err != nil {
		t.Fatal("the picture is not read: ", err)
	}
	return r.GetText()
}

// invitation reads the picture that the bench shows, off its screen.
func (b *tab) invitation(bench, phone string) string {
	b.t.Helper()
	b.goTo(bench + "/phone")
	b.wait(`document.querySelector(".qr")`)
	b.shoot("invitation")
	shot, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.t.Fatal(err)
	}
	im, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		b.t.Fatal(err)
	}
	address := readPicture(b.t, im)
	if want := b.text("code.address"); address != want {
		b.t.Errorf("the picture says %q, the page %q", address, want)
	}
	host := "http://" + benchInShed + phone[strings.LastIndexByte(phone, ':'):]
	if !strings.HasPrefix(address, host+"/?token=") {
		b.t.Fatalf("the picture says %q", address)
	}
	return phone + strings.TrimPrefix(address, host)
}

// TestPhoneReads comes in with the token out of the picture, reads and tries numbers,
// and finds nothing by which it could write.
func TestPhoneReads(t *testing.T) {
	s, bench, away := openInShed(t, live.Options{})
	before := s.read(title) + s.read(entry)
	p := newTab(t, phone)
	p.goTo(away + "/")
	p.waitText("h1", "This journal is not open to everybody")
	p.shoot("stranger")
	p.goTo(newTab(t, desk).invitation(bench, away))
	if got := eval[string](p, `location.pathname + location.search`); got != "/" {
		t.Errorf("the address still says %q", got)
	}
	p.waitText("button.v[data-name=beam]", `4' 1 3/4" ± 1/16"`)
	p.shoot("reading")
	if n := eval[int](p, `[...document.querySelectorAll("a, button")].filter((x) => /Write|Take back|On a phone/.test(x.textContent)).length`); n != 0 {
		t.Errorf("%d ways to write are offered", n)
	}
	p.click("button.v[data-name=beam]")
	p.fill("#try-value", `4' 3"`)
	p.waitText("#try-reads", "1295.4 mm")
	p.click("form.try [type=submit]")
	p.waitText(".trial", "Off: thwart")
	p.shoot("trying")
	if eval[bool](p, `!!document.querySelector("[data-keep], [data-settle], meta[name=scarph-key]")`) {
		t.Error("a reader may keep what it tried")
	}
	p.goTo(away + "/write/2027-05-02-measured")
	p.waitText("h1", "may not write in it")
	if s.read(title)+s.read(entry) != before || len(s.files()) != 3 {
		t.Error("something was written")
	}
}

// TestPhoneWrites writes from the phone where that was asked for: a reading and a line.
func TestPhoneWrites(t *testing.T) {
	s, bench, away := openInShed(t, live.Options{OthersWrite: true})
	before := s.read(entry)
	b, p := newTab(t, desk), newTab(t, phone)
	address := b.invitation(bench, away)
	b.goTo(bench + "/")
	p.goTo(address)
	p.click("button.v[data-name=beam]")
	p.fill("#try-value", `4' 2"`)
	p.click(".keep > summary")
	p.click(".keep [type=submit]")
	p.waitText(".bar .said", "Kept in")
	s.holds("2027-05-16.md", "---\ntitle: \"16 May 2027\"\ndate: 2027-05-16\n---\n```calc\nfound beam = 4' 2\"\n```\n")
	b.waitText("button.v[data-name=beam]", `4' 2"`)
	p.goTo(away + "/write/2027-05-02-measured")
	p.waitText(".proof", "Off the moulds")
	p.typeAtEnd("\nFrom the boat.\n")
	s.holds(entry, before+"\nFrom the boat.\n")
}

// TestPhoneAfterANewStart types into the void while the program is started again with
// another token: the page says so, and the text is saved from the new address.
func TestPhoneAfterANewStart(t *testing.T) {
	s, bench, away := openInShed(t, live.Options{OthersWrite: true})
	before := s.read(entry)
	p := newTab(t, phone)
	p.goTo(newTab(t, desk).invitation(bench, away))
	p.goTo(away + "/write/2027-05-02-measured")
	p.waitText(".proof", "Off the moulds")
	s.stop()
	p.typeAtEnd("\nTyped meanwhile.\n")
	p.waitText(".state", "No connection")
	s.serveOn(shed{listener(t, strings.Replace(bench, "http://127.0.0.1", "0.0.0.0", 1))}, live.Options{OthersWrite: true, Now: func() time.Time { return day }})
	p.waitText(".bar .said", "does not know this device any more")
	p.shoot("outside")
	if s.read(entry) != before {
		t.Fatal("who saved this?")
	}
	p.goTo(newTab(t, desk).invitation(bench, away))
	p.goTo(away + "/write/2027-05-02-measured")
	p.waitText(".state", "Saved")
	s.holds(entry, before+"\nTyped meanwhile.\n")
}

// TestTerminalPicture reads the picture that is drawn of half blocks.
func TestTerminalPicture(t *testing.T) {
	const address = "http://192.168.1.5:7433/?token=abcdefghijklmnopqrstuvwxyz"
	text, err := live.TerminalPicture(address)
	if err != nil {
		t.Fatal(err)
	}
	const dot = 4 // pixels to a module
	lines := strings.Split(strings.TrimSpace(text), "\n")
	var im *image.Gray
	for y, line := range lines {
		line = strings.TrimSuffix(strings.TrimPrefix(line, "\x1b[30;107m"), "\x1b[0m")
		row := []rune(line)
		if im == nil {
			im = image.NewGray(image.Rect(0, 0, dot*len(row), dot*2*len(lines)))
		}
		for x, c := range row {
			for i := range 2 * dot * dot {
				shade := color.Gray{255}
				if upper := i/dot < dot; c == '█' || c == '▀' && upper || c == '▄' && !upper {
					shade.Y = 0
				}
				im.SetGray(x*dot+i%dot, y*2*dot+i/dot, shade)
			}
		}
	}
	if got := readPicture(t, im); got != address {
		t.Errorf("the picture says %q", got)
	}
}
