package main

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/choice"
)

const valvesHelp = `List the types of check valves that the catalogue knows, or print every value that
it has for one of them: with its unit, where it comes from, and by how much a
real valve may differ. The fluid is water at 15 °C.

The pipe at the valve is level, or leads straight up or down in the direction of
the flow, or rises at an angle: --slope "30 deg".`

// valves lists the families of the catalogue, or the data of one.
func (p *program) valves() *cobra.Command {
	var nominal, slope string
	cmd := &cobra.Command{
		Use:   "valves [TYPE]",
		Short: "List the types of check valves and their data",
		Long:  valvesHelp,
		Example: lines(
			"seatwise valves",
			"seatwise valves swing --size DN300",
			"seatwise valves axial spring --size DN100 --slope up --units us",
		),
		RunE: func(_ *cobra.Command, args []string) error {
			system, err := p.system()
			if err != nil {
				return err
			}
			c := &shelf{program: p, system: system}
			if c.bore, err = nominalBore(nominal); err != nil {
				return err
			}
			if !(c.bore >= catalogue.SmallestSize && c.bore <= catalogue.LargestSize) {
				return badInput(fmt.Sprintf("it has DN%.0f to DN%.0f", 1e3*catalogue.SmallestSize, 1e3*catalogue.LargestSize), "the catalogue has no %s", nominal)
			}
			if c.slope, err = pipeSlope(slope); err != nil {
				return err
			}
			water, err := fluid.Water(288.15, 101325)
			if err != nil {
				return err
			}
			c.density = water.Density
			if len(args) == 0 {
				return c.list()
			}
			f, err := familyNamed(strings.Join(args, " "))
			if err != nil {
				return err
			}
			return c.show(f)
		},
	}
	cmd.Flags().StringVar(&nominal, "size", "DN250", "nominal `size`, e.g. DN300 or 300 mm")
	cmd.Flags().StringVar(&slope, "slope", "level", "`slope` of the pipe at the valve: level, up, down, or an angle, positive where it rises in the direction of the flow")
	complete(cmd, "slope", "level", "up", "down")
	cmd.ValidArgsFunction = cobra.FixedCompletions(familyNames(), cobra.ShellCompDirectiveNoFileComp)
	p.unitFlags(cmd)
	return cmd
}

// shelf is the catalogue at one size and slope.
type shelf struct {
	*program
	system      quantity.System
	bore, slope float64 // m, rad
	density     float64 // kg/m3
}

// lie is how a pipe lies at a valve.
type lie struct {
	word  string
	slope float64 // rad
}

var lies = []lie{{"level", 0}, {"up", math.Pi / 2}, {"down", -math.Pi / 2}}

// pipeSlope reads a slope: a word or an angle.
func pipeSlope(text string) (float64, error) {
	for _, l := range lies {
		if text == l.word {
			return l.slope, nil
		}
	}
	const hint = `write level, up or down, or an angle of -90 to 90 degrees, e.g. --slope "30 deg"`
	q, err := quantity.Parse(text, quantity.Angle)
	if err != nil {
		return 0, badInput(hint, "bad --slope: %w", err)
	}
	if !(math.Abs(q.SI) <= math.Pi/2) {
		return 0, badInput(hint, "bad --slope: a pipe does not lie at %s", text)
	}
	return q.SI, nil
}

// familyNamed is the family of a name.
func familyNamed(name string) (catalogue.Family, error) {
	for _, f := range catalogue.Families() {
		if f.Name == name {
			return f, nil
		}
	}
	hint := "types: " + inLine(familyNames())
	if near := network.Nearest(name, familyNames()); near != "" {
		hint = "did you mean " + near + "?"
	}
	return catalogue.Family{}, badInput(hint, "there is no type of check valve %q", name)
}

// lawless takes the class of an error out of its text.
var lawless = strings.NewReplacer(valve.ErrLaw.Error()+": ", "", catalogue.ErrValue.Error()+": ", "")

func (c *shelf) make(f catalogue.Family, slope float64) (valve.Valve, error) {
	return catalogue.Complete(valve.Spec{Name: f.Name, Type: f.Name, Size: c.bore}, catalogue.Setting{Density: c.density, Gravity: network.Gravity, Slope: slope})
}

// stands are the ways in which the pipe may lie for the generic valve to close by itself; for a valve without generic data there are none to tell.
func (c *shelf) stands(f catalogue.Family) []string {
	list := []string{}
	for _, l := range lies {
		if _, err := c.make(f, l.slope); err == nil {
			list = append(list, l.word)
		}
	}
	return list
}

// list prints all types.
func (c *shelf) list() error {
	t := &table{corner: "type", head: []string{"pipe", "price, of a swing valve", "loss coefficient when open", choice.NewScale(quantity.Velocity, c.system, 1).Label("full-open velocity"), "spread of the data"}}
	var about []string
	all := []familyJSON{}
	for _, f := range catalogue.Families() {
		about = append(about, f.Name+": "+f.Help)
		j := familyJSON{Type: f.Name, Help: f.Help, Needs: f.Needs(), Pipe: c.stands(f)}
		cells := plain("", "", "", "", "")
		v, err := c.make(f, c.slope)
		switch {
		case len(f.Needs()) > 0:
			for i := range cells {
				cells[i].text = "as given"
			}
		case err != nil:
			cells[0].text = inLine(j.Pipe)
		default:
			j.fill(v)
			cells[0].text = inLine(j.Pipe)
			cells[1].text = "none"
			if v.PriceRatio > 0 {
				cells[1].text = fmt.Sprintf("%.2g", v.PriceRatio)
			}
			cells[2].text = fmt.Sprintf("%.3g", v.LossOpen)
			cells[3].text = "none"
			if v.FullOpenVelocity > 0 {
				cells[3].text = fmt.Sprintf("%.2f", c.system.Unit(quantity.Velocity).From(v.FullOpenVelocity))
			}
			cells[4].text = spreads(v)
		}
		t.add(f.Name, cells, "")
		all = append(all, j)
	}
	if c.json {
		return printJSON(c.stdout, shelfJSON{Size: c.bore, Slope: c.slope, Density: c.density, Types: all})
	}
	s := c.screen()
	s.line("%s", s.strong(fmt.Sprintf("Types of check valves, %s, %s", size(c.bore), c.setting())))
	t.print(s)
	s.line("")
	s.paragraph("Pipe: how it may lie for the generic valve to close by itself; up and down are in the direction of the flow. Where a row is empty, the valve does not " +
		"work in the pipe asked for. Full-open velocity: that at which the disc reaches its stop as the flow rises. Spread: by how much a real valve may differ from the generic data, " +
		"least to greatest.")
	s.section("What they are", about)
	s.heading("One of them in full")
	s.line("seatwise valves swing --size DN300")
	return nil
}

