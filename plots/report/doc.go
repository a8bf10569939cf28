// Package report makes the design report of a comparison: what an engineer puts before a manager, a checker and an authority.
//
// A report is a [Document]: sections of paragraphs, lists, tables and figures, without any layout. [Build] makes it from a comparison, and a writer
// renders it. [HTML] gives one file that needs no other, has no script and prints on A4 and Letter; [PDF] gives A4 with the typefaces inside. Numbers are those of the comparison, in one unit and with one
// number of decimals to a row, as in the table on screen; so they are those of summary.json, rounded.
//
// The page for the checker holds the governing numbers against calculations that a pocket calculator can repeat (see handCalculations). They are not
// expected to agree: each says why it differs.
//
// A report bears no date but that of the case: the same case and the same program give the same bytes.
package report
