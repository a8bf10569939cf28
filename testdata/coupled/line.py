"""Exact waves of a uniform frictionless branch from the valve to a constant head, SI units.

At the valve, with F the wave that leaves it and T = 2 L/a:

    H_dn(t) = H_h + F(t) - F(t - T)
    V(t)    = V_0 + (g/a) (F(t) + F(t - T))

F is kept as a chain of Chebyshev interpolants, halved until they agree with the function
between their nodes, so the delayed term carries no grid.
"""
from bisect import bisect_right
from math import cos, pi

import numpy as np
from numpy.polynomial import chebyshev

_DEGREE = 12
_NODES = [cos(pi * (k + 0.5) / (_DEGREE + 1)) for k in range(_DEGREE + 1)]
_FIT = np.linalg.inv(chebyshev.chebvander(_NODES, _DEGREE))
_CHECKS = (-0.985, -0.53, 0.07, 0.61, 0.991)


def _sum(coefficients, x):
    b0 = b1 = 0.0
    for c in coefficients[:0:-1]:
        b0, b1 = c + 2 * x * b0 - b1, b0
    return coefficients[0] + x * b0 - b1


class Wave:
    """F(t), zero before t = 0, grown to the right piece by piece."""

    def __init__(self, tolerance):
        self._starts, self._pieces, self._tolerance = [], [], tolerance

    def __call__(self, t):
        if t <= 0:
            return 0.0
        left, right, coefficients = self._pieces[bisect_right(self._starts, t) - 1]
        if t > right + 1e-9:
            raise ValueError(f"wave asked at {t}, known to {right}")
        return _sum(coefficients, (2 * t - left - right) / (right - left))

    def extend(self, f, left, right, depth=0):
        """Append the interpolant of f on [left, right]."""
        middle, half = (left + right) / 2, (right - left) / 2
        coefficients = list(_FIT @ [f(middle + half * x) for x in _NODES])
        error = max(abs(_sum(coefficients, x) - f(middle + half * x)) for x in _CHECKS)
        if error > self._tolerance and depth < 12:
            self.extend(f, left, middle, depth + 1)
            self.extend(f, middle, right, depth + 1)
            return
        self._starts.append(left)
        self._pieces.append((left, right, coefficients))

    def end(self):
        return self._pieces[-1][1] if self._pieces else 0.0
