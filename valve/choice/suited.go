package choice

import (
	"strings"

	"seatwise/valve"
	"seatwise/valve/service"
)

// Against are the reasons that the service of a case has against a candidate, whatever its dynamics; none: it may serve.
func (c *Case) Against(spec valve.Spec) []string {
	return c.Service.Against(service.Valve{Type: spec.Type, Damped: spec.Set["damper"] > 0})
}

// unsuited names the candidates that the service rules out.
func (c *Case) unsuited() []string {
	var out []string
	for _, spec := range c.Candidates {
		if reasons := c.Against(spec); len(reasons) > 0 && spec.Failure == valve.Sound {
			out = append(out, spec.Name+": the service rules out the type "+spec.Type+": "+strings.Join(reasons, "; ")+" (common practice)")
		}
	}
	return out
}
