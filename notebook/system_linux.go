package notebook

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// errNoExchange says that the file system cannot exchange two files.
var errNoExchange = errors.New("files cannot be exchanged here")

// exchange lets two files change places in one step.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.ENOSYS), errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOTSUP):
		return errNoExchange
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}

// changeTime is when a file's content, mode or names last changed, in nanoseconds:
// unlike the time of modification it cannot be set by a copying program.
func changeTime(info fs.FileInfo) int64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return s.Ctim.Nano()
	}
	return 0
}
