//go:build !amd64 || purego

package kernel

func fastest() form { return scalar }
