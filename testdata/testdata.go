// Package testdata embeds reference values from outside the program.
package testdata

import "embed"

// Coupled holds the disc and liquid references, coupled/reference.json and coupled/reference.csv; coupled/README.md says how they were made.
//
//go:embed coupled/reference.json coupled/reference.csv
var Coupled embed.FS

// DualPlate holds the reference of two unequal plates, dualplate/reference.json; dualplate/README.md says how it was made.
//
//go:embed dualplate/reference.json
var DualPlate []byte
