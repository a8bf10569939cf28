// Command seatwise compares check valves behind a pump: how each candidate's disc closes when the pump trips, what the line then has to
// bear, what each choice costs, and which one to take.
//
// Data flows one way: arguments and case file in, a comparison in SI, tables on standard output and files in a folder out. Units are
// chosen at that last edge. Standard error carries messages and, on a terminal, one line of progress.
//
// Exit codes:
//
//	0    done
//	1    the run failed
//	2    bad input, flags included
//	3    with --strict: no candidate meets the limits
//	130  interrupted
package main
