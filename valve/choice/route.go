package choice

import (
	"math"
	"slices"

	"seatwise/moc"
	"seatwise/network"
)

// route gives the profiles from a valve on: its branch, and the pipes on the shortest way to the reservoir that is farthest by
// that way, or where no pipe leads to a reservoir, to the farthest node.
func route(n *network.Network, r *moc.Result, u *moc.UnitTrace) []Profile {
	byName := map[string]*moc.PipeTrace{}
	for i := range r.Pipes {
		byName[r.Pipes[i].Name] = &r.Pipes[i]
	}
	var out []Profile
	far := 0.0
	add := func(t *moc.PipeTrace, backwards bool) {
		p := profile(t, far, backwards)
		far = p.Chainage[len(p.Chainage)-1]
		out = append(out, p)
	}
	node := ""
	for _, s := range n.Stations {
		if s.Name != u.Station {
			continue
		}
		node = s.To
		if t := byName[moc.Part(s.Name, u.Unit, "branch")]; t != nil {
			add(t, false)
		}
	}
	for _, c := range n.CheckValves {
		if c.Name == u.Station {
			node = c.To
		}
	}
	for _, s := range farthest(n, node, u.Station) {
		if s.pipe >= 0 {
			add(byName[n.Pipes[s.pipe].Name], s.backwards)
		}
	}
	return out
}

// profile is a pipe in the direction of the route, its chainage going on from far.
func profile(t *moc.PipeTrace, far float64, backwards bool) Profile {
	p := Profile{Pipe: t.Name, Elevation: slices.Clone(t.Elevation), Steady: slices.Clone(t.Steady), Lowest: slices.Clone(t.Min), Highest: slices.Clone(t.Max),
		Cavity: slices.Clone(t.MaxCavity)}
	length := t.Chainage[len(t.Chainage)-1]
	for _, x := range t.Chainage {
		if backwards {
			x = length - x
		}
		p.Chainage = append(p.Chainage, far+x)
	}
	if backwards {
		for _, s := range [][]float64{p.Chainage, p.Elevation, p.Steady, p.Lowest, p.Highest, p.Cavity} {
			slices.Reverse(s)
		}
	}
	return p
}

// stretch is one link of a way: a pipe by its index, or -1 for a valve, which has no length.
type stretch struct {
	pipe      int
	backwards bool
	from      string
}

// farthest is the way from a node, by E. W. Dijkstra's method over the pipes and valves but for that one.
func farthest(n *network.Network, start, valve string) []stretch {
	type edge struct {
		to     string
		length float64
		by     stretch
	}
	edges := map[string][]edge{}
	join := func(from, to string, length float64, pipe int) {
		edges[from] = append(edges[from], edge{to, length, stretch{pipe, false, from}})
		edges[to] = append(edges[to], edge{from, length, stretch{pipe, true, to}})
	}
	for i := range n.Pipes {
		join(n.Pipes[i].From, n.Pipes[i].To, n.Pipes[i].Length(), i)
	}
	for _, t := range n.Throttles {
		join(t.From, t.To, 0, -1)
	}
	for _, c := range n.CheckValves {
		if c.Name != valve {
			join(c.From, c.To, 0, -1)
		}
	}
	reservoir := map[string]bool{}
	for _, r := range n.Reservoirs {
		reservoir[r.Name] = true
	}

	dist, via := map[string]float64{start: 0}, map[string]stretch{}
	open, order := map[string]bool{start: true}, []string{start} // order of discovery, so that ties fall the same way every time
	end, best, atReservoir := start, -1.0, false
	for len(open) > 0 {
		node, least := "", math.Inf(1)
		for _, name := range order {
			if open[name] && dist[name] < least {
				node, least = name, dist[name]
			}
		}
		delete(open, node)
		if reservoir[node] != atReservoir && reservoir[node] || reservoir[node] == atReservoir && least > best {
			end, best, atReservoir = node, least, reservoir[node]
		}
		if reservoir[node] && node != start {
			continue // the way ends here
		}
		for _, e := range edges[node] {
			d, seen := dist[e.to]
			if !seen {
				order = append(order, e.to)
			}
			if !seen || open[e.to] && least+e.length < d {
				dist[e.to], via[e.to], open[e.to] = least+e.length, e.by, true
			}
		}
	}
	var way []stretch
	for node := end; node != start; node = way[len(way)-1].from {
		way = append(way, via[node])
	}
	slices.Reverse(way)
	return way
}
