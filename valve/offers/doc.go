// Package offers holds what makers offer against the limits of an installation, and says what has to be asked before an offer can be judged.
//
// Every offer has been run as a candidate. A datum that it leaves out is generic (common practice, ±40 %), so that a verdict has a fourth answer
// beside meets, meets narrowly and fails: it cannot be judged. Of a limit x <= b, with the part s of x that the valve's data decide (the reverse
// velocity itself; of an extreme pressure and of an anchor force the slam),
//
//	cannot be judged  b lies between x - e s and x + e s, where e is the greatest spread of the data that decide s and are generic
//	meets             x <= b else
//	meets narrowly    x <= b, but b < x + 0.4 s, or b is nearer to x than the numerical error
//	fails             x > b else
//
// and likewise with a greatest value in place of a least one. That x follows the data in proportion is on the safe side: the reverse velocity of a
// swing disc changes by a quarter or less of what its mass does. For a head loss s is x; for a reverse volume and a reverse speed s is x as well. Of
// several scenarios the worst answer counts.
//
// Sources: the spread of generic data is common practice; the list of data that a maker is asked for is that of a data sheet, common practice.
package offers
