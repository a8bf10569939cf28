package casefile

import (
	"path"
	"strings"
)

// Text is a text that a case was read from.
type Text struct{ Name, Text string }

// Sources are the case file, the values that were set in place of its own, and the files that it names, in the order of reading. The case has to be
// without faults.
func (d *Document) Sources() []Text {
	out := []Text{{path.Base(strings.ReplaceAll(d.src.name, `\`, "/")), string(d.raw)}}
	for _, o := range d.overrides {
		out = append(out, Text{"set", o.path + "=" + o.value})
	}
	return append(out, d.reading().sources...)
}
