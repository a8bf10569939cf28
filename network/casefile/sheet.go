package casefile

import (
	"fmt"
	"strconv"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// Valves are the check valves of the document, candidates first, and the setting of a test bench: level pipe, the liquid of the section fluid, or
// water at 20 °C where there is none. A case serves as well as a file with format, candidates and nothing else: no other section is read. An
// error is of type [Errors].
func (d *Document) Valves() ([]valve.Spec, catalogue.Setting, error) {
	r := d.reader()
	root := &section{r: r, node: d.root, at: &node{src: d.src, line: 1, column: 1}}
	r.format(root)
	in := catalogue.Setting{Gravity: network.Gravity}
	r.surroundings(root)
	if root.has("fluid") {
		in.Density = r.liquid(root).Density
	} else if f, _, err := liquidWater(waterTemperature, r.atmosphere); err == nil {
		in.Density = f.Density
	}
	if !root.has("valves") {
		root.need("candidates", "{name: {type: swing, size: DN250}}")
	}
	valves := r.valves(root, "valves", nil)
	compared := r.valves(root, candidates, valves)
	r.uniqueValves(d.root, compared, valves)
	if err := r.errs.sorted(d.src.name).orNil(); err != nil {
		return nil, in, err
	}
	return append(compared, valves...), in, nil
}

// Candidate writes a check valve as it stands below candidates, two blanks deep, with six significant digits. A remark goes above it.
func Candidate(spec valve.Spec, remark string) string {
	var b strings.Builder
	if remark != "" {
		fmt.Fprintf(&b, "  # %s\n", remark)
	}
	fmt.Fprintf(&b, "  %s:\n    type: %s\n    size: %s\n", spec.Name, spec.Type, written(spec.Size, "m"))
	for _, f := range catalogue.Families() {
		if f.Name != spec.Type {
			continue
		}
		for _, k := range f.Keys {
			if x, ok := spec.Set[k.Name]; ok {
				text := written(x, k.Unit)
				if k.Named() {
					text = k.Word(x)
				}
				fmt.Fprintf(&b, "    %s: %s\n", k.Name, text)
			}
		}
		for _, t := range f.Tables {
			var rows []string
			for i, y := range spec.Tables[t].Opening {
				rows = append(rows, fmt.Sprintf("[%s, %s]", written(y, "1"), written(spec.Tables[t].Value[i], "1")))
			}
			if t == catalogue.TestPoints {
				for _, p := range spec.Tests {
					rows = append(rows, fmt.Sprintf("[%s, %s]", written(p.Deceleration, "m/s2"), written(p.ReverseVelocity, "m/s")))
				}
			}
			if len(rows) > 0 {
				fmt.Fprintf(&b, "    %s: [%s]\n", t, strings.Join(rows, ", "))
			}
		}
	}
	return b.String()
}

// written is a value of an SI unit as a case file gives it.
func written(x float64, unit string) string {
	if d, ok := quantity.Measured(unit); ok {
		u := quantity.SI.Unit(d)
		switch d {
		case quantity.Length:
			u, _ = quantity.ParseUnit("mm", d)
		case quantity.Force:
			u, _ = quantity.ParseUnit("N", d)
		}
		x, unit = u.From(x), u.Symbol
	}
	if rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64); err == nil {
		x = rounded
	}
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if unit == "1" || unit == "" {
		return text
	}
	return text + " " + unit
}
