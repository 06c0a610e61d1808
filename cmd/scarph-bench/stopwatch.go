package main

import (
	"runtime"
	"time"
)

// race runs each function in turn, many times over, and gives the least nanoseconds a
// run of each: what is slow because something else ran meanwhile falls away, and what
// is compared was measured in the same moments.
func (b *bench) race(fs ...func()) []float64 {
	counts := make([]int, len(fs))
	best := make([]float64, len(fs))
	for i, f := range fs {
		f()
		took := max(lap(1, f), 1)
		counts[i] = max(1, int(float64(4*time.Millisecond)/took))
		best[i] = took
	}
	runtime.GC()
	end := time.Now().Add(b.pace)
	for round := 0; round < 5 || time.Now().Before(end); round++ {
		for i, f := range fs {
			best[i] = min(best[i], lap(counts[i], f))
		}
	}
	return best
}

// lap is the nanoseconds a run of n runs.
func lap(n int, f func()) float64 {
	start := time.Now()
	for range n {
		f()
	}
	return float64(time.Since(start).Nanoseconds()) / float64(n)
}

// held is the bytes that what make returns keeps on the heap.
func held[T any](make func() T) float64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&before)
	x := make()
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(x)
	return float64(after.HeapAlloc) - float64(before.HeapAlloc)
}
