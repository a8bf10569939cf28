package offers

import (
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// Gap is a datum that an offer does not give.
type Gap struct {
	Key     string
	Label   string
	Decides string       // what hangs on it, in words
	Used    *valve.Datum // the generic value that was used; nil: none
	asked
}

// Question asks for the datum in the units of a system.
func (g Gap) Question(system quantity.System) string {
	unit := g.si
	switch {
	case g.Used != nil && g.Used.Unit == "rad":
		unit = "degrees"
	case system == quantity.US:
		unit = g.us
	}
	return strings.ReplaceAll(g.ask, "@", unit)
}

// asked is a datum that every maker is asked for.
type asked struct {
	key     string
	others  []string // keys that say the same
	decides string
	dynamic bool   // the motion of the disc hangs on it
	ask     string // the question, with @ for the unit
	si, us  string // the unit in either system
}

// sheet is what a data sheet of a check valve holds at least (common practice), of what a run needs.
var sheet = []asked{
	{"moving mass", nil, "closing", true, "What is the mass of all that moves with the disc, without the liquid, in @?", "kg", "lb"},
	{"travel", nil, "closing", true, "What is the travel of the disc from the seat to the stop, in @?", "mm", "in"},
	{"full-open velocity", nil, "closing and flutter", true, "At which least steady velocity does the disc reach its stop, in @, with which liquid and in which position of the pipe was that found?", "m/s", "ft/s"},
	{"cracking pressure", []string{"preload"}, "closing", true, "At which pressure difference does the shut valve open, in @, and what is the rate of its spring?", "mbar", "psi"},
	{"kv", []string{"loss when open", "loss table"}, "head loss", false, "What flow of water passes the open valve at @, and by which standard was that measured (EN 1267 or IEC 60534-2-3)?", "1 bar (Kv, in m3/h)", "1 psi (Cv, in gpm)"},
	{"leakage class", []string{"leak"}, "tightness", false, "Which leakage class has the seat (ISO 5208), and is each valve tested?", "", ""},
	{"pressure class", nil, "strength of the body", false, "Which pressure class has the body (PN)?", "", ""},
	{catalogue.TestPoints, nil, "closing", false, "Please send the measured curve of reverse velocity against deceleration, in @, with size, liquid and position of the valve tested, and how the deceleration was defined.", "m/s and m/s2", "ft/s and ft/s2"},
}

// gives tells whether an offer says a datum or one that says the same.
func gives(s valve.Spec, key string, others ...string) bool {
	return slices.ContainsFunc(append([]string{key}, others...), func(k string) bool {
		if k == catalogue.TestPoints {
			return len(s.Tests) > 0
		}
		_, set := s.Set[k]
		_, table := s.Tables[k]
		return set || table
	})
}

// generic tells whether a datum is of the type of valve rather than of the valve.
func generic(d valve.Datum) bool { return d.Origin == valve.Catalogue || d.Origin == valve.Estimated }

// gaps are what an offer leaves out of the sheet, of what its type has.
func gaps(s valve.Spec, v valve.Valve) []Gap {
	var out []Gap
	for _, a := range sheet {
		if gives(s, a.key, a.others...) {
			continue
		}
		if a.key == "cracking pressure" && unsprung(v) {
			continue // the weight of the disc says it
		}
		g := Gap{Key: a.key, Label: label(a.key), Decides: a.decides, asked: a}
		if d := find(v, a.key); d != nil && generic(*d) {
			g.Used = d
		}
		if a.dynamic && g.Used == nil {
			continue // the type has no such datum, or it follows from what is given
		}
		if a.key == "kv" && g.Used == nil || a.key == catalogue.TestPoints && !has(v, "travel") {
			continue
		}
		out = append(out, g)
	}
	return out
}

// unsprung tells whether nothing but its weight shuts a disc.
func unsprung(v valve.Valve) bool {
	p := find(v, "preload")
	return p != nil && p.Value == 0 && p.Origin == valve.Default
}

func label(key string) string {
	switch key {
	case "kv":
		return "Kv or loss when open"
	case catalogue.TestPoints:
		return "curve of reverse velocity against deceleration"
	case "cracking pressure":
		return "cracking pressure with spring rate"
	}
	return key
}

func has(v valve.Valve, key string) bool { return find(v, key) != nil }

func find(v valve.Valve, key string) *valve.Datum {
	i := slices.IndexFunc(v.Data, func(d valve.Datum) bool { return d.Key == key })
	if i < 0 {
		return nil
	}
	return &v.Data[i]
}

// dynamic are the gaps that decide how the disc closes.
func dynamic(all []Gap) []Gap {
	var out []Gap
	for _, g := range all {
		if g.dynamic {
			out = append(out, g)
		}
	}
	return out
}
