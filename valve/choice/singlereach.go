package choice

// SingleReach warns of a pipe that the grid takes as one reach.
func SingleReach(pipe string) string {
	return pipe + " is shorter than two reaches of the grid: its liquid and its elasticity count, but waves to and fro in it are not followed"
}
