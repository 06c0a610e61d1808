package live

import (
	"fmt"
	"html/template"
	"net"
	"net/http"
	"sort"
	"strings"

	"rsc.io/qr"
)

// Invitations lists the addresses, with their token, by which other machines reach
// the journal; none when only this machine is listened to.
func (s *Server) Invitations() []string {
	if s.address == nil {
		return nil
	}
	hosts := []net.IP{s.address}
	if s.address.IsUnspecified() {
		hosts = outwardAddresses()
	}
	var list []string
	for _, ip := range hosts {
		list = append(list, fmt.Sprintf("http://%s/?token=%s", net.JoinHostPort(ip.String(), s.port), s.door.token))
	}
	return list
}

// outwardAddresses are this machine's addresses on its networks, those of a home or
// shed network first.
func outwardAddresses() []net.IP {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var list []net.IP
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if ok && n.IP.IsGlobalUnicast() && !n.IP.IsLoopback() {
			list = append(list, n.IP)
		}
	}
	rank := func(ip net.IP) int {
		switch {
		case ip.To4() != nil && ip.IsPrivate():
			return 0
		case ip.To4() != nil:
			return 1
		}
		return 2
	}
	sort.SliceStable(list, func(i, j int) bool { return rank(list[i]) < rank(list[j]) })
	return list
}

// phone shows the picture by which a phone finds its way here. It carries the token,
// so it is shown on this machine only.
func (s *visit) phone(w http.ResponseWriter, r *http.Request) {
	if !s.isHere(r) {
		s.missing(w, r, "The address is shown on the builder’s machine only.")
		return
	}
	var data struct {
		Invitations []string
		Picture     template.HTML
		OthersWrite bool
		Port        string
	}
	data.Invitations, data.OthersWrite, data.Port = s.Invitations(), s.options.OthersWrite, s.port
	if len(data.Invitations) > 0 {
		if p, err := Picture(data.Invitations[0]); err == nil {
			data.Picture = template.HTML(p)
		}
	}
	s.sheetPage(w, r, "phone", "On a phone", data)
}

// quiet is the margin of a picture in modules, as the standard asks.
// Source: ISO/IEC 18004, quiet zone of four modules.
const quiet = 4

// Picture is an address as an SVG that a phone's camera reads.
func Picture(address string) (string, error) {
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	n := c.Size + 2*quiet
	fmt.Fprintf(&b, `<svg class="qr" viewBox="0 0 %d %d" role="img" aria-label="The address as a picture for a phone’s camera" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="`, n, n, n, n)
	for y := 0; y < c.Size; y++ {
		for x := 0; x < c.Size; x++ {
			if c.Black(x, y) {
				fmt.Fprintf(&b, "M%d %dh1v1h-1z", x+quiet, y+quiet)
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return b.String(), nil
}

// TerminalPicture is an address as a picture in half blocks for a terminal, black on
// white whatever the terminal's own colours are.
func TerminalPicture(address string) (string, error) {
	c, err := qr.Encode(address, qr.L)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	black := func(x, y int) bool { return c.Black(x, y) } // outside it is white
	for y := -quiet; y < c.Size+quiet; y += 2 {
		b.WriteString("\x1b[30;107m")
		for x := -quiet; x < c.Size+quiet; x++ {
			switch up, down := black(x, y), black(x, y+1); {
			case up && down:
				b.WriteRune('█')
			case up:
				b.WriteRune('▀')
			case down:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteString("\x1b[0m\n")
	}
	return b.String(), nil
}
