package main

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	valves "seatwise/valve/screen"
)

const screeningHelp = `Tell before any simulation how demanding a case is: from the steady flow and a
quick estimate of the trip, the deceleration that the check valve will see, the
reverse velocity and pressure rise with each type of valve, and which types are
fast enough, worth simulating, too slow, or ruled out by the service. Pressures
along the line, the lowest pressure and forces on anchors are not screened:
compare tells those. Nothing is written. It ends with candidates to paste into
the case.`

// mostCandidates are as many as one comparison shows well.
const mostCandidates = 6

// screening estimates a case.
func (p *program) screening() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "screen [CASE]",
		Short: "Tell which types of check valves are worth simulating",
		Long:  screeningHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise screen my-line.yaml",
			`seatwise screen my-line.yaml --set "service.dirty=yes"`,
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			in, system, err := p.given(args)
			if err != nil {
				return err
			}
			sc, err := valves.Screen(cmd.Context(), in.Case, choice.Settings{Units: system})
			switch {
			case errors.Is(err, valves.ErrNothing):
				return badInput("give the case an event, e.g. events: [{trip: lift, units: 1, at: 1 s}]", "%w", err)
			case err != nil:
				return in.placed(err)
			}
			if p.json {
				return printJSON(p.stdout, screeningJSON(sc, system))
			}
			s := p.screen()
			title(s, in.Case)
			printScreening(s, sc, system)
			name := "my-line.yaml"
			if len(args) > 0 && args[0] != "-" {
				name = args[0]
			}
			s.heading("Next")
			if block := sc.Block(mostCandidates); block != "" {
				s.paragraph("In place of the candidates in the case, which stay if they have data of their own:")
				s.line("candidates:")
				s.line("%s", block[:len(block)-1])
				s.line("")
			}
			if len(args) == 0 {
				s.line("seatwise examples %s > %s", in.Name, name)
			}
			s.line("seatwise compare %s", name)
			return nil
		},
	}
	p.caseFlags(cmd)
	return cmd
}

// printScreening prints sentences and tables.
func printScreening(s *screen, sc *valves.Screening, system quantity.System) {
	s.line("")
	for _, text := range sc.Sentences(system) {
		s.paragraph(text)
	}
	s.heading("Estimate of each trip")
	h := &sheet{corner: "scenario, station"}
	h.column("flow turns back after", quantity.Time)
	h.column("deceleration then", quantity.Acceleration)
	h.column("greatest before", quantity.Acceleration)
	h.column("pump speed", quantity.Fraction)
	var without []string
	for _, d := range sc.Scenarios {
		for _, r := range d.Reversals {
			h.row(fmt.Sprintf("%s, %s (%s)", d.Scenario, r.Station, count(r.Units, "unit")), r.Time, r.Tangent, r.Bound, r.SpeedRatio)
		}
		if d.None != "" {
			without = append(without, "scenario "+d.Scenario+": "+d.None)
		}
	}
	h.print(s, system)
	for _, text := range without {
		s.paragraph("No estimate of " + text + ".")
	}
	s.paragraph("An estimate, no run: the rotor runs down by the pump's own data, the liquid of pump, suction and branch is one rigid column, the pipes answer with their waves. " + valves.Rough)
	s.heading("Types of check valves, " + size(sc.Size) + ", at " + choice.NewScale(quantity.Acceleration, system, sc.Worst.Bound).With(sc.Worst.Bound))
	t := &table{corner: "type", head: valves.Columns(system)}
	for _, group := range sc.Groups() {
		t.add(strings.ToUpper(group[0].Verdict.String()), plain(make([]string, len(t.head))...), "")
		for i := range group {
			t.add(group[i].Name, plain(sc.Cells(&group[i], system)...), "")
		}
	}
	t.print(s)
	s.paragraph(sc.Key(system))
	s.section("Ruled out", sc.Reasons())
	s.heading("Conclusion")
	s.paragraph(sc.Conclusion())
	var warnings []string
	for _, d := range sc.Scenarios {
		warnings = append(warnings, d.Warnings...)
	}
	s.section("Warnings", choice.Unique(warnings))
}

