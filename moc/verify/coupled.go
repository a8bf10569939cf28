package verify

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"seatwise/network"
	"seatwise/testdata"
	"seatwise/valve"
)

// reference is testdata/coupled/reference.json.
type reference struct {
	Constants struct {
		Density  float64 `json:"rho_kg_m3"`
		Laminar  float64 `json:"v_lam_m_s"`
		Gravity  float64 `json:"g_m_s2"`
		Wave     float64 `json:"wave_speed_m_s"`
		Header   float64 `json:"header_head_m"`
		Velocity float64 `json:"velocity_start_m_s"`
	} `json:"constants"`
	Laws  map[string]referenceLaw `json:"laws"`
	Cases []referenceCase         `json:"cases"`
	Falls struct {
		Damper struct {
			Coefficient float64 `json:"damping_n_m_s2"`
			Seated      float64 `json:"seated_s"`
			Speed       float64 `json:"disc_speed_closed_form"`
		} `json:"damper"`
		Still []struct {
			Opening float64 `json:"opening"`
			Time    float64 `json:"t_s"`
			Rate    float64 `json:"w_rad_s"`
		} `json:"still_liquid"`
	} `json:"free_fall"`
}

type referenceLaw struct {
	Bore, Travel, Inertia, Arm, Sweep, Contraction, Preload, Rate, Weight, Offset, Dashpot float64

	DashpotSpan float64 `json:"dashpot_span"`

	KappaSeat float64 `json:"kappa_seat"`
	KappaOpen float64 `json:"kappa_open"`
	ZetaOpen  float64 `json:"zeta_open"`
	AlphaRate float64 `json:"alpha_rate"`

	Inclined *inclinedSwing // in place of all the others but bore, arm, travel and zeta_open
}

// inclinedSwing is testdata/coupled/inclined.py: a swing disc by its geometry.
type inclinedSwing struct {
	Disc, Mass, Solid, Liquid, Lean, Contraction float64

	FullOpen float64 `json:"full_open"`
}

type referenceCase struct {
	Name, Column, Law string

	Length    float64 `json:"branch_length_m"`
	Head      float64 `json:"head_start_m"`
	FallRate  float64 `json:"head_fall_rate_m_s"`
	Fall      float64 `json:"head_fall_m"`
	Result    outcome `json:"result"`
	HeldShut  held    `json:"held_shut"`
	histories []history
}

type outcome struct {
	Reversal float64 `json:"reversal_s"`
	Opening  float64 `json:"opening_at_reversal"`
	Seated   float64 `json:"seated_s"`
	Reverse  float64 `json:"reverse_velocity_at_seating_m_s"`
	Speed    float64 `json:"disc_speed_at_seating"`
	Jump     float64 `json:"head_jump_m"`

	Deceleration float64 `json:"deceleration_least_squares_m_s2"`
}

type held struct {
	Peak    float64 `json:"peak_head_m"`
	Reopens float64 `json:"would_reopen_after_s"`
}

// history is one row of reference.csv.
type history struct{ time, velocity, y, head float64 }

// law is the disc of the reference: kappa there refers to the bore area, here to the seat's.
func (l referenceLaw) law(density, gravity, laminar float64) (*valve.Law, error) {
	if s := l.Inclined; s != nil {
		m, err := valve.Swing{
			Body:         valve.Body{Bore: l.Bore, Density: density, Gravity: gravity, LossOpen: l.ZetaOpen, Contraction: s.Contraction},
			DiscDiameter: s.Disc, DiscMass: s.Mass, DiscDensity: s.Solid, LiquidMass: s.Liquid, Arm: l.Arm,
			Travel: l.Travel, SeatAngle: s.Lean, FullOpenVelocity: s.FullOpen,
		}.Law()
		if err == nil {
			m.Laminar = laminar
		}
		return m, err
	}
	return &valve.Law{
		Travel: l.Travel, Inertia: l.Inertia, Area: l.KappaSeat * area(l.Bore), Arm: l.Arm, Density: density,
		Conductance: valve.NewCurtain(l.ZetaOpen, l.Contraction, l.AlphaRate, l.Travel),
		Load:        valve.Polynomial{1, 0, (l.KappaOpen/l.KappaSeat - 1) / (l.Travel * l.Travel)},
		Sweep:       valve.Constant(l.Sweep),
		Weight:      valve.Sine{Amplitude: l.Weight, Phase: l.Offset},
		Preload:     l.Preload, SpringRate: l.Rate, Laminar: laminar,
		Damper: valve.Damper{Coefficient: l.Dashpot, Span: l.DashpotSpan},
	}, nil
}

func readReference() (*reference, error) {
	raw, err := testdata.Coupled.ReadFile("coupled/reference.json")
	if err != nil {
		return nil, err
	}
	var ref reference
	if err := json.Unmarshal(raw, &ref); err != nil {
		return nil, err
	}
	return &ref, ref.readHistories()
}

