package casefile

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network"
)

// nearWord is a key that says what another word of the trade says too. Where the key needs telling, meaning is what it does.
type nearWord struct{ key, meaning string }

// nearWords are words that a newcomer writes for keys, by the word. The first of the keys that the section has is meant.
var nearWords = map[string][]nearWord{
	"diameter":            {{key: "bore"}, {key: "size"}},
	"inner diameter":      {{key: "bore"}},
	"inside diameter":     {{key: "bore"}},
	"id":                  {{key: "bore"}},
	"dn":                  {{key: "size"}, {key: "bore"}},
	"nominal size":        {{key: "size"}},
	"thickness":           {{key: "wall"}},
	"wall thickness":      {{key: "wall"}},
	"celerity":            {{key: "wave speed"}},
	"altitude":            {{key: "elevation"}, {key: "level"}},
	"height":              {{key: "elevation"}, {key: "level"}},
	"head":                {{key: "level"}, {key: "rated", meaning: "flow, head and speed stand in it"}},
	"flow":                {{key: "rated", meaning: "flow, head and speed stand in it"}},
	"speed":               {{key: "rated", meaning: "flow, head and speed stand in it"}},
	"gd2":                 {{key: "inertia", meaning: "a quarter of GD2"}},
	"moment of inertia":   {{key: "inertia"}},
	"number":              {{key: "units"}},
	"pumps":               {{key: "units"}, {key: "stations"}},
	"tanks":               {{key: "reservoirs"}},
	"valve":               {{key: "check valve"}, {key: "candidates"}},
	"stop":                {{key: "trip", meaning: "a pump that fails"}},
	"failure":             {{key: "trip", meaning: "a pump that fails"}},
	"power failure":       {{key: "trip", meaning: "a pump that fails"}},
	"close":               {{key: "stroke", meaning: "a throttling valve that moves"}},
	"open":                {{key: "stroke", meaning: "a throttling valve that moves"}},
	"time":                {{key: "at"}, {key: "until"}},
	"duration":            {{key: "until"}, {key: "over"}},
	"interest":            {{key: "discount rate"}},
	"interest rate":       {{key: "discount rate"}},
	"lifetime":            {{key: "years"}},
	"electricity price":   {{key: "energy price"}},
	"maximum pressure":    {{key: "design pressure"}},
	"pressure":            {{key: "design pressure"}},
	"kinematic viscosity": {{key: "viscosity"}},
}

// meant is the hint at the key that an unknown one was most likely meant to be: one spelt nearly so, one of the same meaning, or the only one of
// which it is a word; "" where there is none.
func meant(name string, keys []string) string {
	if near := network.Nearest(name, keys); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	name = strings.ToLower(name)
	for _, w := range nearWords[name] {
		if !slices.Contains(keys, w.key) {
			continue
		}
		hint := fmt.Sprintf("did you mean %q?", w.key)
		if w.meaning != "" {
			hint = fmt.Sprintf("did you mean %q (%s)?", w.key, w.meaning)
		}
		return hint
	}
	var holding []string
	for _, k := range keys {
		if slices.Contains(strings.Fields(k), name) {
			holding = append(holding, k)
		}
	}
	if len(holding) == 1 {
		return fmt.Sprintf("did you mean %q?", holding[0])
	}
	return ""
}
