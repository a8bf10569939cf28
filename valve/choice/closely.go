package choice

import (
	"fmt"
	"strings"
)

// closely says how many limits are met within the numerical error, and how many narrowly; "" when none is, else it begins with lead.
func (x *standing) closely(lead string) string {
	var parts []string
	count := func(how string, keep func(Verdict) bool) {
		switch n := len(x.worst(keep)); {
		case n == 1:
			parts = append(parts, "one of them "+how)
		case n > 1:
			parts = append(parts, fmt.Sprintf("%d of them %s", n, how))
		}
	}
	count("within the numerical error", func(v Verdict) bool { return v.Met && v.Unsure })
	count("narrowly", func(v Verdict) bool { return v.Narrow })
	if len(parts) == 0 {
		return ""
	}
	return lead + strings.Join(parts, " and ")
}
