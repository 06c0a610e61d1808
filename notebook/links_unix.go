//go:build unix

package notebook

import (
	"io/fs"
	"os"
	"syscall"
	"time"
)

// links counts the names a file has.
func links(info fs.FileInfo) uint64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return uint64(s.Nlink)
	}
	return 1
}

// keepOwner gives a file the owner and the group of another; false when it may not.
func keepOwner(name string, like fs.FileInfo) bool {
	want, ok := like.Sys().(*syscall.Stat_t)
	info, err := os.Stat(name)
	if !ok || err != nil {
		return false
	}
	if is, ok := info.Sys().(*syscall.Stat_t); ok && is.Uid == want.Uid && is.Gid == want.Gid {
		return true
	}
	return os.Chown(name, int(want.Uid), int(want.Gid)) == nil && os.Chmod(name, like.Mode().Perm()) == nil
}

// sameDevice reports whether two folders lie on one file system, so that a file
// can be moved from one to the other.
func sameDevice(a, b string) bool {
	x, err := os.Stat(a)
	y, err2 := os.Stat(b)
	if err != nil || err2 != nil {
		return false
	}
	p, ok := x.Sys().(*syscall.Stat_t)
	q, ok2 := y.Sys().(*syscall.Stat_t)
	return ok && ok2 && p.Dev == q.Dev
}

// patience is how long a save waits for another program that saves in the same folder.
const patience = 2 * time.Second

// lockFolder keeps other programs of ours from saving in a folder until it is
// unlocked. Where that cannot be had in time, the looks before and after must do.
func lockFolder(dir string) (unlock func()) {
	f, err := os.Open(dir)
	if err != nil {
		return func() {}
	}
	for end := time.Now().Add(patience); ; time.Sleep(time.Millisecond) {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err == nil || err != syscall.EWOULDBLOCK || time.Now().After(end) {
			return func() { f.Close() }
		}
	}
}
