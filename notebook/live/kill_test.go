package live_test

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scarph/notebook"
	"scarph/notebook/live"
)

// The test program serves a journal instead of testing when these are set: the folder,
// the address, and whether it kills itself in the middle of the first save.
const (
	serveInstead = "SCARPH_TEST_SERVE"
	serveAt      = "SCARPH_TEST_AT"
	dieSaving    = "SCARPH_TEST_DIE"
)

// serveAsAProcess serves until it is killed.
func serveAsAProcess(dir string) {
	book, err := notebook.Open(dir)
	if err == nil {
		var l net.Listener
		if l, err = net.Listen("tcp", os.Getenv(serveAt)); err == nil {
			if os.Getenv(dieSaving) != "" {
				go dieInASave(dir)
			}
			fmt.Println(l.Addr())
			err = live.New(book, live.Options{Now: func() time.Time { return day }}).Serve(context.Background(), l)
		}
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// dieInASave kills the process as soon as a text that is being saved has been kept whole,
// and before it can have come far towards its file.
func dieInASave(dir string) {
	for {
		kept, _ := filepath.Glob(filepath.Join(dir, notebook.RecoveryFolder, "*", "*.md"))
		for _, name := range kept {
			text, err := os.ReadFile(name)
			sum := sha256.Sum256(text)
			if err == nil && strings.HasSuffix(filepath.Dir(name), hex.EncodeToString(sum[:6])) {
				if p, err := os.FindProcess(os.Getpid()); err == nil {
					_ = p.Kill()
				}
			}
		}
		time.Sleep(100 * time.Microsecond)
	}
}

// process serves the journal in a process of its own, which is given back with the
// journal's address set.
func (s *shop) process(address string, env ...string) *process {
	s.t.Helper()
	for n := 0; ; n++ {
		c := exec.Command(os.Args[0])
		c.Env = append(append(os.Environ(), serveInstead+"="+s.dir, serveAt+"="+address), env...)
		out, err := c.StdoutPipe()
		if err != nil {
			s.t.Fatal(err)
		}
		if err := c.Start(); err != nil {
			s.t.Fatal(err)
		}
		line, err := bufio.NewReader(out).ReadString('\n')
		p := &process{ended: make(chan struct{})}
		go func() { _ = c.Wait(); p.byItself = c.ProcessState.Exited(); close(p.ended) }()
		s.t.Cleanup(func() { _ = c.Process.Kill(); <-p.ended })
		if err == nil {
			s.url = "http://" + strings.TrimSpace(line)
			return p
		} else if n == 20 { // the address may still be held by the one before
			s.t.Fatal("the process does not serve: ", err)
		}
		<-p.ended
		time.Sleep(100 * time.Millisecond)
	}
}

// process is a program that serves.
type process struct {
	ended    chan struct{}
	byItself bool // once it has ended
}

// typeUntilKilled types line after line at the end of the text until the process has been
// killed in a save, and gives how many; on a busy machine a save may be over before the
// process sees it.
func (b *tab) typeUntilKilled(p *process, line string) int {
	b.t.Helper()
	b.typeAtEnd("\n")
	for n := 1; ; n++ {
		b.typeText(line)
		select {
		case <-p.ended:
			if p.byItself {
				b.t.Fatal("the process ended by itself")
			}
			return n
		case <-time.After(5 * time.Second):
		}
		if n == 20 {
			b.t.Fatal("the process is not killed in a save")
		}
	}
}

const typed = "Typed before it died.\n"

// saved is a text with so many typed lines.
func saved(before string, lines int) string {
	if lines == 0 {
		return before
	}
	return before + "\n" + strings.Repeat(typed, lines)
}

// TestKilledWhileThePageSaves has the program killed in the middle of the page's save:
// the file is whole, the page goes on, says so, and saves all when it is back.
func TestKilledWhileThePageSaves(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			s.stop()
			c := s.process("127.0.0.1:0", dieSaving+"=1")
			address := strings.TrimPrefix(s.url, "http://")
			before := s.read(entry)
			b := newTab(t, z)
			b.goTo(s.url + "/write/2027-05-02-measured")
			b.waitText(".proof", "Off the moulds")
			n := b.typeUntilKilled(c, typed)
			first := before + "\n" + strings.Repeat(typed, n)
			if got := s.read(entry); got != first && got != saved(before, n-1) {
				t.Fatalf("the file is torn:\n%s", got)
			}
			// the program may just have come to answer
			b.wait(`/No connection|^Saved/.test(document.querySelector(".state").textContent)`)
			b.waitText(".bar .said", "connection is lost")
			b.typeText("Typed while it was dead.\n")
			b.shoot("dead")
			s.process(address)
			b.waitText(".state", "Saved")
			b.waitText(".bar .said", "Connected again")
			s.holds(entry, first+"Typed while it was dead.\n")
			b.wait(`localStorage.length === 0`)
			if got := eval[string](b, `document.querySelector("#text").value`); got != first+"Typed while it was dead.\n" {
				t.Errorf("the field is\n%s", got)
			}
			b.goTo(s.url + "/")
			if eval[bool](b, `!!document.querySelector(".notice.rescued")`) {
				t.Error("a text that reached its file is offered")
			}
		})
	}
}

// TestKilledAndThePageIsGone has the program killed in the middle of a save, and the
// phone with it: the next run offers the text, and puts it into the file when told to.
func TestKilledAndThePageIsGone(t *testing.T) {
	s := open(t, wren)
	s.stop()
	before := s.read(entry)
	want, was := "", ""
	for n := 0; ; n++ {
		c := s.process("127.0.0.1:0", dieSaving+"=1")
		b := newTab(t, phone)
		b.goTo(s.url + "/write/2027-05-02-measured")
		b.waitText(".proof", "Off the moulds")
		k := b.typeUntilKilled(c, typed)
		b.goTo("about:blank")
		got := s.read(entry)
		want, was = before+"\n"+strings.Repeat(typed, k), saved(before, k-1)
		if got == was {
			break
		}
		if got != want {
			t.Fatalf("the file is torn:\n%s", got)
		}
		if n == 5 {
			t.Skip("each time the save was done before the process was")
		}
		s.save(entry, before)
		_ = os.RemoveAll(filepath.Join(s.dir, notebook.RecoveryFolder))
	}
	s.process("127.0.0.1:0")
	b := newTab(t, phone)
	b.goTo(s.url + "/")
	b.waitText(".notice.rescued", "was being saved when the program stopped")
	b.shoot("offered")
	b.click(".notice.rescued .act")
	b.waitText(".rescue", "Typed before it died.")
	b.wait(`"ready" in document.documentElement.dataset`)
	b.shoot("rescue")
	b.click(`[data-rescue][data-keep]`)
	s.holds(entry, want)
	b.waitText(".bar .said", "is in its file")
	b.waitText("main", "Nothing is waiting")
	b.click(".bar .act") // take it back
	s.holds(entry, was)
}
