package site

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// exchange puts the folder aside in the place of dir in one step, and returns where the
// old one is now, "" when there was none.
func exchange(aside, dir string) (old string, err error) {
	err = unix.Renameat2(unix.AT_FDCWD, aside, unix.AT_FDCWD, dir, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return aside, nil
	case errors.Is(err, fs.ErrNotExist):
		return "", os.Rename(aside, dir)
	}
	return exchangeInTwo(aside, dir)
}

// sameDisk reports whether a folder lies on the disk of another, or is not there yet.
func sameDisk(a, b string) bool {
	var x, y unix.Stat_t
	return unix.Stat(a, &x) != nil || unix.Stat(b, &y) != nil || x.Dev == y.Dev
}

// flush brings what was written to the disk that a folder lies on.
func flush(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = unix.Syncfs(int(f.Fd())) // without it a loss of power may cost the new site, not the old
		_ = f.Close()
	}
}
