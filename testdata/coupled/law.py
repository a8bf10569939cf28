"""Closed-form laws of two check-valve discs, one degree of freedom y (rad or m), SI units.

    M y'' = kappa(y) dp A arm - preload - k y - weight(y) - c y'|y'| + dashpot(y, y')
    dashpot = c_d grip(y) y'^2 while closing, over the last part of the travel, span Y;
              grip = u^2 (3 - 2 u), u = (span Y - y)/(0.2 span Y), 1 beyond u = 1
    v_rel = v - sweep y'
    v_rel sqrt(v_rel^2 + v_lam^2) = g(y)^2 2 dp/rho,    g = 1/sqrt(zeta)
    zeta  = zeta_o + (1/(Cc alpha) - 1/(Cc alpha_m))^2   for alpha < alpha_m, zeta_o beyond
    alpha = alpha_rate y,    alpha_m = min(alpha_rate Y, 1/Cc)
    kappa = kappa_seat + (kappa_open - kappa_seat) (y/Y)^2

A is the bore area. kappa_seat = sweep/arm, so that on the seat the load is dp times the seat
area times the arm and the work done on the disc equals dp times the volume it displaces.
"""
from dataclasses import asdict, dataclass, replace
from math import cos, hypot, pi, sin, sqrt

RHO = 998.2
GRAVITY = 9.80665
V_LAM = 1e-3


@dataclass(frozen=True)
class Law:
    bore: float
    travel: float
    inertia: float          # M: kg m2 or kg, with the added mass
    arm: float              # m, or 1
    sweep: float            # volume displaced per unit y over bore area
    kappa_seat: float
    kappa_open: float
    zeta_open: float
    contraction: float      # Cc
    alpha_rate: float       # curtain-area ratio per unit y
    preload: float = 0.0
    rate: float = 0.0       # k
    weight: float = 0.0     # amplitude of weight(y) = weight sin(y + offset)
    offset: float = 0.0
    damping: float = 0.0    # c, quadratic damper
    dashpot: float = 0.0    # c_d
    dashpot_span: float = 0.0

    @property
    def area(self):
        return pi * self.bore**2 / 4

    @property
    def alpha_max(self):
        return min(self.alpha_rate * self.travel, 1 / self.contraction)

    @property
    def kink(self):
        """Position at which the loss curve reaches zeta_o (second derivative jumps)."""
        return self.alpha_max / self.alpha_rate

    def g(self, y):
        if y >= self.kink:
            return 1 / sqrt(self.zeta_open)
        u = self.contraction * self.alpha_rate * y
        return u / hypot(sqrt(self.zeta_open) * u, 1 - u / (self.contraction * self.alpha_max))

    def kappa(self, y):
        return self.kappa_seat + (self.kappa_open - self.kappa_seat) * (y / self.travel)**2

    def arm_area(self, y):
        """Load per unit pressure difference."""
        return self.kappa(y) * self.area * self.arm

    def resistance(self, y):
        """Closing force or torque of preload, spring and weight."""
        return self.preload + self.rate * y + self.weight * sin(y + self.offset)

    def potential(self, y):
        """Whose slope is the resistance."""
        return self.preload * y + self.rate * y * y / 2 - self.weight * cos(y + self.offset)

    def cushion(self, y, w):
        """Opening torque of the dashpot."""
        reach = self.dashpot_span * self.travel
        if w >= 0 or y >= reach or self.dashpot == 0:
            return 0.0
        u = min(1.0, (reach - y) / (0.2 * reach))
        return self.dashpot * u * u * (3 - 2 * u) * w * w

    def acceleration(self, y, w, dp):
        return (self.arm_area(y) * dp - self.resistance(y) - self.damping * w * abs(w) + self.cushion(y, w)) / self.inertia

    def steady_dp(self, y, v):
        return RHO / 2 * v * hypot(v, V_LAM) / self.g(y)**2

    def document(self):
        return asdict(self) | {"area": self.area, "alpha_max": self.alpha_max, "loss_kink": self.kink,
                               "full_open_velocity_m_s": self.full_open_velocity()}

    def full_open_velocity(self):
        """Least steady velocity that holds the disc on its stop (v_lam ignored)."""
        dp = self.resistance(self.travel) / self.arm_area(self.travel)
        return self.g(self.travel) * sqrt(2 * dp / RHO)


def relative_velocity(b, c):
    """Root x of x sqrt(x^2 + v_lam^2) + b x = c, b >= 0, to rounding.

    Odd and, for x > 0, convex: Newton from an upper bound of |x| falls monotonically.
    """
    if c == 0:
        return 0.0
    m = abs(c)
    x = min(m / (b + V_LAM), sqrt(m))
    for _ in range(60):
        r = hypot(x, V_LAM)
        step = (x * r + b * x - m) / (r + x * x / r + b)
        x -= step
        if abs(step) <= 2e-16 * x:
            break
    return x if c > 0 else -x


SWING = Law(
    bore=0.25, travel=1.13446401, inertia=0.55, arm=0.15, sweep=1.21 * 0.15,
    kappa_seat=1.21, kappa_open=0.84, zeta_open=0.65, contraction=0.65,
    alpha_rate=4 * 0.15 / 0.25, weight=75 * 0.15, offset=0.0873)

DASHPOT = replace(SWING, dashpot=200.0, dashpot_span=0.2)

AXIAL = Law(
    bore=0.25, travel=0.03, inertia=5.0, arm=1.0, sweep=1 - 0.6**2,
    kappa_seat=1 - 0.6**2, kappa_open=0.75, zeta_open=3.0, contraction=0.65,
    alpha_rate=4 * (1 + 0.6) / 0.25, preload=60.0, rate=3000.0)
