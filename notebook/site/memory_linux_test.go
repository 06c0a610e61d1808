package site_test

import (
	"os"
	"syscall"
)

// peakMemory is the most memory that a process had, in bytes.
func peakMemory(p *os.ProcessState) int64 {
	if u, ok := p.SysUsage().(*syscall.Rusage); ok {
		return u.Maxrss << 10 // getrusage(2): in kilobytes
	}
	return 0
}
