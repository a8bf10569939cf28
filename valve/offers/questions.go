package offers

import (
	"fmt"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// commercial are the gaps that no run needs.
func (a *Assessment) commercial(currency string) []Gap {
	var out []Gap
	if a.Price == nil {
		text := "What is the price of one valve"
		if currency != "" {
			text += ", in " + currency
		}
		out = append(out, Gap{Key: "price amount", Label: "price", Decides: "cost", asked: asked{ask: text + "?"}})
	}
	if a.Delivery == "" {
		out = append(out, Gap{Key: "delivery", Label: "delivery", Decides: "schedule", asked: asked{ask: "How long is the delivery from the order?"}})
	}
	return out
}

// enough is the margin of the velocity over the full-open velocity from which a disc rests on its stop (common practice).
const enough = 1.2

// ask makes the questions to send back: what is missing, and what the run found.
func (a *Assessment) ask(c *choice.Comparison, i int, system quantity.System) {
	for _, g := range a.Gaps {
		a.Questions = append(a.Questions, g.Question(system))
	}
	var broken, narrow []string
	for _, l := range a.Limits {
		if l.Verdict == nil || l.Word != Fails && l.Word != Narrowly {
			continue
		}
		switch said := l.said(system); {
		case l.Word == Narrowly:
			narrow = append(narrow, said)
		case l.Measure.Key == classKey:
			a.Questions = append(a.Questions, "The "+said+". Can you offer a higher class?")
		case l.Measure.Key == headLoss:
			a.Questions = append(a.Questions, "By our calculation the "+said+". Can you offer a larger size, or a body of less loss?")
		case l.Measure.Key == steadyPressure:
			a.Questions = append(a.Questions, "In steady flow the "+said+". Please confirm the pressure that the body may bear.")
		default:
			broken = append(broken, said)
		}
	}
	if len(broken) > 0 {
		a.Questions = append(a.Questions, "By our calculation the "+strings.Join(broken, ", the ")+". Can you offer the valve with a stronger spring, a shorter travel or a damper, or show by a test that it does better?")
	}
	if len(narrow) > 0 {
		a.Questions = append(a.Questions, "By our calculation the "+strings.Join(narrow, ", the ")+": a narrow margin. Within which tolerances do you guarantee the data of the disc and its spring?")
	}
	o := &c.Scenarios[0].Outcomes[i]
	if m := o.OpenMargin; m.Reason == "" && o.InitialVelocity.Reason == "" && m.SI < enough && a.Valve.FullOpenVelocity > 0 {
		sc := choice.NewScale(quantity.Velocity, system, a.Valve.FullOpenVelocity)
		a.Questions = append(a.Questions, fmt.Sprintf("The velocity in service is %s, the full-open velocity %s%s: the disc has little or no margin to rest on its stop. Can the valve be fully open at %s?",
			sc.With(o.InitialVelocity.SI), sc.With(a.Valve.FullOpenVelocity), a.origin("full-open velocity"), sc.With(o.InitialVelocity.SI/enough)))
	}
}

// origin says that a datum is not the maker's.
func (a *Assessment) origin(key string) string {
	if gives(a.Spec, key) {
		return ""
	}
	return " (generic, as you give none)"
}

// said is the value of a limit beside its bound.
func (l *Compliance) said(system quantity.System) string {
	v := l.Verdict
	sc := choice.NewScale(l.Measure.Dimension, system, v.Value, v.Bound).Apart(v.Value, v.Bound)
	text := fmt.Sprintf("%s is %s, with a limit of %s", l.Measure.Label, sc.With(v.Value), sc.With(v.Bound))
	if v.Asked > 0 {
		text += " and " + strings.TrimSpace(sc.Difference(v.Bound, v.Bound+v.Asked)+" "+sc.Name()) + " to spare asked for"
	}
	return text
}
