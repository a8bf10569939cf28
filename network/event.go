package network

// EventKind tells what an event does.
type EventKind uint8

const (
	Trip   EventKind = iota // cuts the power of running units of a station
	Start                   // starts standing units of a station: the speed rises evenly to the rated one
	Stroke                  // moves a throttling valve evenly to another opening
	Fail                    // check valves of a station, or one that stands alone, stay at an opening from now on
)

var eventWords = [...]string{"trip", "start", "stroke", "fail"}

// String is the word for the event in a case file.
func (k EventKind) String() string {
	if int(k) < len(eventWords) {
		return eventWords[k]
	}
	return "unknown event"
}

// EventKinds are all kinds of events, in order.
func EventKinds() []EventKind { return []EventKind{Trip, Start, Stroke, Fail} }

// Event disturbs the steady state.
type Event struct {
	Kind   EventKind
	Target string  // name of the station, the throttling valve or the check valve that stands alone
	Units  int     // how many units, counted from the first that still runs (trip, fail) or stands (start)
	Time   float64 // s from the start of the run
	Over   float64 // start, stroke: duration, s
	To     float64 // stroke: opening at its end; fail: opening of the disc; fractions of the travel
}