func (ref *reference) readHistories() error {
	f, err := testdata.Coupled.Open("coupled/reference.csv")
	if err != nil {
		return err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return err
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for i, row := range rows[1:] {
		var x [4]float64
		for k, name := range [...]string{"t_s", "v_m_s", "y", "head_downstream_m"} {
			if x[k], err = strconv.ParseFloat(row[column[name]], 64); err != nil {
				return fmt.Errorf("reference.csv, row %d: %w", i+2, err)
			}
		}
		for c := range ref.Cases {
			if ref.Cases[c].Name == row[column["case"]] {
				ref.Cases[c].histories = append(ref.Cases[c].histories, history{x[0], x[1], x[2], x[3]})
			}
		}
	}
	return nil
}

// run is the case in the program: reservoir that falls, check valve, frictionless branch, reservoir.
func (ref *reference) run(ctx context.Context, c *referenceCase, halvings int) (trace, error) {
	k := ref.Constants
	l := ref.Laws[c.Law]
	m, err := l.law(k.Density, k.Gravity, k.Laminar)
	if err != nil {
		return trace{}, err
	}
	reaches := 5
	if c.Length > 6 {
		reaches = 10
	}
	r := newRig(c.Result.Seated+c.HeldShut.Reopens, reaches)
	r.settings.Halvings = halvings
	r.network.Fluid.Density = k.Density
	r.network.Gravity = k.Gravity
	// The reference prints the starting head to 1e-7 m; this is the same head, that which holds the starting velocity, to rounding.
	head := k.Header + l.ZetaOpen*k.Velocity*math.Hypot(k.Velocity, k.Laminar)/(2*k.Gravity)
	r.falling("suction", network.Level{Time: 0, Head: head}, network.Level{Time: c.Fall / c.FallRate, Head: head - c.Fall})
	r.valve("check-valve", "suction", "outlet", valve.Valve{Name: l.name(), Bore: l.Bore, Density: k.Density, Motion: m, Travel: l.Travel})
	r.pipe("outlet", "header", c.Length, l.Bore, k.Wave, frictionless)
	r.reservoir("header", k.Header)
	return r.run(ctx)
}

func (l referenceLaw) name() string { return fmt.Sprintf("disc of travel %g", l.Travel) }

// measured are the results of a run in the reference's terms.
func (t trace) measured() (outcome, float64, error) {
	u := t.Units[0]
	if len(u.Seatings) == 0 {
		return outcome{}, 0, fmt.Errorf("the disc did not seat within %g s", t.Time[len(t.Time)-1])
	}
	v := t.velocity()
	o := outcome{Seated: u.Seatings[0].Time, Reverse: -u.Seatings[0].Velocity, Speed: -u.Seatings[0].Speed, Jump: u.Seatings[0].Rise}
	for i := 1; i < len(v); i++ {
		if v[i] < 0 {
			f := v[i-1] / (v[i-1] - v[i])
			o.Reversal = t.Time[i-1] + f*(t.Time[i]-t.Time[i-1])
			o.Opening = u.Opening[i-1] + f*(u.Opening[i]-u.Opening[i-1])
			break
		}
	}
	peak := math.Inf(-1)
	for i, x := range t.Time {
		if x > o.Seated {
			peak = math.Max(peak, u.HeadDown[i])
		}
	}
	return o, peak, nil
}

// Errors allowed at five (6 m) or ten (40 m) reaches in the branch. The scheme is at least of first order, so that each halving of the
// step halves them; what is left after three halvings may not exceed an eighth, with a tenth of that for what is not yet asymptotic.
const (
	halvings      = 3
	leftOver      = 1.1 / (1 << halvings)
	coarseTime    = 1e-4 // s
	coarseOpening = 5e-4 // of the travel
	coarseShare   = 1e-3 // of velocities and of the head jump
)

func coupled() []Case {
	const source = "closed-form disc laws with the exact waves of the branch, integrated with event location by SciPy's DOP853: testdata/coupled"
	var cases []Case
	for _, name := range []string{"S-6", "S-40", "A-6", "A-40", "D-6", "I-6"} {
		cases = append(cases, Case{name, System, source, func(ctx context.Context) ([]Check, error) { return coupledChecks(ctx, name) }})
	}
	return append(cases, Case{"S-6-rigid", System, source + " (Radau, rigid column; here a wave speed of 120 km/s)", rigidChecks})
}

// find reads the reference and picks a case.
func find(name string) (*reference, *referenceCase, error) {
	ref, err := readReference()
	if err != nil {
		return nil, nil, err
	}
	for i := range ref.Cases {
		if ref.Cases[i].Name == name {
			return ref, &ref.Cases[i], nil
		}
	}
	return nil, nil, fmt.Errorf("%w %q in the reference", ErrNoCase, name)
}

func coupledChecks(ctx context.Context, name string) ([]Check, error) {
	ref, c, err := find(name)
	if err != nil {
		return nil, err
	}
	want := c.Result
	var got [2]outcome
	var checks []Check
	for i, h := range [...]int{0, halvings} {
		t, err := ref.run(ctx, c, h)
		if err != nil {
			return nil, err
		}
		o, peak, err := t.measured()
		if err != nil {
			return nil, err
		}
		got[i] = o
		share := 1 / float64(int(1)<<h)
		say := func(q string) string { return fmt.Sprintf("%s, step %.3g ms", q, 1e3*t.Numerics.Step) }
		checks = append(checks,
			within(say("flow reversal"), "s", want.Reversal, o.Reversal, share*coarseTime),
			within(say("opening at reversal"), "1", want.Opening, o.Opening, share*coarseOpening),
			within(say("seating"), "s", want.Seated, o.Seated, share*coarseTime),
			ratio(say("reverse velocity at seating"), "m/s", want.Reverse, o.Reverse, share*coarseShare),
			ratio(say("disc speed at seating"), ref.Laws[c.Law].speedUnit(), want.Speed, o.Speed, share*coarseShare),
			ratio(say("head jump at the downstream face"), "m", want.Jump, o.Jump, share*coarseShare),
			within(say("greatest head at the downstream face before reopening"), "m", c.HeldShut.Peak, peak, ref.flank(c)*t.Numerics.Step),
		)
		if h == halvings {
			checks = append(checks, t.series(ref, c, share)...)
		}
	}
	return append(checks,
		leftError("seating", want.Seated, got[0].Seated, got[1].Seated),
		leftError("opening at reversal", want.Opening, got[0].Opening, got[1].Opening),
	), nil
}

// flank is the rate, m/s, at which the head changes beside its peak: the wave of the decelerating column comes back doubled from the shut disc.
// The peak is an end of that flank and falls between two steps. The deceleration is that at the reversal of flow or, where a dashpot makes the
// end of the closing the harder part, that one reflection before the seat.
func (ref *reference) flank(c *referenceCase) float64 {
	before := c.Result.Seated - 2*c.Length/ref.Constants.Wave
	most := c.Result.Deceleration
	for i, h := range c.histories[1:] {
		if last := c.histories[i]; last.time <= before && before < h.time {
			most = math.Max(most, math.Abs(h.velocity-last.velocity)/(h.time-last.time))
		}
	}
	return 2 * ref.Constants.Wave / ref.Constants.Gravity * most
}

func (l referenceLaw) speedUnit() string {
	if l.Arm == 1 {
		return "m/s"
	}
	return "rad/s"
}

// leftError is the order of convergence: the share of the error that is left after all halvings.
func leftError(quantity string, want, coarse, fine float64) Check {
	return within("error of "+quantity+" after three halvings of the step, over the error before", "1", 0, math.Abs(fine-want)/math.Abs(coarse-want), leftOver)
}

// series are the rows of the reference up to the seating, the greatest deviation of each column.
func (t trace) series(ref *reference, c *referenceCase, share float64) []Check {
	u := t.Units[0]
	v, l := t.velocity(), ref.Laws[c.Law]
	var dv, dy, dh float64
	rows := 0
	for _, h := range c.histories {
		n := h.time / t.Numerics.Step
		i := int(math.Round(n))
		if math.Abs(n-float64(i)) > 1e-5 || h.time >= c.Result.Seated {
			continue
		}
		rows++
		dv = math.Max(dv, math.Abs(v[i]-h.velocity))
		dy = math.Max(dy, math.Abs(u.Opening[i]-h.y/l.Travel))
		dh = math.Max(dh, math.Abs(u.HeadDown[i]-h.head))
	}
	say := func(q string) string {
		return fmt.Sprintf("greatest deviation of %s at %d instants before seating", q, rows)
	}
	return []Check{
		within(say("velocity"), "m/s", 0, dv, share*coarseShare*ref.Constants.Velocity),
		within(say("opening"), "1", 0, dy, share*coarseOpening),
		within(say("head at the downstream face"), "m", 0, dh, share*coarseShare*ref.Constants.Header),
	}
}

// rigidChecks approach the rigid column by a wave speed a hundred times that of the other cases, at which the branch answers in 0.1 ms.
func rigidChecks(ctx context.Context) ([]Check, error) {
	ref, c, err := find("S-6-rigid")
	if err != nil {
		return nil, err
	}
	ref.Constants.Wave *= 100
	c.HeldShut.Reopens = 1e-3
	t, err := ref.run(ctx, c, 0)
	if err != nil {
		return nil, err
	}
	o, _, err := t.measured()
	if err != nil {
		return nil, err
	}
	want := c.Result
	return []Check{
		ratio("flow reversal", "s", want.Reversal, o.Reversal, 1e-3),
		ratio("opening at reversal", "1", want.Opening, o.Opening, 1e-3),
		ratio("seating", "s", want.Seated, o.Seated, 1e-3),
		ratio("reverse velocity at seating", "m/s", want.Reverse, o.Reverse, 1e-3),
		ratio("disc speed at seating", "rad/s", want.Speed, o.Speed, 1e-3),
	}, nil
}
