package screen

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
	"seatwise/valve/service"
	"seatwise/valve/sizing"
)

// Verdict is what becomes of a family.
type Verdict uint8

// The verdicts, best first.
const (
	Enough   Verdict = iota // each datum varied alone by its spread, its reverse velocity keeps within the need
	Worth                   // by its data it may or may not: worth simulating
	Slow                    // even with the most favourable of these variations it does not
	InVain                  // whatever it does, the line itself breaks the limit on the pressure
	RuledOut                // by the service, or it does not work where it stands
)

// String is the verdict in words.
func (v Verdict) String() string {
	return [...]string{"fast enough", "worth simulating", "too slow", "not enough alone", "ruled out"}[v]
}

// Family is a type of the catalogue in the size of the case, or a candidate with data of its own.
type Family struct {
	Name      string // of the type, or of the candidate
	Candidate bool   // a candidate of the case, with its data
	Spec      valve.Spec
	Verdict   Verdict
	Because   []string // why it is ruled out
	// What follows is there unless it cannot be made.
	Reverse          characteristic.Range // at the worst deceleration, m/s; equal ends: nothing is generic
	Seats            bool                 // in reverse flow or before; else there is no velocity
	Velocity         float64              // by the data as they are, m/s
	Rise             float64              // rho a V_r in the branch, Pa
	RiseHigh         float64              // at the upper end of the band
	FullOpenVelocity float64              // m/s
	Margin           float64              // velocity of the flow over that; 0: it has no disc
	Price            float64              // over that of a plain swing valve; 0: not known
	made             bool
}

// Made tells whether there are figures.
func (f *Family) Made() bool { return f.made }

// Floats tells whether the steady flow does not hold the disc on its stop.
func (f *Family) Floats() bool { return f.made && f.Margin > 0 && f.Margin < sizing.Held }

// yields is by how much the characteristic of a constant deceleration may exceed the reverse velocity of a run, whose column yields to the closing disc
// and slows as the pump turns over: where the liquid does not part, the built-in examples have runs of 0.54 to 1.02 times the characteristic. A type is too
// slow when it exceeds the need by more.
const yields = 2

// bench are settings for a number of steps until the flow turns, and for no step above 0.1 s. 200 steps, and 25 for the variations of a valve's data, give the
// reverse velocity within 3 % or 5 mm/s.
func bench(v valve.Valve, deceleration float64, steps float64) characteristic.Settings {
	return characteristic.Settings{Step: math.Min(0.1, math.Max(v.FullOpenVelocity, 0.1)/deceleration/steps)}
}

// families judges every type of the catalogue and every candidate with data of its own.
func (s *Screening) families(ctx context.Context) error {
	for _, f := range catalogue.Families() {
		if len(f.Needs()) > 0 || f.Name == "ideal" {
			continue
		}
		s.Families = append(s.Families, Family{Name: f.Name, Spec: valve.Spec{Name: f.Name, Type: f.Name, Size: s.Size}, Because: s.Case.Service.Against(service.Valve{Type: f.Name})})
	}
	for _, spec := range s.own() {
		s.Families = append(s.Families, Family{Name: spec.Name, Spec: spec, Candidate: true, Because: s.Case.Against(spec)})
	}
	var all errgroup.Group
	all.SetLimit(runtime.GOMAXPROCS(0))
	for i := range s.Families {
		all.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			s.judge(&s.Families[i])
			return nil
		})
	}
	if err := all.Wait(); err != nil {
		return err
	}
	slices.SortStableFunc(s.Families, func(a, b Family) int {
		return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), cmp.Compare(a.rank(), b.rank()), cmp.Compare(price(a), price(b)), cmp.Compare(a.Velocity, b.Velocity))
	})
	return nil
}

// rank puts valves that the flow does not hold open behind the others of their verdict.
func (f *Family) rank() int {
	if f.Floats() {
		return 1
	}
	return 0
}

func price(f Family) float64 {
	if f.Price == 0 {
		return math.Inf(1)
	}
	return f.Price
}