// setting says where the valves stand.
func (c *shelf) setting() string {
	where := "in a pipe at " + strings.TrimSpace(quantity.Format(c.slope, quantity.Angle, c.system))
	for _, l := range lies {
		if l.slope == c.slope {
			where = map[string]string{"level": "in a level pipe", "up": "in a pipe straight up", "down": "in a pipe straight down"}[l.word]
		}
	}
	return where + ", water at 15 °C"
}

// spreads are the least and the greatest spread of the data that have one.
func spreads(v valve.Valve) string {
	least, greatest := math.Inf(1), 0.0
	for _, x := range v.Data {
		if x.Spread > 0 {
			least, greatest = min(least, x.Spread), max(greatest, x.Spread)
		}
	}
	switch {
	case greatest == 0:
		return "none"
	case least == greatest:
		return spread(least)
	}
	return fmt.Sprintf("±%.0f to %.0f %%", 100*least, 100*greatest)
}

func spread(x float64) string { return fmt.Sprintf("±%.0f %%", 100*x) }

// show prints all data of one type.
func (c *shelf) show(f catalogue.Family) error {
	if needs := f.Needs(); len(needs) > 0 {
		return badInput(fmt.Sprintf("write a candidate with type: %s and its data; seatwise check prints it in full", f.Name),
			"the catalogue has no data for the type %s: it needs %s", f.Name, inLine(needs))
	}
	v, err := c.make(f, c.slope)
	if err != nil {
		return badInput("it works in these pipes: "+inLine(c.stands(f)), "%s", lawless.Replace(err.Error()))
	}
	if c.json {
		j := familyJSON{Type: f.Name, Help: f.Help, Pipe: c.stands(f)}
		j.fill(v)
		return printJSON(c.stdout, shelfJSON{Size: c.bore, Slope: c.slope, Density: c.density, Types: []familyJSON{j}})
	}
	s := c.screen()
	s.line("%s", s.strong(fmt.Sprintf("%s %s, %s", f.Name, size(c.bore), c.setting())))
	s.paragraph(strings.ToUpper(f.Help[:1]) + f.Help[1:] + ". It works in these pipes: " + inLine(c.stands(f)) + ".")
	s.line("")
	t := &table{corner: "key in a case", head: []string{"value", "spread", "from"}}
	var meanings []string
	for _, x := range v.Data {
		t.add(x.Key, plain(cmp.Or(x.Word, datum(x.Value, x.Unit, c.system)), spreadOf(x), string(x.Origin)), "")
		meaning := x.Key + ": "
		if x.Label != x.Key && x.Label != "" {
			meaning += x.Label + "; "
		}
		meanings = append(meanings, meaning+bareStatus(x))
	}
	t.print(s)
	s.section("What they are, and how well they are known", meanings)
	s.section("Warnings", v.Warnings)
	s.heading("In a case")
	s.line("candidates:")
	s.line("  my-valve: {type: %s, size: %s}    # and any key above, with a value", f.Name, size(c.bore))
	return nil
}

func spreadOf(x valve.Datum) string {
	if x.Spread > 0 {
		return spread(x.Spread)
	}
	return ""
}

// bareStatus is how well a datum is known, without its spread.
func bareStatus(x valve.Datum) string {
	if x.Spread > 0 {
		return strings.TrimSuffix(x.Status, ", "+spread(x.Spread))
	}
	return x.Status
}

// shelfJSON is the catalogue for other programs.
type shelfJSON struct {
	Size    float64      `json:"size_m"`
	Slope   float64      `json:"slope_rad"`
	Density float64      `json:"density_kg_per_m3"`
	Types   []familyJSON `json:"types"`
}

type familyJSON struct {
	Type       string       `json:"type"`
	Help       string       `json:"help"`
	Needs      []string     `json:"needs,omitempty"`
	Pipe       []string     `json:"pipe"`
	PriceRatio float64      `json:"price_ratio,omitempty"`
	Data       []recordJSON `json:"data,omitempty"`
	Warnings   []string     `json:"warnings,omitempty"`
}

type recordJSON struct {
	datumJSON
	Label  string  `json:"label"`
	Origin string  `json:"origin"`
	Word   string  `json:"word,omitempty"`   // where only words have a meaning
	Spread float64 `json:"spread,omitempty"` // a fraction
}

func (j *familyJSON) fill(v valve.Valve) {
	j.PriceRatio, j.Warnings = v.PriceRatio, v.Warnings
	for _, x := range v.Data {
		j.Data = append(j.Data, recordJSON{datumJSON{x.Key, x.Value, x.Unit, bareStatus(x)}, x.Label, string(x.Origin), x.Word, x.Spread})
	}
}
