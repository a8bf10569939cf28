package offers

// Meaning explains the answers where they stand.
var Meaning = []string{
	"Meets narrowly: the bound is nearer than the numerical error, or the part of the figure that the valve decides (the reverse velocity itself, of a pressure the slam) would break it if it were 40 % greater.",
	"Cannot be judged: a datum that decides is not given, and with the part of the figure that the valve decides changed by the widest spread of the generic data (±40 %, common practice) the answer may be the other.",
}
