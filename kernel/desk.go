package kernel

import (
	"context"
	"sync"

	"scarph/calc"
)

// MaxWaiting is how many requests of one client may wait.
const MaxWaiting = 1000

// Desk is where one client's requests are answered, in their order, over whatever
// carries them. It keeps the client's scratch sheet, the log of ripples, and what the
// client wants to be told.
type Desk struct {
	s       *Session
	options DeskOptions
	log     *Log
	sheet   *Sheet

	mu      sync.Mutex
	told    bool         // the client has subscribed
	jobs    map[int]*job // taken and not yet answered
	next    int
	ended   bool
	waiting chan *job
	moved   chan event
	done    chan struct{} // closed when the desk is shut down
	stopped chan struct{} // closed when no more events are told
}

// DeskOptions is what a carrier brings.
type DeskOptions struct {
	Title, Version string
	// HTML writes a result for a page; nil leaves text/html out of bundles.
	HTML func(*Result, calc.Style) string
	// Tell carries an event to the client. It is called by one goroutine at a time.
	Tell func(name string, data any)
}

// job is a request on its way.
type job struct {
	number int
	ctx    context.Context
	cancel context.CancelFunc
	r      Request
	m      *method
	reply  func(any, *Fault)
}

// event is a ripple to be told.
type event struct {
	number int
	ripple Ripple
}

// NewDesk opens a desk at a session.
func NewDesk(s *Session, o DeskOptions) *Desk {
	d := &Desk{s: s, options: o, sheet: s.NewSheet(), jobs: map[int]*job{}, waiting: make(chan *job, MaxWaiting), moved: make(chan event, KeptRipples), done: make(chan struct{}), stopped: make(chan struct{})}
	d.log = s.NewLog(d.hear)
	go d.work()
	go d.tell()
	return d
}

// Done is closed when the client has shut the desk down.
func (d *Desk) Done() <-chan struct{} { return d.done }

// Close ends the desk without waiting for requests that run.
func (d *Desk) Close() {
	d.mu.Lock()
	for _, j := range d.jobs {
		j.cancel()
	}
	d.end()
	d.mu.Unlock()
	<-d.stopped
}

// end closes the desk once; d.mu is held.
func (d *Desk) end() {
	if !d.ended {
		d.ended = true
		d.log.Close()
		close(d.done)
	}
}

// Take takes a request and returns at once; reply is called once, when it is
// answered. A client's requests are answered in their order, urgent ones at once.
func (d *Desk) Take(ctx context.Context, r Request, reply func(result any, f *Fault)) {
	m := findMethod(r.Method)
	if m == nil {
		f := &Fault{Code: FaultMethod, Message: "there is no request " + r.Method}
		if near := calc.Nearest(r.Method, MethodNames()); near != "" {
			f.Hint = "did you mean " + near + "?"
		}
		reply(nil, f)
		return
	}
	if m.urgent {
		reply(m.serve(d, ctx, r))
		return
	}
	j := &job{r: r, m: m, reply: reply}
	j.ctx, j.cancel = context.WithCancel(ctx)
	if f := d.enqueue(j); f != nil {
		j.cancel()
		reply(nil, f)
	}
}

func (d *Desk) enqueue(j *job) *Fault {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.ended {
		return &Fault{Code: FaultClosed, Message: "the kernel has been shut down"}
	}
	select {
	case d.waiting <- j:
	default:
		return &Fault{Code: FaultBusy, Message: "too many requests wait", Hint: "read answers before asking more"}
	}
	d.next++
	j.number = d.next
	d.jobs[j.number] = j
	return nil
}

// work answers requests until the desk is shut down; those that still wait are refused.
func (d *Desk) work() {
	for {
		select {
		case j := <-d.waiting:
			d.answer(j)
		case <-d.done:
			for {
				select {
				case j := <-d.waiting:
					d.finish(j, nil, &Fault{Code: FaultClosed, Message: "the kernel has been shut down"})
				default:
					return
				}
			}
		}
	}
}

func (d *Desk) answer(j *job) {
	if j.ctx.Err() != nil {
		d.finish(j, nil, interrupted())
		return
	}
	answered := d.s.Asks(j.ctx)
	result, f := j.m.serve(d, j.ctx, j.r)
	answered()
	if f == nil && j.ctx.Err() != nil {
		result, f = nil, interrupted()
	}
	d.finish(j, result, f)
	if j.m.name == "shutdown" {
		d.mu.Lock()
		d.end()
		d.mu.Unlock()
	}
}

func (d *Desk) finish(j *job, result any, f *Fault) {
	d.mu.Lock()
	delete(d.jobs, j.number)
	d.mu.Unlock()
	j.cancel()
	j.reply(result, f)
}

func interrupted() *Fault {
	return &Fault{Code: FaultInterrupted, Message: "the request was interrupted"}
}

// hear hands a ripple on to be told, when the client has subscribed. It runs inside
// an update and does not wait: a client that does not listen misses ripples, and can ask
// for what has moved since the last it heard of.
func (d *Desk) hear(number int, r Ripple) {
	d.mu.Lock()
	told := d.told
	d.mu.Unlock()
	if !told {
		return
	}
	select {
	case d.moved <- event{number, r}:
	default:
	}
}

// tell carries ripples to the client.
func (d *Desk) tell() {
	defer close(d.stopped)
	for {
		select {
		case e := <-d.moved:
			if d.options.Tell != nil {
				d.options.Tell("moved", RippleResult{Number: e.number, Since: e.number - 1, Ripple: ShapeOfRipple(e.ripple, nil, d.s.Style())})
			}
		case <-d.done:
			return
		}
	}
}
