//go:build !unix

package notebook

import "io/fs"

// links counts the names a file has; where that cannot be told, one.
func links(fs.FileInfo) uint64 { return 1 }
