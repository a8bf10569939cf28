package network

import "strings"

// Nearest returns the candidate that name was most likely meant to be: the one at the least edit distance ignoring case, provided that
// no more than a third of the letters (at least one) differ; "" when none is that near. The first of several equals wins.
func Nearest(name string, candidates []string) string {
	best, least := "", max(1, len([]rune(name))/3)+1
	for _, c := range candidates {
		if d := distance([]rune(strings.ToLower(name)), []rune(strings.ToLower(c)), least); d < least {
			best, least = c, d
		}
	}
	return best
}

// distance is the Levenshtein distance of a and b with the swap of two neighbours counted once, or at least bound when it is not below it.
func distance(a, b []rune, bound int) int {
	if d := len(a) - len(b); d >= bound || -d >= bound {
		return bound
	}
	before, last, this := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		this[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			this[j] = min(last[j]+1, this[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				this[j] = min(this[j], before[j-2]+1)
			}
		}
		before, last, this = last, this, before
	}
	return last[len(b)]
}
