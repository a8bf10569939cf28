package verify

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"
)

// ErrNoCase is wrapped by the error about a filter that matches nothing.
var ErrNoCase = errors.New("verify: no such case")

// groups are the cases, one function per file.
var groups = []func() []Case{
	waveSpeeds, water, pumpData, inertias, sizing, weights,
	discs, benches, dualPlates,
	leaks, rundown, joukowsky, squareWaves, allievi, junctions, columns, closure, cavities, laboratory, plateaus, slams, coupled,
	surges, damping, forces, starting, merits,
	creeping, money,
}

// All returns every case, from formulas to systems.
func All() []Case {
	var all []Case
	for _, g := range groups {
		all = append(all, g()...)
	}
	return all
}

// Run runs the cases whose ID begins with the filter, or whose layer it names, ignoring case; all when it is empty. Checks come in
// the order of All whatever the number of processors. The error wraps ErrNoCase, or names the case that could not be run.
func Run(ctx context.Context, filter string) ([]Check, error) {
	var cases []Case
	filter = strings.ToLower(strings.TrimSpace(filter))
	for _, c := range All() {
		if strings.HasPrefix(strings.ToLower(c.ID), filter) || string(c.Layer) == filter {
			cases = append(cases, c)
		}
	}
	if len(cases) == 0 {
		return nil, fmt.Errorf("%w %q (name a layer: formula, disc, solver, system; or the beginning of an id, such as A4)", ErrNoCase, filter)
	}
	found, failed := make([][]Check, len(cases)), make([]error, len(cases))
	var work errgroup.Group
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i, c := range cases {
		work.Go(func() error {
			found[i], failed[i] = c.run(ctx)
			return nil
		})
	}
	_ = work.Wait() // the errors are in failed
	return slices.Concat(found...), errors.Join(failed...)
}

// run gives the checks their place.
func (c Case) run(ctx context.Context) ([]Check, error) {
	checks, err := c.Checks(ctx)
	if err != nil {
		return nil, fmt.Errorf("verify: case %s: %w", c.ID, err)
	}
	for i := range checks {
		checks[i].ID, checks[i].Layer, checks[i].Source = fmt.Sprintf("%s.%d", c.ID, i+1), c.Layer, c.Source
	}
	return checks, nil
}
