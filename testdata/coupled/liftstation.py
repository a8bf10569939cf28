"""Lift station of the built-in example, calculated with a plain method of characteristics.

Run: /usr/bin/python3 liftstation.py pump-25.csv     (the embedded SI 25 data; writes liftstation.json)
Three equal units, one trips. Pump: its curve by the affinity laws, four-quadrant data elsewhere,
joined as README.md says. Discs: law.py. Pipes: elastic, Darcy friction frozen at the steady flow.
"""
import csv
import json
import sys
from bisect import bisect_right
from dataclasses import asdict
from math import atan2, degrees, hypot, log10, pi, radians, sin, sqrt
from pathlib import Path

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator, PPoly
from scipy.optimize import brentq

from law import GRAVITY, V_LAM, Law

DENSITY, VISCOSITY, SOUND = 999.1, 1.138e-6, 1466.0    # water at 15 degC
SUMP, TOWER, VALVE_LEVEL = 101.5, 151.5, 102.0
STEEL, POISSON, ROUGHNESS = 207e9, 0.30, 1e-4
BORE = 0.25
AREA = pi * BORE**2 / 4


def wave_speed(bore, wall):
    """Thin wall, anchored throughout."""
    bulk = DENSITY * SOUND**2
    return SOUND / sqrt(1 + bulk / STEEL * bore / wall * (1 - POISSON**2))


def friction_factor(velocity, bore):
    """Colebrook-White by fixed-point iteration."""
    reynolds, x = abs(velocity) * bore / VISCOSITY, 8.0
    for _ in range(50):
        x = -2 * log10(ROUGHNESS / bore / 3.7 + 2.51 * x / reynolds)
    return 1 / x**2


def straight(x, y):
    """Straight lines between the points."""
    return PPoly(np.array([np.diff(y) / np.diff(x), y[:-1]]), x)


