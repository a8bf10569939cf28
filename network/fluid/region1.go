package fluid

import "math"

// gasConstant is the specific gas constant of water in IF97, J/(kg K).
const gasConstant = 461.526

// gibbs is the dimensionless Gibbs energy at one state with its derivatives by
// the reduced pressure pi and the inverse reduced temperature tau.
type gibbs struct {
	T, p    float64 // K, Pa
	pi, tau float64

	g, gp, gt, gpp, gtt, gpt float64
}

// region1 evaluates equation (7) of IAPWS R7-97 at T, K, and p, Pa.
func region1(T, p float64) gibbs {
	s := gibbs{T: T, p: p, pi: p / 16.53e6, tau: 1386 / T}
	a, b := 7.1-s.pi, s.tau-1.222
	for _, c := range table2 {
		I, J := c.I, c.J
		term := c.n * math.Pow(a, I) * math.Pow(b, J)
		s.g += term
		s.gp -= term * I / a
		s.gt += term * J / b
		s.gpp += term * I * (I - 1) / (a * a)
		s.gtt += term * J * (J - 1) / (b * b)
		s.gpt -= term * I * J / (a * b)
	}
	return s
}

// density returns kg/m3.
func (s gibbs) density() float64 { return s.p / (gasConstant * s.T * s.pi * s.gp) }

// soundSpeed returns m/s.
func (s gibbs) soundSpeed() float64 {
	d := s.gp - s.tau*s.gpt
	return math.Sqrt(gasConstant * s.T * s.gp * s.gp / (d*d/(s.tau*s.tau*s.gtt) - s.gpp))
}

// table2 holds the exponents and coefficients of table 2 of IAPWS R7-97. At
// region 1 neither 7.1 - pi nor tau - 1.222 comes to zero (they stay above 1.05
// and 1.002).
var table2 = [34]struct{ I, J, n float64 }{
	{0, -2, 0.14632971213167},
	{0, -1, -0.84548187169114},
	{0, 0, -0.37563603672040e1},
	{0, 1, 0.33855169168385e1},
	{0, 2, -0.95791963387872},
	{0, 3, 0.15772038513228},
	{0, 4, -0.16616417199501e-1},
	{0, 5, 0.81214629983568e-3},
	{1, -9, 0.28319080123804e-3},
	{1, -7, -0.60706301565874e-3},
	{1, -1, -0.18990068218419e-1},
	{1, 0, -0.32529748770505e-1},
	{1, 1, -0.21841717175414e-1},
	{1, 3, -0.52838357969930e-4},
	{2, -3, -0.47184321073267e-3},
	{2, 0, -0.30001780793026e-3},
	{2, 1, 0.47661393906987e-4},
	{2, 3, -0.44141845330846e-5},
	{2, 17, -0.72694996297594e-15},
	{3, -4, -0.31679644845054e-4},
	{3, 0, -0.28270797985312e-5},
	{3, 6, -0.85205128120103e-9},
	{4, -5, -0.22425281908000e-5},
	{4, -2, -0.65171222895601e-6},
	{4, 10, -0.14341729937924e-12},
	{5, -8, -0.40516996860117e-6},
	{8, -11, -0.12734301741641e-8},
	{8, -6, -0.17424871230634e-9},
	{21, -29, -0.68762131295531e-18},
	{23, -31, 0.14478307828521e-19},
	{29, -38, 0.26335781662795e-22},
	{30, -39, -0.11947622640071e-22},
	{31, -40, 0.18228094581404e-23},
	{32, -41, -0.93537087292458e-25},
}
