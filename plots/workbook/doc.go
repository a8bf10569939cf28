// Package workbook writes spreadsheets in the open format Office Open XML (ISO/IEC 29500): a [Book] of sheets, rows of texts and numbers, and charts
// that the reader's program draws from the cells.
//
// A number is stored as it is and shown with as many decimals as it deserves. A text is stored as a text, whatever it begins with: what an engineer
// writes in a case file never becomes a formula. There are no formulas, no macros and no links at all. A book bears the date that it is given and
// never that of the clock: the same calls give the same bytes. Every sheet prints on A4 across, as wide as the page, with its heads repeated.
package workbook
