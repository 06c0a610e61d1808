package live

import (
	"encoding/json"
	"fmt"
	"net/http"
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
// asks for everything when it comes back.
type hub struct {
	mu   sync.Mutex
	subs map[chan []byte]bool
	done chan struct{}
}

// maxPages is the most event streams at once.
const maxPages = 2000

func newHub() *hub { return &hub{subs: map[chan []byte]bool{}, done: make(chan struct{})} }

func (h *hub) send(e Event) {
	b, err := json.Marshal(e)
	if err != nil {
		return
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.subs {
		select {
		case c <- b:
		default:
			delete(h.subs, c)
			close(c)
		}
	}
}

func (h *hub) join() (chan []byte, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.subs) >= maxPages {
		return nil, false
	}
	c := make(chan []byte, 16)
	h.subs[c] = true
	return c, true
}

func (h *hub) leave(c chan []byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.subs[c] {
		delete(h.subs, c)
	}
}

// events streams ripples to a page as server-sent events.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	c, ok := s.hub.join()
	if !ok {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer s.hub.leave(c)
	rc := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	// A page that was made before a change and listens only after it has missed the
	// ripple; the number tells it so.
	fmt.Fprintf(w, "event: sheet\ndata: %d\n\n", s.ripples.latest())
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
		case b, ok := <-c:
			if !ok {
				return
			}
			_ = rc.SetWriteDeadline(time.Now().Add(10 * time.Second))
			_, err = fmt.Fprintf(w, "event: ripple\ndata: %s\n\n", b)
		case <-beat.C:
			_ = rc.SetWriteDeadline(time.Now().Add(10 * time.Second))
			_, err = fmt.Fprint(w, ": still here\n\n")
		}
		if err != nil || rc.Flush() != nil {
			return
		}
	}
}
