package offers

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// headLoss is the key of the measure that the loss of the open valve decides.
const headLoss = "head_loss_m"

// steadyPressure is the key of a measure on which the closing has no influence.
const steadyPressure = "steady_pressure_pa"

// answer weighs a verdict by what the data behind it are worth.
func (a *Assessment) answer(o *choice.Outcome, v *choice.Verdict, missing []Gap) (Word, string) {
	data, spread := names(missing), widest(missing)
	turns := o.Turns(*v, spread)
	switch v.Measure {
	case headLoss:
		data = nil
		if loss := find(a.Valve, "loss when open"); loss != nil && generic(*loss) && !gives(a.Spec, "kv", "loss when open", "loss table") {
			data, spread = []string{"Kv or loss when open"}, loss.Spread
			turns = math.Abs(v.Spare()) < spread*v.Value
		}
	case steadyPressure:
		data = nil
	}
	what := strings.Join(data, ", ")
	beyond := "break the limit"
	if v.Asked > 0 {
		beyond = "leave less to spare than is asked for"
	}
	switch {
	case len(data) > 0 && turns:
		return Open, fmt.Sprintf("not given: %s; with generic data (±%.0f %%, common practice) it %s, but with the valve's share of the figure changed by as much it may do otherwise", what, 100*spread, plainly(v.Met))
	case v.Met && v.Unsure:
		return Narrowly, "the bound is nearer than the numerical error"
	case v.Met && v.Narrow:
		return Narrowly, fmt.Sprintf("the valve's share of it %.0f %% greater would %s", 100*choice.GenericSpread, beyond)
	case len(data) > 0 && v.Met:
		return Meets, spreadKept(spread, what)
	case len(data) > 0:
		return Fails, spreadKept(spread, what)
	case v.Met:
		return Meets, ""
	case v.Margin >= 0:
		return Fails, "the limit itself is met, but not with the margin asked for"
	}
	return Fails, ""
}

// spreadKept says what was done for the data that are not given: the valve's share of the figure was changed, not the run repeated.
func spreadKept(spread float64, what string) string {
	return fmt.Sprintf("also with the valve's share of the figure changed by ±%.0f %%, the widest spread of the generic data used for %s; no run was repeated with other data", 100*spread, what)
}

// names are gaps in words.
func names(all []Gap) []string {
	var out []string
	for _, g := range all {
		out = append(out, g.Label)
	}
	return out
}

// widest is the greatest spread of the generic data in the place of gaps; one that the catalogue does not know is that of generic data.
func widest(all []Gap) float64 {
	most := 0.0
	for _, g := range all {
		if g.Used.Spread == 0 {
			return choice.GenericSpread
		}
		most = math.Max(most, g.Used.Spread)
	}
	return most
}

func plainly(met bool) string {
	if met {
		return "meets"
	}
	return "fails"
}

// classKey is the key of the pressure that a body bears by its class, which no run gives.
const classKey = "pressure_class_pa"

// body holds the pressure class of the body against the design pressure: PN n bears n bar at the temperatures of water (common practice; for others see
// EN 1092 or the maker).
func (a *Assessment) body(c *choice.Comparison) {
	design := c.Case.Limits.DesignPressure
	if design == nil {
		return
	}
	out := Compliance{Limit: "design pressure", Measure: choice.Measure{Key: classKey, Label: "pressure class", Dimension: quantity.Pressure}}
	d := find(a.Valve, "pressure class")
	switch {
	case d == nil:
		return
	case !gives(a.Spec, "pressure class"):
		out.Word, out.Because = Open, "not given: pressure class"
	default:
		rated := 1e5 * d.Value
		out.Verdict = &choice.Verdict{Measure: out.Measure.Key, Limit: out.Limit, Value: rated, Bound: *design, Margin: rated - *design, Met: rated >= *design, Time: -1}
		out.Because = fmt.Sprintf("PN %.4g, at the temperature of water", d.Value)
		if !out.Verdict.Met {
			out.Word = Fails
		}
	}
	a.Limits = append(a.Limits, out)
}
