package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"sync"
	"time"
)

// progress is one line on a terminal: how much is done and how long it may still take. It is cleared at the end. Without a terminal, as in the log of a job, a line
// is added now and then to a run that takes long, and none to others.
type progress struct {
	mu      sync.Mutex
	out     io.Writer // nil: shows nothing
	pace    pace
	what    string
	started time.Time
	shown   time.Time
	done    float64
	width   int // of what stands on the line
	now     func() time.Time
}

// pace is when a line is shown, and how one begins and ends.
type pace struct {
	first, every time.Duration // what is over before the first needs no line
	begin, end   string
}

var (
	onTerminal = pace{300 * time.Millisecond, 100 * time.Millisecond, "\r", ""}
	inLog      = pace{30 * time.Second, 30 * time.Second, "seatwise: ", "\n"}
)

func newProgress(out io.Writer, what string, at pace, now func() time.Time) *progress {
	return &progress{out: out, what: what, pace: at, started: now(), now: now}
}

// set takes the fraction done. It may come from several goroutines, and late: it never goes back.
func (p *progress) set(done float64) {
	if p.out == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.now()
	p.done = math.Max(p.done, math.Min(done, 1))
	if now.Sub(p.started) < p.pace.first || now.Sub(p.shown) < p.pace.every {
		return
	}
	p.shown = now
	text := fmt.Sprintf("%s: %.0f %%", p.what, math.Min(100*p.done, 99)) // the line is cleared when all is done: what it shows is not
	if left, ok := p.left(now); ok {
		text += ", " + left + " left"
	}
	fmt.Fprintf(p.out, "%s%s%s%s", p.pace.begin, text, strings.Repeat(" ", max(0, p.width-len(text))), p.pace.end)
	if p.pace.end == "" {
		p.width = len(text)
	}
}

// left is the time left at the pace so far, once there is a pace.
func (p *progress) left(now time.Time) (string, bool) {
	if p.done < 0.05 {
		return "", false
	}
	d := time.Duration(float64(now.Sub(p.started)) * (1 - p.done) / p.done)
	switch {
	case d < 10*time.Second:
		return fmt.Sprintf("%.0f s", math.Max(1, math.Ceil(d.Seconds()))), true
	case d < 2*time.Minute:
		return fmt.Sprintf("%.0f s", 5*math.Ceil(d.Seconds()/5)), true
	}
	return fmt.Sprintf("%.0f min", math.Ceil(d.Minutes())), true
}

// clear wipes the line.
func (p *progress) clear() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.width > 0 {
		fmt.Fprintf(p.out, "\r%s\r", strings.Repeat(" ", p.width))
		p.width = 0
	}
}
