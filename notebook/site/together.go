package site

import (
	"errors"
	"runtime"
	"sync"
)

// mostAtOnce is how many pieces of work are done at once where there are more cores.
const mostAtOnce = 8

// together does n pieces of work that do not wait for each other, as many at once as
// there are cores. It begins no further piece after one that failed or when someone
// asked to give up, and says how far the work has come.
func (s *series) together(what string, n int, do func(i int) error) error {
	next := make(chan int)
	var (
		wait   sync.WaitGroup
		mu     sync.Mutex // guards what follows
		done   int
		failed error
	)
	for range min(runtime.GOMAXPROCS(0), mostAtOnce, n) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for i := range next {
				err := do(i)
				mu.Lock()
				done++
				failed = errors.Join(failed, err)
				s.tell(what, done, n)
				mu.Unlock()
			}
		}()
	}
	var stopped error
	for i := 0; i < n && stopped == nil; i++ {
		mu.Lock()
		stopped = failed
		mu.Unlock()
		if stopped == nil {
			stopped = s.stopped()
		}
		if stopped == nil {
			next <- i
		}
	}
	close(next)
	wait.Wait()
	if failed != nil {
		return failed
	}
	return stopped
}
