package pipe

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Restraint says how a pipe is held against axial movement.
type Restraint int

const (
	AnchoredThroughout Restraint = iota // no axial movement
	AnchoredUpstream                    // held at the upstream end only
	ExpansionJoints                     // free to move throughout
)

// ErrRestraint is wrapped by the error about an unknown restraint.
var ErrRestraint = errors.New("pipe: unknown restraint")

var restraints = []string{"anchored throughout", "anchored upstream", "expansion joints"}

// String returns the words of a case file.
func (r Restraint) String() string {
	if r < 0 || int(r) >= len(restraints) {
		return fmt.Sprintf("Restraint(%d)", int(r))
	}
	return restraints[r]
}

// ParseRestraint reads the words of a case file, in any letter case. The error
// wraps ErrRestraint and names the nearest words.
func ParseRestraint(s string) (Restraint, error) {
	words := strings.ToLower(strings.Join(strings.Fields(s), " "))
	if i := slices.Index(restraints, words); i >= 0 {
		return Restraint(i), nil
	}
	return 0, fmt.Errorf("%w %q (did you mean %q? one of: %s)",
		ErrRestraint, s, nearest(words, restraints), strings.Join(restraints, ", "))
}

// ThinWall returns c1 of the package comment for a thin wall.
func (r Restraint) ThinWall(poisson float64) float64 {
	switch r {
	case AnchoredUpstream:
		return 1 - poisson/2
	case ExpansionJoints:
		return 1
	default:
		return 1 - poisson*poisson
	}
}

// ThickWall returns c1 of the package comment for a thick wall; bore and wall in m.
func (r Restraint) ThickWall(poisson, bore, wall float64) float64 {
	return 2*wall/bore*(1+poisson) + bore/(bore+wall)*r.ThinWall(poisson)
}

// factor returns c1 of a wall of any thickness.
func (r Restraint) factor(bore, wall, poisson float64) float64 {
	if bore < thinFrom*wall {
		return r.ThickWall(poisson, bore, wall)
	}
	return r.ThinWall(poisson)
}

// nearest returns the candidate with the fewest edits from s.
func nearest(s string, candidates []string) string {
	best, least := "", -1
	for _, c := range candidates {
		if d := edits(s, strings.ToLower(c)); least < 0 || d < least {
			best, least = c, d
		}
	}
	return best
}

// edits returns the number of single-letter changes between a and b
// (Levenshtein); only the first 64 bytes count.
func edits(a, b string) int {
	a, b = a[:min(len(a), 64)], b[:min(len(b), 64)]
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
