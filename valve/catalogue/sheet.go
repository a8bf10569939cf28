package catalogue

import (
	"fmt"
	"maps"
	"math"

	"seatwise/valve"
)

// TestPoints is the table of deceleration and reverse velocity.
const TestPoints = "test points"

// Keys of a data sheet that stand in place of a datum of the law.
const (
	capacity = "kv"
	cracking = "cracking pressure"
)

var (
	capacityKey = Key{capacity, "m3/s", "flow of water at 1 bar when open (Kv)", 1e-7, 1e3}
	crackingKey = Key{cracking, "Pa", "pressure drop that opens the shut valve", 0, 1e7}
)

// sheet makes a valve, with the data of a data sheet turned into those of the law:
//
//	kv                  zeta_open = 2 dp/(rho v^2), v = Kv/A, dp 1 bar, rho 1000 kg/m3 (valve.ZetaFromKv)
//	cracking pressure   preload + weight(0) + friction = p A_s L
//
// A_s L is that of the law: whatever the family, its shut disc opens at a pressure drop that rises in proportion to the preload, and two
// valves with different preloads tell the line. Both data are put on record when they are not given.
func (f family) sheet(spec valve.Spec, s Setting) (valve.Valve, error) {
	_, byCapacity := spec.Set[capacity]
	pressure, byCracking := spec.Set[cracking]
	for _, both := range []struct {
		given bool
		a, b  string
	}{{byCapacity, capacity, "loss when open"}, {byCapacity, capacity, "loss table"}, {byCracking, cracking, "preload"}} {
		_, set := spec.Set[both.b]
		_, tabled := spec.Tables[both.b]
		if both.given && (set || tabled) {
			return valve.Valve{}, fmt.Errorf("%w: %s and %s say the same; give one of them", ErrValue, both.a, both.b)
		}
	}
	plain := spec
	plain.Set = map[string]float64{}
	maps.Copy(plain.Set, spec.Set)
	maps.DeleteFunc(plain.Set, func(k string, _ float64) bool { return k == capacity || k == cracking })
	if byCapacity {
		bore := spec.Size
		if x, ok := spec.Set["bore"]; ok {
			bore = x
		}
		if plain.Set["loss when open"] = valve.ZetaFromKv(bore, 3600*spec.Set[capacity]); math.IsInf(plain.Set["loss when open"], 0) {
			return valve.Valve{}, fmt.Errorf("%w: kv = %g m3/h leaves no flow through a bore of %.0f mm", ErrValue, 3600*spec.Set[capacity], 1000*bore)
		}
	}
	var v valve.Valve
	var err error
	if byCracking {
		v, err = f.crack(plain, s, pressure)
	} else {
		v, err = f.make(plain, s)
	}
	if err != nil {
		return valve.Valve{}, err
	}
	if _, ok := find(f.Keys, capacity); ok {
		f.enter(&v, capacity, valve.KvFromZeta(v.Bore, v.LossOpen)/3600, byCapacity, "loss when open")
	}
	if _, ok := find(f.Keys, cracking); ok {
		_, opens := v.Motion.Shut()
		f.enter(&v, cracking, opens, byCracking, "preload")
	}
	if len(spec.Tests) > 0 && len(f.Needs()) == 0 {
		v.Warnings = append(v.Warnings, "the test points move no disc: its data are to be fitted to them first, or its type is measured, which closes by them")
	}
	return v, nil
}

// enter puts a datum of the data sheet on record. When it was given, the datum of the law that it stands for was derived; otherwise it is itself.
func (f family) enter(v *valve.Valve, key string, value float64, given bool, stands string) {
	k, _ := find(f.Keys, key)
	d := valve.Datum{Key: key, Label: k.Help, Value: value, Unit: k.Unit, Origin: valve.Estimated, Status: derived + " from the " + stands}
	if given {
		d.Origin, d.Status = valve.Given, "as given"
		for i := range v.Data {
			if v.Data[i].Key == stands {
				v.Data[i].Origin, v.Data[i].Status, v.Data[i].Spread = valve.Estimated, derived+" from the "+key, 0
			}
		}
	}
	v.Data = append(v.Data, d)
}

// crack finds the preload with which the shut valve opens at a pressure drop, Pa.
func (f family) crack(spec valve.Spec, s Setting, pressure float64) (valve.Valve, error) {
	opens := func(preload float64) (valve.Valve, float64, error) {
		spec.Set["preload"] = preload
		v, err := f.make(spec, s)
		if err != nil {
			return v, 0, err
		}
		_, p := v.Motion.Shut()
		return v, p, nil
	}
	// A preload near the one wanted makes a valve, one far from it perhaps not: the disc falls open, or the spring cannot have its rate. The arms of
	// hinged discs are far below one metre.
	area := math.Pi / 4 * spec.Size * spec.Size
	var err error
	for trial := 2 * math.Max(pressure, 1) * area; trial > 1e-4*pressure*area; trial /= 2 {
		var p0, p1 float64
		if _, p0, err = opens(trial); err != nil {
			continue
		}
		if _, p1, err = opens(0.999 * trial); err != nil || p0 == p1 {
			continue
		}
		preload := trial + (pressure-p0)*0.001*trial/(p0-p1)
		if preload < -1e-9*trial {
			return valve.Valve{}, fmt.Errorf("%w: a cracking pressure of %.4g Pa is too low: without any spring the disc opens at %.4g Pa, by its weight and friction",
				ErrValue, pressure, p0-trial*(p0-p1)/(0.001*trial))
		}
		v, p, err := opens(math.Max(0, preload))
		if err == nil && math.Abs(p-pressure) > 1e-6*math.Max(pressure, 1) {
			err = fmt.Errorf("%w: no preload makes the valve open at %.4g Pa", ErrValue, pressure)
		}
		return v, err
	}
	if err == nil {
		err = fmt.Errorf("%w: no preload makes the valve open at %.4g Pa", ErrValue, pressure)
	}
	return valve.Valve{}, err
}
