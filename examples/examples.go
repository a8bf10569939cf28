// Package examples holds case files that run as they stand: lift-station.yaml is the built-in example, short-high-head.yaml a short line
// to a high reservoir with two units and a limit on the anchors of its straight runs, gentle-main.yaml a long main on which the plain swing disc is good
// enough, air-vessel.yaml parallel units with an air vessel at the header, high-point.yaml a main that parts at its summit, two-stations-loop.yaml two
// unequal stations on a ring of mains, plastic-main.yaml a main whose wall creeps, tested-valve.yaml a valve known by test points beside
// generic ones, running-cost.yaml a main on which several valves are good enough and the costs of their life decide. offers holds what makers
// might offer for lift-station. Places and names in them are invented.
package examples

import "embed"

// Files are the case files and the tables beside them.
//
//go:embed *.yaml *.csv offers/*.yaml
var Files embed.FS
