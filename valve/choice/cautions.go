package choice

// Cautions belong on every report.
func Cautions() []string {
	return []string{
		"This output is an aid to a qualified engineer: check it against the codes in force and the maker's tested data.",
		"Generic valve data are common practice, ±40 %.",
		notConservative,
		"Surge protection of hazardous services needs an independent review by licensed practice.",
	}
}

const notConservative = "Single-valued results are not conservative: published comparisons find that static coefficients under-predict the closing time."
