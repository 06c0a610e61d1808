package live

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestSlowClients leaves hundreds of connections half spoken: heads that do not end, bodies
// that do not come, pages that are asked for and not read, streams that nobody listens to.
// Others are answered meanwhile and hear of ripples, and the server ends when it is told to.
func TestSlowClients(t *testing.T) {
	g := newGate(t, "127.0.0.1:0", Options{})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- g.s.Serve(ctx, l) }()
	host := l.Addr().String()
	var idle []net.Conn
	defer func() {
		for _, c := range idle {
			c.Close()
		}
	}()
	for i, said := range []string{
		"GET / HTTP/1.1\r\nHost: " + host + "\r\nX-Slow: ",
		"POST /keep HTTP/1.1\r\nHost: " + host + "\r\nContent-Type: application/json\r\n" + keyHeader + ": " + g.s.door.key + "\r\nContent-Length: 60000\r\n\r\n{\"name\":",
		"GET /entry/2027-01-02 HTTP/1.1\r\nHost: " + host + "\r\n\r\n",
		"GET /events HTTP/1.1\r\nHost: " + host + "\r\n\r\n",
	} {
		for range 100 {
			c, err := net.Dial("tcp", host)
			if err != nil {
				t.Fatalf("kind %d: %v", i, err)
			}
			idle = append(idle, c)
			if _, err := io.WriteString(c, said); err != nil {
				t.Fatal(err)
			}
		}
	}
	stream, err := http.Get("http://" + host + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Body.Close()
	heard := make(chan string, 1000)
	go func() {
		for in := bufio.NewScanner(stream.Body); in.Scan(); {
			heard <- in.Text()
		}
		close(heard)
	}()
	for turn := range 30 { // more ripples than are kept for one that does not read
		text := fmt.Sprintf("```calc\nslow_%d = %d in\n```\n", turn, turn+1)
		if err := os.WriteFile(filepath.Join(g.dir, "2027-01-05.md"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		g.s.Refresh(context.Background())
		r, err := http.Get("http://" + host + "/entry/2027-01-05")
		if err != nil {
			t.Fatal(err)
		}
		page, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || !strings.Contains(string(page), fmt.Sprintf("slow_%d", turn)) {
			t.Fatalf("turn %d: %d, %v", turn, r.StatusCode, err)
		}
	}
	ripples := 0
	for end := time.After(30 * time.Second); ripples < 10; {
		select {
		case line, ok := <-heard:
			if !ok {
				t.Fatalf("the stream ended after %d ripples", ripples)
			}
			if strings.HasPrefix(line, "event: ripple") {
				ripples++
			}
		case <-end:
			t.Fatalf("only %d ripples were heard", ripples)
		}
	}
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(30 * time.Second):
		t.Fatal("the server does not end while clients are slow")
	}
}
