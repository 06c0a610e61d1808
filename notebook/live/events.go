package live

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// Event is what open pages are told after a change.
type Event struct {
	// Entries are the keys of the entries whose page is not what it was.
	Entries []string `json:"entries"`
	// Structure is set when entries came or went, or a setting changed.
	Structure bool `json:"structure,omitempty"`
	// Words says what moved in a sentence.
	Words string `json:"words,omitempty"`
	// Undo says, of a change that a page wrote, what can be taken back.
	Undo string `json:"undo,omitempty"`
	// Sheet counts ripples, so that a page can ask for the one it was told of.
	Sheet int `json:"sheet"`
}

// hub hands events to the open pages. A page that does not read is let go, and
// asks for what it missed when it comes back.
type hub struct {
	mu   sync.Mutex
	run  string // of the program: the numbers of ripples begin anew with each
	last int
	sent []message // the latest, oldest first
	subs map[chan message]bool
	done chan struct{}
}

// message is an event as it is sent, under its ripple's number.
type message struct {
	sheet int
	data  []byte
}

// maxPages is the most event streams at once.
const maxPages = 2000

func newHub() *hub {
	return &hub{run: secret()[:8], subs: map[chan message]bool{}, done: make(chan struct{})}
}

func (h *hub) send(e Event) {
	b, err := json.Marshal(e)
	if err != nil {
		return
	}
	m := message{e.Sheet, b}
	h.mu.Lock()
	defer h.mu.Unlock()
	h.last = e.Sheet
	if h.sent = append(h.sent, m); len(h.sent) > keptRipples {
		h.sent = h.sent[1:]
	}
	for c := range h.subs {
		select {
		case c <- m:
		default:
			delete(h.subs, c)
			close(c)
		}
	}
}

// place is the address of a ripple among those of all runs.
func (h *hub) place(sheet int) string { return h.run + "-" + strconv.Itoa(sheet) }

// join gives the stream of what is sent from now on, the number of the last ripple, and
// what was sent since a place, where that is still known.
func (h *hub) join(since string) (c chan message, last int, missed []message, ok bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.subs) >= maxPages {
		return nil, 0, nil, false
	}
	if run, n, _ := strings.Cut(since, "-"); run == h.run {
		if from, err := strconv.Atoi(n); err == nil && h.last-from <= len(h.sent) {
			for _, m := range h.sent {
				if m.sheet > from {
					missed = append(missed, m)
				}
			}
		}
	}
	c = make(chan message, 16)
	h.subs[c] = true
	return c, h.last, missed, true
}

func (h *hub) leave(c chan message) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.subs[c] {
		delete(h.subs, c)
	}
}

// events streams ripples to a page as server-sent events. A page that was made before a
// change and listens only after it has missed the ripple, and so has one whose connection
// broke: what each missed is sent first.
// Source: WHATWG HTML, section 9.2, the field id and the header Last-Event-ID.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	since := r.Header.Get("Last-Event-ID")
	if since == "" {
		since = r.URL.Query().Get("since")
	}
	c, last, missed, ok := s.hub.join(since)
	if !ok {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer s.hub.leave(c)
	rc := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	for _, m := range missed {
		s.ripple(w, m)
	}
	fmt.Fprintf(w, "event: sheet\nid: %s\ndata: %[1]s\n\n", s.hub.place(last))
	if rc.Flush() != nil {
		return
	}
	beat := time.NewTicker(20 * time.Second)
	defer beat.Stop()
	for {
		var err error
		select {
		case <-r.Context().Done():
			return
		case <-s.hub.done:
			return
		case m, ok := <-c:
			if !ok {
				return
			}
			_ = rc.SetWriteDeadline(time.Now().Add(10 * time.Second))
			err = s.ripple(w, m)
		case <-beat.C:
			_ = rc.SetWriteDeadline(time.Now().Add(10 * time.Second))
			_, err = fmt.Fprint(w, ": still here\n\n")
		}
		if err != nil || rc.Flush() != nil {
			return
		}
	}
}

func (s *Server) ripple(w io.Writer, m message) error {
	_, err := fmt.Fprintf(w, "event: ripple\nid: %s\ndata: %s\n\n", s.hub.place(m.sheet), m.data)
	return err
}
