package choice

import (
	"cmp"
	"context"
	"math"
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
	out := &Comparison{Case: c, Service: LiquidPump}
	for i := range c.Scenarios {
		out.Scenarios = append(out.Scenarios, ScenarioOutcomes{Name: c.Scenarios[i].Name})
	}
	all := make([]runs, len(ts))
	pool := &pool{settings: s}
	limits := c.Limits.list()

	first := min(s.grids(), 2)
	for i, t := range ts {
		all[i] = runs{grids: make([]grid, first)}
		for h := range first {
			pool.add(t, moc.Settings{Halvings: h}, &all[i].grids[h])
		}
	}
	for i := range c.Scenarios {
		pool.addOwn(c, &c.Scenarios[i], &out.Scenarios[i], ts[i*len(c.Candidates)].cost(0)/4)
	}
	if err := pool.run(ctx); err != nil {
		return nil, err
	}
	for i, t := range ts {
		if o, doubts := all[i].outcome(limits, s); o.Failed == "" && first < s.grids() && (len(doubts) > 0 || o.unsure()) {
			all[i].grids = append(all[i].grids, grid{})
			pool.add(t, moc.Settings{Halvings: first}, &all[i].grids[first])
		}
	}
	if err := pool.run(ctx); err != nil {
		return nil, err
	}
	for i, t := range ts {
		if o, _ := all[i].outcome(limits, s); o.cavities() && t.cavities == moc.GasCavity && s.grids() > 1 {
			all[i].gas = &grid{}
			pool.add(t, moc.Settings{Halvings: len(all[i].grids) - 1, GasFraction: moreGas}, all[i].gas)
		}
	}
	if err := pool.run(ctx); err != nil {
		return nil, err
	}

	var failed error
	fine := false
	for i := range ts {
		o, doubts := all[i].outcome(limits, s)
		o.Warnings = append(o.Warnings, doubts...)
		sc := &out.Scenarios[i/len(c.Candidates)]
		sc.Outcomes = append(sc.Outcomes, *o)
		fine = fine || o.Failed == ""
		if failed == nil {
			failed = o.err
		}
	}
	if !fine {
		return nil, &failure{ts[0].outcome.Candidate, failed}
	}
	out.govern()
	out.warn()
	out.assume()
	out.recommend(s)
	return out, nil
}

// runs are the results of one trial: at steps halved each time, and, where gas cavities formed, at the last of them with more free gas.
type runs struct {
	grids []grid
	gas   *grid
}

// outcome is the result at the last step with its errors and verdicts, and the targets of accuracy that it misses.
func (r *runs) outcome(limits []limit, s Settings) (*Outcome, []string) {
	o := weigh(r.grids)
	missed := doubts(r.grids, s)
	o.scatter(r.gas, s)
	o.judge(limits)
	return o, missed
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
func (p *pool) add(t *trial, how moc.Settings, to *grid) {
	to.outcome = t.outcome
	if t.outcome.Failed != "" {
		return
	}
	p.push(job{t.cost(how.Halvings), func(ctx context.Context, progress func(float64)) error {
		w := t.watch()
		how.Progress, how.Friction, how.Cavities, how.Observer = progress, t.friction, t.cavities, w
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
			t.dress(&to.outcome, r)
		}
		return nil
	}})
}

// addOwn asks for the installation's own deceleration in one scenario.
func (p *pool) addOwn(c *Case, sc *Scenario, to *ScenarioOutcomes, cost float64) {
	p.push(job{cost, func(ctx context.Context, _ func(float64)) (err error) {
		to.Own, to.OwnBore, err = Own(ctx, c, sc, p.settings)
		return err
	}})
}

func (p *pool) push(j job) {
	p.jobs = append(p.jobs, j)
	p.total += j.cost
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