// judge holds a valve against the worst deceleration and the need.
func (s *Screening) judge(f *Family) {
	spec := f.Spec
	if spec.Type == "nozzle gas" {
		f.Because = append(f.Because, "its weak spring is made for gas, and this is a liquid; compressors are not modelled")
	}
	var v valve.Valve
	for i := range s.Case.Scenarios {
		sc := &s.Case.Scenarios[i]
		in, err := choice.Install(s.Case, sc, spec)
		if err == nil {
			err = in.Unfit
		}
		if err != nil {
			f.Because = append(f.Because, lawless(err))
			break
		}
		if sc.Name == s.At || i == 0 {
			for k := range sc.Network.Stations {
				if sc.Network.Stations[k].Name == s.Worst.Station {
					v, f.made = in.Valves[k], true
				}
			}
		}
	}
	if !f.made {
		f.Verdict = RuledOut
		return
	}
	remake := func(key string, value float64) (valve.Valve, error) {
		changed := spec
		changed.Set = map[string]float64{}
		for k, x := range spec.Set {
			changed.Set[k] = x
		}
		changed.Set[key] = value
		return catalogue.Complete(changed, s.setting())
	}
	at := characteristic.At(v, s.Worst.Bound, bench(v, s.Worst.Bound, 200))
	varied := v
	varied.Data = slices.DeleteFunc(slices.Clone(v.Data), afterwards)
	band, _, _ := characteristic.Band(varied, []characteristic.Point{at}, bench(v, s.Worst.Bound, 25), remake)
	f.Reverse, f.Velocity, f.FullOpenVelocity, f.Price = band[0], at.ReverseVelocity, v.FullOpenVelocity, v.PriceRatio
	f.Seats = at.Outcome == characteristic.Seats
	if !f.Seats {
		f.Because = append(f.Because, "its disc "+at.Outcome.String()+" at this deceleration")
	}
	f.Rise, f.RiseHigh = s.rise(f.Velocity), s.rise(f.Reverse.High)
	if least := s.least(); v.FullOpenVelocity > 0 && !math.IsInf(least, 0) {
		f.Margin = least / v.FullOpenVelocity
	}
	switch {
	case len(f.Because) > 0:
		f.Verdict = RuledOut
	case s.Need.beyond():
		f.Verdict = InVain
	case f.Reverse.High <= s.Need.Velocity && !f.Reverse.Open:
		f.Verdict = Enough
	case f.Reverse.Low > yields*s.Need.Velocity:
		f.Verdict = Slow
	default:
		f.Verdict = Worth
	}
}

// afterwards tells whether a datum acts only once the disc has touched its seat, or is no part of the motion.
func afterwards(d valve.Datum) bool {
	return d.Key == "restitution" || d.Key == "price"
}

// setting is where the worst valve stands.
func (s *Screening) setting() catalogue.Setting {
	for i := range s.Case.Scenarios {
		sc := &s.Case.Scenarios[i]
		for k := range sc.Network.Stations {
			if st := &sc.Network.Stations[k]; sc.Name == s.At && st.Name == s.Worst.Station {
				return catalogue.Setting{Density: sc.Network.Fluid.Density, Gravity: sc.Network.G(), Slope: st.Slope}
			}
		}
	}
	panic("screen: the worst station is in no scenario")
}

// lawless is an error in words for an engineer.
func lawless(err error) string {
	return strings.NewReplacer(valve.ErrLaw.Error()+": ", "", catalogue.ErrValue.Error()+": ", "").Replace(err.Error())
}

// Candidates are the valves to simulate next, the cheapest first: what is fast enough and what is worth simulating and held open by the flow, at most so
// many.
func (s *Screening) Candidates(most int) []Family {
	var out []Family
	for _, f := range s.Families {
		if f.Verdict <= Worth && !f.Floats() && len(out) < most {
			out = append(out, f)
		}
	}
	return out
}

// nominal is a size as a case file takes it.
func nominal(size float64) string {
	if mm := 1000 * size; math.Abs(mm-math.Round(mm)) > 1e-6 {
		return fmt.Sprintf("%.5g mm", mm)
	}
	return fmt.Sprintf("DN%.0f", 1000*size)
}

// Block is a section candidates of a case with them, ready to paste; "" where there are none.
func (s *Screening) Block(most int) string {
	var b strings.Builder
	for _, f := range s.Candidates(most) {
		if !f.Candidate {
			fmt.Fprintf(&b, "  %s: {type: %s, size: %s}\n", strings.ReplaceAll(f.Name, " ", "-"), f.Name, nominal(s.Size))
		}
	}
	return b.String()
}
