package plots

import (
	"math"

	"seatwise/valve/choice"
)

// timeLabel is that of every axis of time.
const timeLabel = "Time from the start of the run (s)"

// span is a stretch of time, s.
type span struct{ from, to float64 }

// eventTime is the first event of any outcome, or the beginning of the series when there is none.
func eventTime(outs []*choice.Outcome) float64 {
	first := math.Inf(1)
	for _, o := range outs {
		if o.EventTime >= 0 && finite(o.EventTime) {
			first = math.Min(first, o.EventTime)
		}
	}
	if math.IsInf(first, 1) {
		return outs[0].Time[0]
	}
	return first
}

// closing is from a little before the event that disturbs the watched valve until the last disc is seated and what follows at once has been
// seen; false when no disc seats. That event is the valve's trip, or the first event where there is none or a disc has moved before it.
func (b *book) closing(scenario int, outs []*choice.Outcome) (span, bool) {
	event, seated := eventTime(outs), math.Inf(-1)
	trip, ok := b.trip(scenario, outs)
	for _, o := range outs {
		if exists(o.Seated) {
			seated = math.Max(seated, o.Seated.SI)
			ok = ok && o.Seated.SI > trip && (!exists(o.ClosingStart) || o.ClosingStart.SI <= 0 || o.ClosingStart.SI >= trip)
		}
	}
	if ok && trip > event {
		event = trip
	}
	if seated <= event {
		return span{}, false
	}
	return clip(outs, span{event - 0.06*(seated-event), seated + 0.45*(seated-event)}), true
}

// withLater lengthens a span over the closings after the first where they govern and come soon: in three times the span.
func withLater(outs []*choice.Outcome, s span) span {
	last := s.to
	for _, o := range outs {
		at, ok := laterGoverns(o)
		if !ok {
			continue
		}
		moments := []float64{at}
		if exists(o.PeakTime) {
			moments = append(moments, o.PeakTime.SI)
		}
		for _, at := range moments {
			if at <= s.from+3*(s.to-s.from) {
				last = math.Max(last, at+0.08*(at-s.from))
			}
		}
	}
	return clip(outs, span{s.from, last})
}

// interesting is from a little before the event until the oscillation of the pressure has fallen for good below a third of its greatest
// departure from where it ends, and every candidate has had its greatest pressure.
func interesting(outs []*choice.Outcome) span {
	event := eventTime(outs)
	greatest := 0.0
	for _, o := range outs {
		p := series(o, pressureKey)
		for i, v := range p {
			if o.Time[i] >= event {
				greatest = math.Max(greatest, math.Abs(v-p[len(p)-1]))
			}
		}
	}
	end := event
	for _, o := range outs {
		p := series(o, pressureKey)
		for i := len(p) - 1; i >= 0 && o.Time[i] > end; i-- {
			if math.Abs(p[i]-p[len(p)-1]) > greatest/3 {
				end = o.Time[i]
			}
		}
		if i, ok := extreme(o.Time, p, span{event, math.Inf(1)}, 1); ok {
			end = math.Max(end, o.Time[i])
		}
	}
	if end <= event { // nothing happens: the whole run
		end = outs[0].Time[len(outs[0].Time)-1]
	}
	length := end - event
	return clip(outs, span{event - 0.04*length, end + 0.1*length})
}

// clip keeps a span within the series.
func clip(outs []*choice.Outcome, s span) span {
	first, last := math.Inf(1), math.Inf(-1)
	for _, o := range outs {
		first = math.Min(first, o.Time[0])
		last = math.Max(last, o.Time[len(o.Time)-1])
	}
	return span{math.Max(s.from, first), math.Min(s.to, last)}
}

// exists tells whether there is a value to draw.
func exists(v choice.Value) bool { return v.Reason == "" && finite(v.SI) }

// extreme is the index of the greatest value of sign*y within a span; false when the span holds none.
func extreme(x, y []float64, s span, sign float64) (int, bool) {
	best := -1
	for i := range y {
		if x[i] >= s.from && x[i] <= s.to && (best < 0 || sign*y[i] > sign*y[best]) {
			best = i
		}
	}
	return best, best >= 0
}
