"""Swing disc on an inclined seat, from the geometry of the disc as vectors, SI units.

x along the bore in the direction of flow, z up, hinge at the origin. The disc hangs below it and leaves the upright by
lean + y towards +x; y = 0 is the seat. Moments about the hinge, positive opening.
"""
from dataclasses import asdict, dataclass, field
from math import cos, hypot, pi, sin, sqrt

from law import GRAVITY, RHO, V_LAM


@dataclass(frozen=True)
class Inclined:
    bore: float
    disc: float             # diameter
    mass: float
    solid: float            # density of the disc
    liquid: float           # mass of the liquid that moves with it, at its centre
    arm: float
    travel: float
    lean: float             # of the seat from the upright, lower edge downstream
    full_open: float        # velocity that just holds the disc on its stop
    zeta_open: float
    contraction: float
    preload: float = field(default=0.0, init=False)
    rate: float = field(default=0.0, init=False)

    @property
    def area(self):
        return pi * self.bore**2 / 4

    @property
    def face(self):
        return pi * self.disc**2 / 4

    @property
    def inertia(self):
        return self.mass * (self.arm**2 + self.disc**2 / 16) + self.liquid * self.arm**2

    @property
    def sweep(self):
        """Volume of a wedge of 1 rad over the bore area: the face on the arm of its centre."""
        return self.face * self.arm / self.area

    @property
    def kink(self):
        return self.travel

    def centre(self, y):
        return self.arm * sin(self.lean + y), -self.arm * cos(self.lean + y)

    def normal(self, y):
        """Of the downstream face."""
        return cos(self.lean + y), sin(self.lean + y)

    def resistance(self, y):
        """r x F of the submerged weight; opening moments turn from -z to +x."""
        x, _ = self.centre(y)
        return self.mass * GRAVITY * (1 - RHO / self.solid) * x

    def free(self, y):
        """Normal force of a free stream along x on the face, up to a factor: Rayleigh, sin i/(4 + pi sin i)."""
        i = self.normal(y)[0]
        return i / (4 + pi * i)

    def zeta(self, y):
        """Head of the jet from the gap, whose area is 4 L y/D bores, lost; zeta_open on the stop."""
        jet, stop = (1 / (self.contraction * 4 * self.arm * u / self.bore) for u in (y, self.travel))
        return self.zeta_open + jet**2 - stop**2

    def g(self, y):
        return 1 / sqrt(self.zeta(y)) if y > 0 else 0.0

    def arm_area(self, y):
        """Moment per unit pressure difference: the jet's head on the whole face, the stream's on the open disc."""
        if y <= 0:
            return self.face * self.arm
        held = self.resistance(self.travel) / (RHO / 2 * self.full_open**2 * self.area * self.arm)
        stream = held * self.free(y) / self.free(self.travel) * self.area
        zeta = self.zeta(y)
        return (stream + (zeta - self.zeta_open) * self.face) / zeta * self.arm

    def cushion(self, y, w):
        return 0.0

    def potential(self, y):
        """Whose slope is the resistance: the height of the weight."""
        return self.mass * GRAVITY * (1 - RHO / self.solid) * self.centre(y)[1]

    def acceleration(self, y, w, dp):
        return (self.arm_area(y) * dp - self.resistance(y)) / self.inertia

    def steady_dp(self, y, v):
        return RHO / 2 * v * hypot(v, V_LAM) * self.zeta(y)

    def full_open_velocity(self):
        dp = self.resistance(self.travel) / self.arm_area(self.travel)
        return self.g(self.travel) * sqrt(2 * dp / RHO)

    def document(self):
        return {"inclined": asdict(self), "bore": self.bore, "arm": self.arm, "travel": self.travel, "zeta_open": self.zeta_open}


INCLINED = Inclined(bore=0.25, disc=0.275, mass=10.16, solid=7850.0, liquid=8.0, arm=0.15, travel=1.13446401,
                    lean=0.26, full_open=2.3, zeta_open=0.65, contraction=0.65)