// screenJSON is a screening for other programs: SI, the unit in the key.
type screenJSON struct {
	Case       string         `json:"case"`
	Size       float64        `json:"size_m"`
	Worst      string         `json:"worst_scenario"`
	Demand     string         `json:"demand"`
	Need       float64        `json:"needed_reverse_velocity_m_s"`
	Sentences  []string       `json:"sentences"`
	Trips      []reversalJSON `json:"trips"`
	Families   []screenedJSON `json:"types"`
	Conclusion string         `json:"conclusion"`
	Candidates string         `json:"candidates"`
}

type reversalJSON struct {
	Scenario   string  `json:"scenario"`
	None       string  `json:"none,omitempty"`
	Station    string  `json:"station,omitempty"`
	Units      int     `json:"units,omitempty"`
	Velocity   float64 `json:"initial_velocity_m_s,omitempty"`
	Time       float64 `json:"reversal_after_s,omitempty"`
	Tangent    float64 `json:"deceleration_at_reversal_m_s2,omitempty"`
	Bound      float64 `json:"deceleration_bound_m_s2,omitempty"`
	Header     float64 `json:"header_head_m,omitempty"`
	Before     float64 `json:"header_head_before_m,omitempty"`
	Highest    float64 `json:"header_head_highest_m,omitempty"`
	Pump       float64 `json:"pump_head_m,omitempty"`
	Column     float64 `json:"column_m,omitempty"`
	SpeedRatio float64 `json:"pump_speed_ratio,omitempty"`
	Return     float64 `json:"wave_return_s,omitempty"`
	Held       float64 `json:"deceleration_header_held_m_s2,omitempty"`
	Rigid      float64 `json:"deceleration_rigid_main_m_s2,omitempty"`
	Parted     string  `json:"liquid_parts_at,omitempty"`
}

type screenedJSON struct {
	Name      string   `json:"name"`
	Candidate bool     `json:"candidate"`
	Verdict   string   `json:"verdict"`
	Because   []string `json:"because,omitempty"`
	Reverse   *float64 `json:"reverse_velocity_m_s,omitempty"`
	Low       *float64 `json:"reverse_velocity_low_m_s,omitempty"`
	High      *float64 `json:"reverse_velocity_high_m_s,omitempty"`
	Rise      *float64 `json:"pressure_rise_pa,omitempty"`
	Slam      string   `json:"slam,omitempty"`
	FullOpen  *float64 `json:"full_open_velocity_m_s,omitempty"`
	Margin    *float64 `json:"full_open_margin,omitempty"`
	Price     *float64 `json:"price_ratio,omitempty"`
}

func screeningJSON(sc *valves.Screening, system quantity.System) screenJSON {
	j := screenJSON{Case: sc.Case.Name, Size: sc.Size, Worst: sc.At, Demand: valves.Demanding(sc.Worst.Bound), Need: sc.Need.Velocity, Sentences: sc.Sentences(system), Conclusion: sc.Conclusion(),
		Candidates: cmp.Or(sc.Block(mostCandidates), "none")}
	for _, d := range sc.Scenarios {
		for _, r := range d.Reversals {
			j.Trips = append(j.Trips, reversalJSON{d.Scenario, "", r.Station, r.Units, r.Velocity, r.Time, r.Tangent, r.Bound, r.Header, r.Before, r.Highest, r.Pump, r.Column, r.SpeedRatio,
				r.Main.Return, r.Held, r.Main.Rigid, r.Parted})
		}
		if d.None != "" {
			j.Trips = append(j.Trips, reversalJSON{Scenario: d.Scenario, None: d.None})
		}
	}
	for i := range sc.Families {
		f := &sc.Families[i]
		k := screenedJSON{Name: f.Name, Candidate: f.Candidate, Verdict: f.Verdict.String(), Because: f.Because}
		if f.Made() {
			if f.Seats {
				k.Reverse, k.Rise, k.Slam = &f.Velocity, &f.Rise, sc.Slam(f)
				if !f.Reverse.Open {
					k.Low, k.High = &f.Reverse.Low, &f.Reverse.High
				}
			}
			if f.Margin > 0 {
				k.FullOpen, k.Margin = &f.FullOpenVelocity, &f.Margin
			}
			if f.Price > 0 {
				k.Price = &f.Price
			}
		}
		j.Families = append(j.Families, k)
	}
	return j
}
