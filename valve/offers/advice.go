package offers

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/valve/choice"
)

// cost is what an offer is weighed by: its present value where the case has economics, else its price.
func (e *Evaluation) cost(a *Assessment) choice.Value {
	switch {
	case e.byPresent():
		return a.Present
	case a.Price != nil:
		return choice.Value{SI: *a.Price}
	}
	return choice.Value{Reason: "no price given"}
}

// byPresent tells whether the present values of the offers are known.
func (e *Evaluation) byPresent() bool {
	return slices.ContainsFunc(e.Offers, func(a Assessment) bool { return a.Present.Reason == "" })
}

// advise says which offer to take, and which are to be asked first.
func (e *Evaluation) advise() {
	what := "price"
	if e.byPresent() {
		what = "present value of all costs"
	}
	var take *Assessment
	var fit, open, failing []string
	for i := range e.Offers {
		a := &e.Offers[i]
		switch a.Word() {
		case Meets, Narrowly:
			fit = append(fit, a.Name)
			if c := e.cost(a); c.Reason == "" && (take == nil || c.SI < e.cost(take).SI) {
				take = a
			}
		case Open:
			open = append(open, a.Name)
		case Fails:
			failing = append(failing, a.Name)
		}
	}
	judged := slices.ContainsFunc(e.Offers, func(a Assessment) bool { return len(a.Limits) > 0 })
	switch {
	case !judged:
		e.Advice = append(e.Advice, "No offer can be taken, as no limits are given: give at least a design pressure or a reverse velocity in the case.")
		return
	case take != nil:
		text := fmt.Sprintf("Take %s (%s): of the offers that meet every limit it has the least %s, %s.", take.Name, take.Maker, what, e.Money(e.cost(take).SI))
		if take.Word() == Narrowly {
			text += " It meets a limit only narrowly: get the tolerances of its data guaranteed."
		}
		if missing := dynamic(take.Gaps); len(missing) > 0 {
			text += " That rests on generic data: have the maker confirm, before the order, " + inWords(names(missing)) + "."
		}
		e.Advice = append(e.Advice, text)
	case len(fit) > 0:
		e.Advice = append(e.Advice, "Every limit is met by "+inWords(fit)+"; without a price none can be put before the other.")
	default:
		e.Advice = append(e.Advice, "No offer can be taken as it stands.")
	}
	for i := range e.Offers {
		a := &e.Offers[i]
		if take == nil || a == take || !slices.Contains(fit, a.Name) {
			continue
		}
		text := a.Name + " meets every limit too, but has no " + what + "."
		if c := e.cost(a); c.Reason == "" {
			text = fmt.Sprintf("%s meets every limit too, at %s.", a.Name, e.Money(c.SI))
		}
		if a.Word() == Narrowly {
			text += " It meets a limit only narrowly."
		}
		e.Advice = append(e.Advice, text)
	}
	if len(open) > 0 {
		text := "Cannot be judged before the questions are answered: " + inWords(open) + "."
		for i := range e.Offers {
			if a := &e.Offers[i]; take != nil && slices.Contains(open, a.Name) && e.cost(a).Reason == "" && e.cost(a).SI < e.cost(take).SI {
				text += fmt.Sprintf(" %s would cost less, %s.", a.Name, e.Money(e.cost(a).SI))
			}
		}
		e.Advice = append(e.Advice, text)
	}
	if len(failing) > 0 {
		e.Advice = append(e.Advice, "Breaks a limit: "+inWords(failing)+".")
	}
}

// Money is an amount in the currency of the evaluation.
func (e *Evaluation) Money(x float64) string {
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", x, e.Currency))
}

func inWords(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
