package moc

// Observer sees a run step by step, at full rate, where the histories of a long run hold a part of the steps only. A run goes back to where it last
// saved when vapour appears, and so does its observer. The calls come one after the other; none of the slices may be kept.
type Observer interface {
	// Begin tells the time step, s, and the units in the order of all later calls; their series are empty.
	Begin(step float64, units []UnitTrace)
	// Seated tells of a disc that arrived on its seat; it goes before the Step that ends the time step in which it did.
	Seated(unit int, s Seating)
	// Step tells the state at the end of a time step, s, and the forces on the straight runs, N, in the order of the result; the first call is of the
	// steady flow at 0.
	Step(now float64, units []UnitState, forces []float64)
	// Save is called every [StepsBetweenSaves] steps or sooner, Restore when the run goes back to the last Save.
	Save()
	Restore()
}

// UnitState is a unit at one moment; the series of [UnitTrace] are made of these.
type UnitState struct {
	Flow, Opening, Drop, HeadUp, HeadDown, Speed, Power float64
}

// StepsBetweenSaves is how far a run goes back at the most.
const StepsBetweenSaves = checkpointEvery

// HeadObserver is an [Observer] that wants the heads along the pipes too, which takes time in every step.
type HeadObserver interface {
	Observer
	// Along comes after Begin and tells the pipes in the order of all later calls, those of [Result]; of their series they have the profile alone.
	Along(pipes []PipeTrace)
	// Heads tells the heads at the nodes of one pipe at the end of a time step, m; it comes after Step for every pipe.
	Heads(now float64, pipe int, heads []float64)
}

// silent observes nothing.
type silent struct{}

func (silent) Begin(float64, []UnitTrace)           {}
func (silent) Seated(int, Seating)                  {}
func (silent) Step(float64, []UnitState, []float64) {}
func (silent) Save()                                {}
func (silent) Restore()                             {}
