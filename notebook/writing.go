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
	n.writing.Lock()
	defer n.writing.Unlock()
	last := len(n.undo) - 1
	if last < 0 {
		return c, nil
	}
	now := time.Now()
	n.undo[last].begun = now
	if last > 0 {
		a, b := &n.undo[last-1], &n.undo[last]
		if a.label == b.label && a.path == b.path && string(a.after) == string(b.before) && !a.begun.IsZero() && now.Sub(a.begun) < oneSitting {
			a.after = b.after
			n.undo = n.undo[:last]
		}
	}
	return c, nil
}
