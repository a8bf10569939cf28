// Package casefile reads a case file, YAML with a unit on every quantity, into a [choice.Case]. It is the only package that knows
// YAML.
//
// A case file is written by an engineer and is read the way it looks. YAML changes meaning silently, so everything with two
// readings is refused with a message of its own: commas in numbers, leading zeros, underscores, text blocks, tabs, a second
// document, anchors, aliases, merges and tags, a key given twice. A byte order mark, CRLF line ends, U+2212 for minus and no-break
// spaces are accepted, for word processors put them in.
//
// Reading goes one way:
//
//	bytes -> source   encoding, characters, size
//	      -> tokens   the traps of YAML
//	      -> node     a tree of mappings, lists and texts that know their line and column
//	      -> sections one reader per section of the file; a key that no reader asks for is unknown
//	      -> Case     checked by network.Validate, whose paths lead back to lines and columns
//
// A fault of syntax ends the reading at once; all other faults are gathered and reported together, as [Errors], in the order of the
// file.
//
// # Paths
//
// A value is named by the keys that lead to it, joined by points, with the number of a row in brackets, from 1:
// "pipes.rising-main.profile[2][1]" is the chainage in the second row of the profile. [Document.With] and `set:` of a scenario take
// such paths.
//
// # Defaults
//
// Whatever the file leaves out and the calculation needs is listed in words in Case.Assumptions, with how far it can be trusted;
// [Document.Origins] says of every value whether it was given, is a default, comes from a catalogue or is an estimate.
//
// # Pressures
//
// Pressures are gauge unless marked absolute ("bar abs", "psia"); an absolute one becomes gauge by taking the atmosphere off:
//
//	p = p_abs - p_atm
//
// Atmosphere and vapour pressure are always absolute.
package casefile
