package cost

// UsualUpkeep is the upkeep a year as a fraction of the price, by family: the middle of common practice, swing 2 to 3 %, dual plate 2 to 4 %, tilting
// disc 3 %, nozzle 1 to 2 %, a swing disc with an oil dashpot 5 %. Of other families no figure is at hand: they are taken as a swing valve.
func UsualUpkeep(family string) float64 {
	switch family {
	case "swing dashpot":
		return 0.05
	case "dual plate", "tilting disc", "tilting disc steep":
		return 0.03
	case "nozzle", "nozzle gas":
		return 0.015
	}
	return 0.025
}
