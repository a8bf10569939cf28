package pipe

import "strings"

// Material holds the properties of a pipe wall.
type Material struct {
	Name      string
	Young     float64 // modulus of elasticity for sudden load, Pa; +Inf for a rigid wall
	Poisson   float64
	Roughness float64 // equivalent sand roughness as usually designed for, m
	Status    string  // how far the values can be trusted
	Creeps    bool    // a plastic that goes on stretching under load
}

const (
	practice = "common practice: textbook modulus, usual design roughness"
	laminate = "common practice: depends on the laminate, ask the maker"
	mix      = "common practice: depends on the mix and the finish"
	plastic  = "common practice: short-term modulus at 20 degC, falls with temperature and time"
)

// materials holds moduli from the middle of the spread between textbooks and
// roughness as usually taken for design.
var materials = []Material{
	{"carbon steel", 207e9, 0.30, 0.045e-3, practice, false},
	{"stainless steel", 200e9, 0.30, 0.03e-3, practice, false},
	{"ductile iron", 170e9, 0.28, 0.1e-3, practice, false},
	{"grey cast iron", 105e9, 0.26, 0.26e-3, practice + "; moduli of 80 to 170 GPa are printed", false},
	{"copper", 120e9, 0.34, 0.0015e-3, practice, false},
	{"PVC-U", 3.0e9, 0.45, 0.003e-3, plastic, true},
	{"HDPE", 0.9e9, 0.46, 0.003e-3, plastic, true},
	{"GRP", 22e9, 0.30, 0.02e-3, laminate, false},
	{"concrete", 30e9, 0.15, 0.3e-3, mix, false},
	{"asbestos cement", 23.5e9, 0.30, 0.03e-3, practice, false},
}

// aliases are other names of the trade for the same entries.
var aliases = map[string]string{
	"steel":     "carbon steel",
	"cast iron": "grey cast iron",
	"pvc":       "PVC-U",
	"upvc":      "PVC-U",
	"pe":        "HDPE",
	"pe100":     "HDPE",
	"frp":       "GRP",
}

// Lookup returns the material of that name, in any letter case.
func Lookup(name string) (Material, bool) {
	name = strings.Join(strings.Fields(name), " ")
	if alias, ok := aliases[strings.ToLower(name)]; ok {
		name = alias
	}
	for _, m := range materials {
		if strings.EqualFold(m.Name, name) {
			return m, true
		}
	}
	return Material{}, false
}

// Names returns the names of all materials.
func Names() []string {
	names := make([]string, len(materials))
	for i, m := range materials {
		names[i] = m.Name
	}
	return names
}
