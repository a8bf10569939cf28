//go:build !amd64 || purego

package kernel

func fastestDecay() decay { return scalarDecay }
