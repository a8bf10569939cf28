"""What the valve stands between: a falling upstream head and a branch to a constant head, SI units."""
from dataclasses import dataclass

from law import GRAVITY, RHO, Law

HEADER = 250.0
V_START = 2.5
WAVE_SPEED = 1200.0


@dataclass(frozen=True)
class Case:
    name: str
    law: Law
    length: float
    rate: float      # fall of the upstream head, m/s
    drop: float      # total fall, m

    @property
    def head_start(self):
        return HEADER + self.law.steady_dp(self.law.travel, V_START) / (RHO * GRAVITY)

    @property
    def clip(self):
        return self.drop / self.rate

    def upstream(self, t):
        return self.head_start - min(self.rate * t, self.drop)
