//go:build !unix

package notebook

import (
	"io/fs"
	"path/filepath"
)

// links counts the names a file has; where that cannot be told, one.
func links(fs.FileInfo) uint64 { return 1 }

// keepOwner leaves owners to the folder's rules.
func keepOwner(string, fs.FileInfo) bool { return true }

// sameDevice reports whether a file can be moved from one folder to the other.
func sameDevice(a, b string) bool { return filepath.VolumeName(a) == filepath.VolumeName(b) }

// lockFolder does nothing where folders have no locks.
func lockFolder(string) (unlock func()) { return func() {} }
