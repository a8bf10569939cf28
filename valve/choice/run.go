package choice

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"golang.org/x/sync/errgroup"

	"seatwise/moc"
)

// Run compares the candidates of a case. A candidate that fails, in its place or in its run, is an outcome with its reason; Run returns an error when
// the case is not complete, when all fail, or when the context ends.
func Run(ctx context.Context, c *Case, s Settings) (*Comparison, error) {
	ts, err := trials(c, s)
	if err != nil {
		return nil, err
	}
	grids := make([][]grid, len(ts))
	owns := make([]Value, len(c.Scenarios))
	pool := &pool{settings: s}

	first := min(s.grids(), 2)
	for i, t := range ts {
		grids[i] = make([]grid, first)
		for h := range first {
			pool.add(t, h, &grids[i][h])
		}
	}
	for i := range c.Scenarios {
		pool.addOwn(ts[i*len(c.Candidates):(i+1)*len(c.Candidates)], &owns[i])
	}
	if err := pool.run(ctx); err != nil {
		return nil, err
	}

	limits := c.Limits.list()
	outcome := func(i int) *Outcome {
		o := weigh(grids[i])
		o.judge(limits)
		return o
	}
	for i, t := range ts {
		if o := outcome(i); o.Failed == "" && first < s.grids() && (len(doubts(grids[i], s)) > 0 || o.unsure()) {
			grids[i] = append(grids[i], grid{})
			pool.add(t, first, &grids[i][first])
		}
	}
	if err := pool.run(ctx); err != nil {
		return nil, err
	}

	out := &Comparison{Case: c, Service: LiquidPump}
	for i, sc := range c.Scenarios {
		out.Scenarios = append(out.Scenarios, ScenarioOutcomes{Name: sc.Name, Own: owns[i]})
	}
	var failed error
	fine := false
	for i := range ts {
		o := outcome(i)
		o.Warnings = append(o.Warnings, doubts(grids[i], s)...)
		sc := &out.Scenarios[i/len(c.Candidates)]
		sc.Outcomes = append(sc.Outcomes, *o)
		fine = fine || o.Failed == ""
		if failed == nil {
			failed = o.err
		}
	}
	if !fine {
		return nil, fmt.Errorf("%s: %w", ts[0].outcome.Candidate, failed)
	}
	out.govern()
	out.warn()
	out.assume()
	out.recommend(s)
	return out, nil
}

// pool runs jobs side by side, the longest first. Each writes to its own place, so that neither order nor number of workers shows in the result.
type pool struct {
	settings Settings
	jobs     []job
	lock     sync.Mutex
	total    float64 // cost of all jobs ever added
	done     float64
	shown    float64
}

type job struct {
	cost float64
	run  func(ctx context.Context, progress func(float64)) error
}

// add asks for one run of a trial.
func (p *pool) add(t *trial, halvings int, to *grid) {
	to.outcome = t.outcome
	if t.outcome.Failed != "" {
		return
	}
	p.push(job{t.cost(halvings), func(ctx context.Context, progress func(float64)) error {
		r, err := moc.Solve(ctx, t.problem, moc.Settings{Halvings: halvings, Progress: progress})
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			to.outcome.fail(err)
			return nil
		}
		to.outcome, to.evidence = t.measured(r)
		if halvings > 0 || t.settings.grids() == 1 {
			t.dress(&to.outcome, r)
		}
		return nil
	}})
}

// addOwn asks for the installation's own deceleration in one scenario.
func (p *pool) addOwn(ts []*trial, to *Value) {
	p.push(job{ts[0].cost(0) / 4, func(ctx context.Context, _ func(float64)) error {
		v, err := own(ctx, ts)
		*to = v
		return err
	}})
}

func (p *pool) push(j job) {
	p.jobs = append(p.jobs, j)
	p.total += j.cost
}

// cost is the work of a run, proportional to its nodes times its steps.
func (t *trial) cost(halvings int) float64 {
	n, err := moc.Plan(t.problem, moc.Settings{Halvings: halvings})
	if err != nil {
		return 0 // the run will say why
	}
	return float64(n.Nodes) / n.Step
}

// run empties the pool.
func (p *pool) run(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	jobs := p.jobs
	p.jobs = nil
	slices.SortStableFunc(jobs, func(a, b job) int { return cmp.Compare(b.cost, a.cost) })
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(p.settings.workers())
	for _, j := range jobs {
		g.Go(func() error {
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
		})
	}
	return g.Wait()
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