class Pump:
    flow, head, speed, efficiency, inertia = 430 / 3600, 52.0, 1480 * pi / 30, 0.81, 2.2
    curve = ([0, 215, 430, 600], [66, 62, 52, 39])

    def __init__(self, table, interpolate=PchipInterpolator):
        with open(table) as f:
            rows = list(csv.DictReader(line for line in f if not line.startswith("#")))
        self.angle, self.fh, self.fb = (np.array([float(r[k]) for r in rows]).tolist() for k in ("theta_deg", "FH", "FB"))
        points = interpolate(np.array(self.curve[0]) / 430, np.array(self.curve[1]) / 52)
        self.knots, self.pieces = points.x.tolist(), points.c.T.tolist()
        self.last = self.curve[0][-1] / 430
        self.edge = degrees(atan2(1, self.last))
        self.shut_factor = self._curve(0.0) / self._data(self.fh, 90)
        self.end_factor = self._curve(self.last) / (1 + self.last**2) / self._data(self.fh, self.edge)
        self.torque_factor = 1 / (2 * self._data(self.fb, 45))
        self.rated_torque = DENSITY * GRAVITY * self.flow * self.head / (self.efficiency * self.speed)

    def _data(self, table, theta):
        k = min(int(theta // 5), 71)
        return table[k] + (table[k + 1] - table[k]) * (theta - 5 * k) / 5

    def _curve(self, x):
        """Head over rated head against v/alpha."""
        k = min(bisect_right(self.knots, x) - 1, len(self.pieces) - 1)
        h = 0.0
        for c in self.pieces[k]:
            h = h * (x - self.knots[k]) + c
        return h

    def head_at(self, velocity, alpha):
        v = velocity * AREA / self.flow
        if alpha > 0 and 0 <= v <= self.last * alpha:
            return self.head * alpha**2 * self._curve(v / alpha)
        theta = degrees(atan2(alpha, v)) % 360
        factor = 1.0
        if 90 <= theta <= 180:
            factor = self.shut_factor + (1 - self.shut_factor) * (theta - 90) / 90
        elif theta < self.edge:
            factor = 1 + (self.end_factor - 1) * theta / self.edge
        return self.head * (alpha**2 + v**2) * self._data(self.fh, theta) * factor

    def torque_at(self, velocity, alpha):
        v = velocity * AREA / self.flow
        theta = degrees(atan2(alpha, v)) % 360
        return self.rated_torque * self.torque_factor * (alpha**2 + v**2) * self._data(self.fb, theta)


class Unit:
    """Sump, pump, check valve and the upstream end of the branch (a C- characteristic)."""

    def __init__(self, pump, law, impedance):
        self.pump, self.law, self.impedance = pump, law, impedance
        self.y, self.w, self.alpha, self.running, self.seated = law.travel, 0.0, 1.0, True, False
        self.v = 0.0

    def velocity(self, y, w, alpha, known, guess):
        """v with H = known + impedance v at the branch; returns v and dp."""
        g2, carried = self.law.g(y)**2, self.law.sweep * w
        scale = 2 * g2 * GRAVITY

        def gap(v):
            return SUMP + self.pump.head_at(v, alpha) - known - self.impedance * v

        def residual(v):
            x = v - carried
            return x * hypot(x, V_LAM) - scale * gap(v)
        v = guess
        for _ in range(40):         # Newton, numerical slope; brentq when it wanders
            r, h = residual(v), 1e-7
            step = r * h / (residual(v + h) - r)
            v -= step
            if abs(step) < 1e-12:
                break
        else:
            v = brentq(residual, -20, 20, xtol=1e-13)
        return v, DENSITY * GRAVITY * gap(v)

    def advance(self, start, end, dt, substeps):
        """Runge-Kutta over the step, with the incoming characteristic linear in time.

        Returns the moment of seating within the step, or None.
        """
        if self.seated:
            self.v = 0.0
            return None
        h = dt / substeps
        for i in range(substeps):
            def rates(z, s):
                y, w, alpha = s
                known = start + (end - start) * (i + z) / substeps
                v, dp = self.velocity(y, w, alpha, known, self.v)
                q = self.law.acceleration(y, w, dp)
                if y >= self.law.travel and q > 0:
                    w = q = 0.0
                spin = 0.0 if self.running else -self.pump.torque_at(v, alpha) / (self.pump.inertia * self.pump.speed)
                return np.array([w, q, spin])
            s = np.array([self.y, self.w, self.alpha])
            k1 = rates(0, s)
            k2 = rates(0.5, s + h / 2 * k1)
            k3 = rates(0.5, s + h / 2 * k2)
            k4 = rates(1, s + h * k3)
            n = s + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
            if n[0] >= self.law.travel:
                n[0], n[1] = self.law.travel, 0.0
            if n[0] <= 0:
                z = s[0] / (s[0] - n[0])
                self.impact = s[1] + z * (n[1] - s[1])
                self.alpha, self.y, self.w, self.seated, self.v = n[2], 0.0, 0.0, True, 0.0
                return (i + z) * h
            self.y, self.w, self.alpha = n
            self.v, self.dp = self.velocity(*n, start + (end - start) * (i + 1) / substeps, self.v)
        return None


class Pipe:
    def __init__(self, length, bore, wall, reaches, velocity, head):
        self.speed = wave_speed(bore, wall)
        self.b = self.speed / GRAVITY
        self.area = pi * bore**2 / 4
        f = friction_factor(velocity, bore)
        self.slope = f * velocity * abs(velocity) / (2 * GRAVITY * bore)
        self.r = f * length / reaches / (2 * GRAVITY * bore)
        self.h = head - self.slope * length * np.linspace(0, 1, reaches + 1)
        self.v = np.full(reaches + 1, velocity)

    def characteristics(self):
        v, loss = self.v, self.r * self.v * abs(self.v)
        return self.h[:-1] + self.b * v[:-1] - loss[:-1], self.h[1:] - self.b * v[1:] + loss[1:]


def station(law, pump, branch_reaches=10, substeps=4, after=0.4, branch_length=6.0):
    """Trip of one unit of three at t = 0; scalars of its valve."""
    a_branch, a_main = wave_speed(BORE, 0.0063), wave_speed(0.7, 0.0095)
    dt = branch_length / a_branch / branch_reaches
    main_reaches = round(600 / a_main / dt)     # length error below half a reach

    def shortfall(v):
        u = 3 * v * AREA / (pi * 0.7**2 / 4)
        main = friction_factor(u, 0.7) * 600 / 0.7 * u * u / (2 * GRAVITY)
        branch = friction_factor(v, BORE) * branch_length / BORE * v * v / (2 * GRAVITY)
        return SUMP + pump.head_at(v, 1.0) - law.zeta_open * v * v / (2 * GRAVITY) - branch - main - TOWER
    v0 = brentq(shortfall, 0.5, 3.5)
    valve_head = SUMP + pump.head_at(v0, 1.0) - law.zeta_open * v0 * v0 / (2 * GRAVITY)
    pipes = [Pipe(branch_length, BORE, 0.0063, branch_reaches, v0, valve_head) for _ in range(2)]
    header = pipes[0].h[-1]
    main = Pipe(main_reaches * dt * a_main, 0.7, 0.0095, main_reaches, 3 * v0 * AREA / (pi * 0.7**2 / 4), header)
    tower = main.h[-1]
    units = [Unit(pump, law, p.b) for p in pipes]       # tripped; the pair that runs on
    units[0].running = False
    held = law.arm_area(law.travel) * law.steady_dp(law.travel, v0) >= law.resistance(law.travel)
    for u, p in zip(units, pipes):
        u.v = v0
    incoming = [p.h[0] - p.b * p.v[0] for p in pipes]
    t, trace, out, peak = 0.0, [], {"initial_velocity_m_s": v0, "held_on_stop": held}, (0.0, 0.0)
    weights = [AREA / pipes[0].b, 2 * AREA / pipes[1].b, main.area / main.b]
    greatest = 0.0
    while t < 3.0:
        cp, cm = zip(*(p.characteristics() for p in pipes))
        mp, mm = main.characteristics()
        inner = [((a[:-1] + b[1:]) / 2, (a[:-1] - b[1:]) / (2 * p.b))
                 for p, a, b in [(pipes[0], cp[0], cm[0]), (pipes[1], cp[1], cm[1]), (main, mp, mm)]]
        joint = (weights[0] * cp[0][-1] + weights[1] * cp[1][-1] + weights[2] * mm[0]) / sum(weights)
        for k, (p, u) in enumerate(zip(pipes, units)):
            before = u.v
            moment = u.advance(incoming[k], cm[k][0], dt, substeps)
            if k == 0 and "reversal_s" not in out and before > 0 >= u.v:
                out["reversal_s"] = t + dt * before / (before - u.v)
                out["speed_ratio_at_reversal"] = u.alpha
                out["opening_at_reversal"] = u.y / law.travel
            if k == 0 and moment is not None:
                out["seated_s"] = t + moment
                out["disc_speed_at_seating"] = u.impact
                out["reverse_velocity_at_seating_m_s"] = -law.sweep * u.impact
                out["gauge_before_seating_bar"] = (p.h[0] - VALVE_LEVEL) * DENSITY * GRAVITY / 1e5
            incoming[k] = cm[k][0]
            p.v[0], p.h[0] = u.v, cm[k][0] + p.b * u.v
            p.h[-1], p.v[-1] = joint, (cp[k][-1] - joint) / p.b
        main.h[0], main.v[0] = joint, (joint - mm[0]) / main.b
        main.h[-1], main.v[-1] = tower, (mp[-1] - tower) / main.b
        for p, (h, v) in zip(pipes + [main], inner):
            p.h[1:-1], p.v[1:-1] = h, v
        t += dt
        greatest = max(greatest, -units[0].v)
        trace.append((t, units[0].v, units[0].y, units[0].alpha, pipes[0].h[0]))
        if "seated_s" in out:
            peak = max(peak, (pipes[0].h[0], t))
            if t > out["seated_s"] + after:
                break
    if "reversal_s" in out:
        end, window = out["reversal_s"], max(0.05, 4 * branch_length / a_branch)
        sample = [(a, b) for a, b, *_ in trace if end - window <= a <= end]
        out["deceleration_m_s2"] = -np.polyfit(*zip(*sample), 1)[0]
    out["max_reverse_velocity_m_s"] = max(greatest, out.get("reverse_velocity_at_seating_m_s", 0))
    out["peak_gauge_bar"] = (peak[0] - VALVE_LEVEL) * DENSITY * GRAVITY / 1e5
    out["peak_delay_s"] = peak[1] - out.get("seated_s", 0)
    return out


def swing(mass_factor=1.0, zeta=0.65, full_open=2.3, travel=65.0, offset=0.0):
    """Catalogue swing disc at DN250: plate 650 D^3, arm 0.6 D, disc diameter 1.1 D."""
    arm, disc, mass = 0.6 * BORE, 1.1 * BORE, mass_factor * 650 * BORE**3
    radius = disc / 2
    inertia = mass * (arm**2 + disc**2 / 16) + DENSITY * (16 / 45 * radius**5 + 8 / 3 * radius**3 * arm**2)
    weight = mass * GRAVITY * (1 - DENSITY / 7850) * arm
    top = radians(travel)
    open_load = weight * sin(top + radians(offset)) / (zeta * DENSITY / 2 * full_open**2 * AREA * arm)
    return Law(bore=BORE, travel=top, inertia=inertia, arm=arm, sweep=1.21 * arm, kappa_seat=1.21,
               kappa_open=open_load, zeta_open=zeta, contraction=0.65, alpha_rate=4 * arm / BORE,
               weight=weight, offset=radians(offset))


def axial(full_open=2.0, zeta=3.0, open_load=2.0, preload_share=0.45):
    """Catalogue ring disc with spring at DN250; open_load is the force coefficient kappa zeta."""
    beta, travel = 0.6, 0.12 * BORE
    mass = 150 * BORE**3 + 0.25 * 8 / 3 * DENSITY * (BORE / 2)**3
    full = open_load * DENSITY / 2 * AREA * full_open**2
    return Law(bore=BORE, travel=travel, inertia=mass, arm=1.0, sweep=1 - beta**2, kappa_seat=1 - beta**2,
               kappa_open=open_load / zeta, zeta_open=zeta, contraction=0.65, alpha_rate=4 * (1 + beta) / BORE,
               preload=preload_share * full, rate=(1 - preload_share) * full / travel)


def main():
    smooth, broken = Pump(sys.argv[1]), Pump(sys.argv[1], straight)
    s, x = swing(), axial()
    runs = {f"swing, {n} reaches": (s, smooth, n) for n in (5, 10, 20)}
    runs |= {"swing, straight pump curve": (s, broken, 10),
             "swing, plate mass x 0.6": (swing(mass_factor=0.6), smooth, 10),
             "swing, plate mass x 1.4": (swing(mass_factor=1.4), smooth, 10),
             "swing, seat inclined 5 deg": (swing(offset=5.0), smooth, 10),
             "axial, 10 reaches": (x, smooth, 10), "axial, 20 reaches": (x, smooth, 20),
             "axial, straight pump curve": (x, broken, 10)}
    results = {}
    for name, (law, pump, reaches) in runs.items():
        out = station(law, pump, reaches)
        results[name] = {k: v if isinstance(v, bool) else float(f"{v:.5g}") for k, v in out.items()}
        print(name, results[name], flush=True)
    document = {
        "wave_speed_m_s": {"branch": wave_speed(BORE, 0.0063), "main": wave_speed(0.7, 0.0095)},
        "head_factors": [smooth.shut_factor, smooth.end_factor], "torque_factor": smooth.torque_factor,
        "laws": {"swing": asdict(s), "axial": asdict(x)}, "results": results,
        "versions": {"python": sys.version.split()[0], "scipy": scipy.__version__, "numpy": np.__version__}}
    Path(__file__).with_suffix(".json").write_text(json.dumps(document, indent=1) + "\n")


if __name__ == "__main__":
    main()
