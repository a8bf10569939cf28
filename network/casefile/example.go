package casefile

import "strings"

// examples are values as they are usual, by the last keys of their paths; where there is none, that of the dimension serves.
var examples = map[string]string{
	"note":                    "One unit trips",
	"atmosphere":              "101.325 kPa",
	"valves":                  "own-valves.yaml",
	"dead ends[1]":            "node",
	"fluid.density":           "860 kg/m3",
	"fluid.bulk modulus":      "1.5 GPa",
	"fluid.viscosity":         "9 cSt",
	"fluid.vapour pressure":   "2 kPa abs",
	"curve":                   "[[0 m3/h, 66 m], [430 m3/h, 52 m], [600 m3/h, 39 m]]",
	"specific speed":          "26",
	"running":                 "1",
	"check valve":             "candidate",
	"candidates.zz.valve":     "name",
	"check valves.zz.valve":   "candidate",
	"branch":                  "{length: 6 m, bore: 250 mm, wall: 6.3 mm, material: carbon steel}",
	"modulus":                 "207 GPa",
	"pipes.zz.size":           "DN450 STD",
	"branch.size":             "DN200 STD",
	"wall":                    "9.5 mm",
	"wave speed":              "1100 m/s",
	"gas content":             "0.1 %",
	"friction factor":         "0.015",
	"roughness":               "0.1 mm",
	"bends":                   "[12 m, 40 m]",
	"length":                  "600 m",
	"creep":                   "[[0.15 1/GPa, 0.05 s], [0.2 1/GPa, 5 s]]",
	"kv table":                "[[20 %, 900], [100 %, 12000]]",
	"throttling valves.zz.kv": "12000",
	"loss table":              "[[20 %, 30], [100 %, 0.6]]",
	"load table":              "[[20 %, 6], [100 %, 0.6]]",
	"test points":             "[[3 m/s2, 0.1 m/s], [10 m/s2, 0.4 m/s]]",
	"area table":              "[[141 m, 4 m2], [150 m, 9 m2]]",
	"price amount":            "5200",
	"upkeep":                  "2 %",
	"leakage class":           "C",
	"until":                   "20 s",
	"surge allowance":         "10 %",
	"rule.name":               "own",
	"rule.allowance":          "15 %",
	"minimum pressure":        "-0.5 bar",
	"limits.reverse velocity": "0.3 m/s",
	"pump reverse speed":      "1800 rpm",
	"reverse volume":          "0.05 m3",
	"limits.head loss":        "1.5 m",
	"anchor force":            "400 kN",
	"flow table":              "[[430 m3/h, 6000 h], [300 m3/h, 2000 h]]",
	"trips":                   "6",
	"currency":                "EUR",
	"energy price":            "0.12",
	"price of a swing valve":  "4000",
	"slam damage":             "[[0.15 m/s, 500], [0.30 m/s, 4000]]",
	"economics":               "{currency: EUR, energy price: 0.12}",
	"report":                  "{project: P-1, document: D-1, revision: A, date: 2026-11-25, prepared: AB, checked: CD}",
	"scenarios":               "{all-trip: {events: [{trip: pumps, at: 1 s}]}}",
	"scenarios.zz.set":        "{pipes.rising-main.bore: 600 mm}",
	"elevation":               "102 m",
	"level":                   "104 m",
	"overflow level":          "158 m",
	"bottom level":            "99 m",
	"connection bore":         "300 mm",
	"bore":                    "400 mm",
	"pipe bore":               "600 mm",
	"volume":                  "12 m3",
	"gas volume":              "5 m3",
	"plan area":               "6 m2",
	"set pressure":            "9 bar",
	"burst pressure":          "30 bar",
	"area":                    "50 cm2",
	"inflow area":             "80 cm2",
	"outflow area":            "20 cm2",
	"outlets.zz.flow":         "5 m3/h",
	"pressure":                "1 bar",
	"events[1].to":            "30 %",
}

// exampleOf is the example of a path.
func exampleOf(path string) string {
	for tail := path; ; {
		if text := examples[tail]; text != "" {
			return text
		}
		_, rest, ok := strings.Cut(tail, ".")
		if !ok {
			return ""
		}
		tail = rest
	}
}
