package catalogue

import "seatwise/valve"

var ideal = family{
	Family: Family{
		Name: "ideal",
		Help: "no moving disc: shuts at a given reverse velocity, zero by default; for bounds and for a measured reverse velocity",
		Keys: []Key{
			{"bore", "m", "bore", 0.01, 2},
			{"closes at", "m/s", "reverse velocity at which it shuts", 0, 20},
			{"full-open velocity", "m/s", "velocity from which it counts as fully open; shut and opened by less, it shuts again at less; 0: it does not", 0, 100},
			{"loss when open", "1", "loss coefficient when open", 1e-3, 1e4},
			{"price", "1", "price over that of a swing valve of the same size; 0 when unknown", 0, 1000},
			capacityKey,
		},
	},
	build: func(d *draft) (valve.Valve, error) {
		i := &valve.Ideal{Density: d.setting.Density}
		bore := d.take("bore", d.spec.Size, valve.Default, "nominal size")
		i.ClosesAt = d.take("closes at", 0, valve.Default, "ideal")
		i.FullOpen = d.take("full-open velocity", 0, valve.Default, "shuts at the same reverse velocity each time")
		i.Loss = d.take("loss when open", bySize(d.spec.Size, 0.85, 0.65, 0.60), valve.Default, "as a swing valve")
		if err := i.Check(); err != nil {
			return valve.Valve{}, err
		}
		price := d.take("price", 0, valve.Default, "not for sale")
		return valve.Valve{Bore: bore, Motion: i, Travel: 1, LossOpen: i.Loss, PriceRatio: price}, nil
	},
}
