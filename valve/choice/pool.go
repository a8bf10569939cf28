package choice

import (
	"cmp"
	"context"
	"math"
	"sync"

	"golang.org/x/sync/errgroup"

	"seatwise/moc"
)

// pool runs jobs side by side: those of the first trial first, so that an interrupt finds as many trials finished as can be, and of one trial the longest
// first. A job may leave others to be run. Each writes to its own place, so that neither order nor number of workers shows in the result.
type pool struct {
	settings Settings
	lock     sync.Mutex
	change   sync.Cond // a job came or ended
	jobs     []job
	running  int
	total    float64 // cost of all jobs ever added
	done     float64
	shown    float64
}

type job struct {
	rank int // of its trial
	cost float64
	run  func(ctx context.Context, progress func(float64)) error
	then func() // under the lock, when it is done
}

func newPool(s Settings) *pool {
	p := &pool{settings: s}
	p.change.L = &p.lock
	return p
}

// add asks for one run of a trial.
func (p *pool) add(of *runs, how moc.Settings, to *grid) {
	t := of.trial
	to.outcome = t.outcome
	if t.outcome.Failed != "" {
		return
	}
	of.pending++
	p.push(job{of.rank, t.cost(how.Halvings), func(ctx context.Context, progress func(float64)) error {
		w, observer := t.watch()
		how.Progress, how.Friction, how.Cavities, how.Observer = progress, t.friction, t.cavities, observer
		r, err := moc.Solve(ctx, t.problem, how)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			to.outcome.fail(p.settings.Said(err))
			return nil
		}
		to.outcome, to.evidence = t.measured(r, w)
		if how.GasFraction == 0 && (how.Halvings > 0 || t.settings.grids() == 1) {
			t.dress(&to.outcome, r, w)
		}
		return nil
	}, func() {
		if of.pending--; of.pending == 0 {
			p.next(of)
		}
	}})
}

// addOwn asks for the installation's own deceleration in one scenario.
func (p *pool) addOwn(c *Case, sc *Scenario, to *ScenarioOutcomes, rank int, cost float64) {
	var own Value
	var bore float64
	p.push(job{rank, cost, func(ctx context.Context, _ func(float64)) (err error) {
		own, bore, err = Own(ctx, c, sc, p.settings)
		return err
	}, func() { to.Own, to.OwnBore = own, bore }})
}

// push goes under the lock once the pool runs.
func (p *pool) push(j job) {
	p.jobs = append(p.jobs, j)
	p.total += j.cost
	p.change.Broadcast()
}

// clusterNodes is the work of the cluster of one unit, pump and check valve, over that of one node of a pipe. Measured: 1.0 to 1.2 µs against 2 to 6 ns.
const clusterNodes = 300

// usualRun stands for the length of a run that ends by itself, s.
const usualRun = 10

// cost is the work of a run in node updates: its nodes, and its clusters for what they take, times its steps.
func (t *trial) cost(halvings int) float64 {
	n, err := moc.Plan(t.problem, moc.Settings{Halvings: halvings})
	if err != nil {
		return 0 // the run will say why
	}
	units := len(t.problem.Network.CheckValves)
	for _, s := range t.problem.Network.Stations {
		units += s.Units
	}
	until := cmp.Or(t.problem.Until, usualRun)
	return float64(n.Nodes+clusterNodes*units) * math.Ceil(until/n.Step)
}

// run empties the pool. The error is that of the context.
func (p *pool) run(ctx context.Context) error {
	defer context.AfterFunc(ctx, func() {
		p.lock.Lock()
		defer p.lock.Unlock()
		p.change.Broadcast()
	})()
	var g errgroup.Group
	for range p.settings.workers() {
		g.Go(func() error {
			for {
				j, ok := p.take(ctx)
				if !ok {
					return ctx.Err()
				}
				err := p.do(ctx, j)
				p.lock.Lock()
				if p.running--; err == nil {
					j.then()
				}
				p.change.Broadcast()
				p.lock.Unlock()
				if err != nil {
					return err
				}
			}
		})
	}
	return g.Wait()
}

// take waits for the next job; false when there will be none, or the context has ended.
func (p *pool) take(ctx context.Context) (job, bool) {
	p.lock.Lock()
	defer p.lock.Unlock()
	for len(p.jobs) == 0 && p.running > 0 && ctx.Err() == nil {
		p.change.Wait()
	}
	if len(p.jobs) == 0 || ctx.Err() != nil {
		return job{}, false
	}
	first := 0
	for i, j := range p.jobs {
		if b := p.jobs[first]; cmp.Or(cmp.Compare(j.rank, b.rank), cmp.Compare(b.cost, j.cost)) < 0 {
			first = i
		}
	}
	j := p.jobs[first]
	p.jobs = append(p.jobs[:first], p.jobs[first+1:]...)
	p.running++
	return j, true
}

// do runs a job and tells of its progress.
func (p *pool) do(ctx context.Context, j job) error {
	so := 0.0
	advance := func(part float64) {
		if part = min(part, 1); part > so {
			p.progress((part - so) * j.cost)
			so = part
		}
	}
	if err := j.run(ctx, advance); err != nil {
		return err
	}
	advance(1)
	return nil
}

// progress never goes back, though jobs may be added on the way.
func (p *pool) progress(more float64) {
	p.lock.Lock()
	defer p.lock.Unlock()
	p.done += more
	if f := p.done / p.total; p.settings.Progress != nil && f > p.shown {
		p.shown = min(f, 1)
		p.settings.Progress(p.shown)
	}
}
