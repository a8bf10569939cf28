package main

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// Definitions of a deceleration that is not constant.
const (
	tangent = "tangent"
	mean    = "mean"
	closing = "closing"
)

var definitions = []string{tangent, mean, closing}

// wanted is what the flags ask of a characteristic.
type wanted struct {
	from, to, definition string
	spread, plain        bool
	decelerations        []float64
}

// complete reads the flags.
func (w *wanted) complete() error {
	var at [2]float64
	for i, f := range []struct{ name, text string }{{"from", w.from}, {"to", w.to}} {
		si, err := strconv.ParseFloat(f.text, 64)
		if err != nil {
			q, err := quantity.Parse(f.text, quantity.Acceleration)
			if err != nil {
				return badInput("write it like 2 or 6 ft/s2", "bad --%s: %w", f.name, err)
			}
			si = q.SI
		}
		at[i] = si
	}
	var err error
	if w.decelerations, err = characteristic.Between(at[0], at[1]); err != nil {
		return badInput("e.g. --from 0.5 --to 50", "bad --from or --to: %w", err)
	}
	if !slices.Contains(definitions, w.definition) {
		return badInput("use "+strings.Join(definitions, ", "), "unknown --definition %q", w.definition)
	}
	return nil
}

// meaning is the definition in words.
func (w *wanted) meaning() string {
	switch w.definition {
	case mean:
		return "mean slope of the velocity from before the trip to zero"
	case closing:
		return "mean slope of the velocity from where the disc begins to close to its seat"
	}
	return choice.OwnMeans
}

func (w *wanted) own() func(context.Context, *choice.Case, *choice.Scenario, choice.Settings) (choice.Value, float64, error) {
	if w.definition == mean {
		return choice.OwnMean
	}
	return choice.Own
}

// with is a valve with one datum set.
func with(spec valve.Spec, key string, value float64) valve.Spec {
	data := maps.Clone(spec.Set)
	if data == nil {
		data = map[string]float64{}
	}
	data[key] = value
	spec.Set = data
	return spec
}

func variedWords(name string, tried, left int) string {
	switch {
	case tried == 0:
		return "In brackets: " + name + " has no generic data to vary."
	case left > 0:
		return fmt.Sprintf("In brackets: %s with one datum varied by its spread, %d ways; of %d no valve can be made.", name, tried, left)
	}
	return fmt.Sprintf("In brackets: %s with one datum varied by its spread, %d ways.", name, tried)
}

// reaches is the width of a band at a point.
func reaches(r characteristic.Range, sc choice.Scale, n *notes) string {
	if math.IsInf(r.Low, 0) {
		return ""
	}
	text := " (" + sc.Text(r.Low) + " to " + sc.Text(r.High) + ")"
	if r.Open {
		text += n.mark("with some of the data the disc never seats")
	}
	return text
}
