package kernel

// decay takes the changes of flow of nodes into their past: for x_k = K e_k y_k
//
//	x_k' = e_k (x_k + K b_k dQ),   z' = sum of x_k'
//
// in groups of equal length in past, dq and z. The forms give the same bytes: the vector form fuses nothing and adds in the same order.
type decay func(past [][terms]float64, dq, z []float64, e, b *[terms]float64)

var fade = fastestDecay()

func scalarDecay(past [][terms]float64, dq, z []float64, e, b *[terms]float64) {
	dq, z = dq[:len(past)], z[:len(past)]
	for i := range past {
		x, d := &past[i], dq[i]
		x0, x1, x2, x3 := e[0]*(x[0]+b[0]*d), e[1]*(x[1]+b[1]*d), e[2]*(x[2]+b[2]*d), e[3]*(x[3]+b[3]*d)
		x4, x5, x6, x7 := e[4]*(x[4]+b[4]*d), e[5]*(x[5]+b[5]*d), e[6]*(x[6]+b[6]*d), e[7]*(x[7]+b[7]*d)
		x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7] = x0, x1, x2, x3, x4, x5, x6, x7
		z[i] = ((x0 + x4) + (x2 + x6)) + ((x1 + x5) + (x3 + x7))
	}
}
