package notebook

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"
)

// readFiles brings files up to date, as many at once as there are processors, and lists
// those that are not what they were, in the order in which they were given. A file whose
// time and size are those of the last reading is not read again unless asked for.
func (n *Notebook) readFiles(paths []string, again bool) (changed []string) {
	files := make([]*File, len(paths))
	var next atomic.Int64
	read := func() {
		for i := int(next.Add(1)) - 1; i < len(paths); i = int(next.Add(1)) - 1 {
			files[i] = n.readFile(paths[i], again)
		}
	}
	var readers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(paths)) - 1 {
		readers.Go(read)
	}
	read()
	readers.Wait()
	for i, f := range files {
		p := paths[i]
		switch before := n.files[p]; {
		case f == before:
			continue
		case f == nil:
			delete(n.files, p)
		default:
			n.files[p] = f
		}
		changed = append(changed, p)
	}
	return changed
}

// readFile reads one file: the one that is known when it is still the same, nil when it
// is gone. It changes nothing of the notebook, so that several can be read at once.
func (n *Notebook) readFile(p string, again bool) *File {
	before := n.files[p]
	_, over := n.overlay[p]
	full := filepath.Join(n.Root(), filepath.FromSlash(p))
	var seen stamp
	if !over {
		info, err := os.Stat(full)
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		seen = stampOf(info, err)
		if before != nil && !again && before.seen.settled() && before.seen == seen {
			return before
		}
	}
	src, err := n.read(p)
	var fault string
	if err != nil {
		fault = err.Error()
	}
	if before != nil && string(before.Src) == string(src) && before.fault == fault {
		before.seen = seen
		return before
	}
	f := newFile(p, src, n.carriesSettings(p), before)
	f.seen, f.fault = seen, fault
	return f
}
