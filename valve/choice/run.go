package choice

import (
	"context"

	"seatwise/moc"
)

// Run compares the candidates of a case. A candidate that fails, in its place or in its run, is an outcome with its reason; Run returns an error when
// the case is not complete, when all fail, or when the context ends. In that last case the comparison of what was finished comes with the error, see
// [Comparison].Missing; it is nil when nothing was.
func Run(ctx context.Context, c *Case, s Settings) (*Comparison, error) {
	ts, err := trials(c, s)
	if err != nil {
		return nil, err
	}
	out := &Comparison{Case: c, Service: LiquidPump}
	all := make([]*runs, len(ts))
	pool := newPool(s)
	limits := c.Limits.list()
	for i, t := range ts {
		all[i] = &runs{trial: t, rank: i, limits: limits}
		pool.begin(all[i])
	}
	for i := range c.Scenarios {
		out.Scenarios = append(out.Scenarios, ScenarioOutcomes{Name: c.Scenarios[i].Name, Own: none(unfinished)})
	}
	for i := range c.Scenarios {
		first := all[i*len(c.Candidates)]
		pool.addOwn(c, &c.Scenarios[i], &out.Scenarios[i], first.rank, first.trial.cost(0)/4)
	}
	stopped := pool.run(ctx)

	var failed error
	fine := false
	for i, r := range all {
		sc := &out.Scenarios[i/len(c.Candidates)]
		if !r.finished {
			sc.Outcomes = append(sc.Outcomes, r.trial.missing())
			out.miss(sc.Name, r.trial.outcome.Candidate)
			continue
		}
		o, doubts := r.outcome(s)
		o.Warnings = append(o.Warnings, doubts...)
		sc.Outcomes = append(sc.Outcomes, *o)
		fine = fine || o.Failed == ""
		if failed == nil && o.Failed != "" {
			failed = &failure{o.Candidate, o.err}
		}
	}
	switch {
	case !fine && stopped != nil:
		return nil, stopped
	case !fine:
		return nil, failed
	}
	out.Interrupted = stopped != nil
	out.trim()
	out.govern()
	out.warn()
	out.assume()
	out.Staying = out.staying()
	out.float(s)
	out.recommend(s)
	out.tellFailures(s)
	return out, stopped
}

// runs are the results of one trial: at steps halved each time, and, where gas cavities formed, at the last of them with more free gas.
type runs struct {
	trial    *trial
	rank     int // place among all trials
	limits   []limit
	grids    []grid // of room for all, so that they stay where they are
	gas      *grid
	pending  int // runs asked for and not done
	finished bool
}

// outcome is the result at the last step with its errors and verdicts, and the targets of accuracy that it misses.
func (r *runs) outcome(s Settings) (*Outcome, []string) {
	o := weigh(r.grids)
	missed := doubts(r.grids, s)
	o.scatter(r.gas, s)
	o.judge(r.limits)
	return o, missed
}

// begin asks for the first runs of a trial: at two steps.
func (p *pool) begin(r *runs) {
	r.grids = make([]grid, 0, p.settings.grids())
	for range min(p.settings.grids(), 2) {
		p.halve(r)
	}
	if r.pending == 0 { // it has failed before it has run
		p.next(r)
	}
}

// next asks for what the runs so far leave to be asked: a third step where two leave doubts, more gas where cavities formed.
func (p *pool) next(r *runs) {
	o, doubts := r.outcome(p.settings)
	switch {
	case r.gas != nil || o.Failed != "":
	case len(r.grids) < p.settings.grids() && len(r.grids) > 1 && (len(doubts) > 0 || o.unsure()):
		p.halve(r)
		return
	case o.cavities() && r.trial.cavities == moc.GasCavity && p.settings.grids() > 1:
		r.gas = &grid{}
		p.add(r, moc.Settings{Halvings: len(r.grids) - 1, GasFraction: moreGas}, r.gas)
		return
	}
	r.finished = true
}

// halve asks for a run at half the last step.
func (p *pool) halve(r *runs) {
	n := len(r.grids)
	r.grids = append(r.grids, grid{})
	p.add(r, moc.Settings{Halvings: n}, &r.grids[n])
}
