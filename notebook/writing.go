package notebook

import (
	"context"
	"time"
)

// oneSitting is how long saves of one file are taken back together.
const oneSitting = 2 * time.Minute

// WriteOn is SaveText for a text that is being written: saves of one file that follow
// one another within a short while are one step for Undo.
func (n *Notebook) WriteOn(ctx context.Context, label, path string, before, after []byte) (Change, error) {
	c, err := n.SaveText(ctx, label, path, before, after)
	if err != nil {
		return c, err
	}
	n.hand.join()
	return c, nil
}

// join makes the last change one with that before it, where both belong to one sitting.
func (h *hand) join() {
	h.mu.Lock()
	defer h.mu.Unlock()
	last := len(h.undo) - 1
	if last < 0 {
		return
	}
	now := time.Now()
	h.undo[last].begun = now
	if last > 0 {
		a, b := &h.undo[last-1], &h.undo[last]
		if a.label == b.label && a.path == b.path && string(a.after) == string(b.before) && !a.begun.IsZero() && now.Sub(a.begun) < oneSitting {
			a.after = b.after
			h.undo = h.undo[:last]
		}
	}
}
