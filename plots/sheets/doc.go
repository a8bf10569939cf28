// Package sheets puts a comparison into a workbook, for an engineer who goes on reckoning or who pastes tables into other documents.
//
// Every number of summary.json is here, stored exact in the reader's units and shown with the decimals that the table on screen has. Histories and
// envelopes are reduced as the figures are: their extremes are kept, so that the greatest value of a column is the one of the run (see reduced). A
// value that does not exist is a text that says so, never an empty cell that counts as 0.
package sheets
