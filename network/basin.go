package network

import (
	"fmt"
	"math"
)

// unwritten is a checker for data whose written form it does not know.
func unwritten() *checker { return &checker{written: func(string) string { return "" }} }

// areas checks the order of a table of horizontal area against level.
func (c *checker) areas(path string, rows []LevelArea) {
	for i := 1; i < len(rows); i++ {
		if rows[i].Level < rows[i-1].Level {
			c.fault(fmt.Sprintf("%s[%d][1]", path, i+1), "sort the rows by level", "level goes down: %s", c.follows(path, i, rows[i].Level, rows[i-1].Level, "m"))
		}
	}
}

// connection checks that the bore by which a vessel is connected is no wider than its horizontal area, m2; 0: not known.
func (c *checker) connection(bore, area float64, vessel string) {
	if a := math.Pi / 4 * bore * bore; area > 0 && a > area*(1+1e-6) {
		c.fault("connection bore", fmt.Sprintf("give the bore of the connection and the area of the %s", vessel), "the connection has a larger area than the %s", vessel)
	}
}
