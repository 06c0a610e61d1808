package notebook

import (
	"context"
	"maps"

	"scarph/kernel"
)

// Twin is a second notebook over the same files, with a session of its own, so that one
// can be read while a change is worked out in the other. It shares what has been read of
// the files, and what can be taken back.
func (n *Notebook) Twin() *Notebook {
	t := &Notebook{Path: n.Path, Single: n.Single, files: map[string]*File{}, overlay: map[string][]byte{}, hand: n.hand, Session: kernel.New(n.Session.Style())}
	t.Follows(n)
	return t
}

// Follows makes a twin what the other is, without looking at the disk, and works out what
// hangs on it. The other's files must not be read again meanwhile. Where the other was
// stopped before its end, the twin does not try either: both go on with the next change.
func (n *Notebook) Follows(other *Notebook) {
	other.mu.RLock()
	defer other.mu.RUnlock()
	n.mu.Lock()
	defer n.mu.Unlock()
	n.files, n.overlay = maps.Clone(other.files), maps.Clone(other.overlay)
	n.settings, n.entries, n.places = other.settings, other.entries, other.places
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	if other.Session.Stopped() {
		stop()
	}
	n.work(ctx)
}
