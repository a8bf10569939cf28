"""Two unequal half discs on one hinge pin under a constant deceleration of the flow: SciPy's Radau, with event location.

    /usr/bin/python3 reference.py        # writes reference.json; Python 3.11.2, SciPy 1.10.1

Each plate i, angle y from the seat, w = y' (SI units; R = D/2, A = pi R^2 the bore):

    M w' = kappa(y) dp A_h L - T0 - k y - W sin(y) s,   s = -1 for the plate above the pin, +1 below: level pipe, level pin
    A_h = A/2, L = 4R/(3 pi), M = (m + 32/45 rho R^3) R^2/4, W = m g (1 - rho/rho_s) L
    g(y) = u/sqrt(1 + (4 zeta - 1/u_Y^2) u^2),   u = Cc (2/pi) y,   u_Y = u(Y)     conductance of one half on the bore velocity
    kappa = 1 + 4 (C - zeta) g^2
    x sqrt(x^2 + v_lam^2) = (g_1 + g_2)^2 2 dp/rho,   x = v - sweep (w_1 + w_2),   sweep = A_h L/A = 2R/(3 pi)

v(t) = v_0 - a t is prescribed, so that dp follows from the rates. A plate rests on its stop, y = Y, until its moment points to the seat; it
stays on the seat once it is there. No rebound. Near its seat the last plate is carried, x -> 0, which Radau resolves down to a millionth of
the travel; the rest is closed at constant rate.
"""
import json
from math import pi, sin, sqrt

from scipy.integrate import solve_ivp

RHO, GRAVITY, LAM = 998.2, 9.80665, 1e-3
DATA = {
    "bore_m": 0.25, "travel_rad": 1.4, "disc_density_kg_m3": 7850.0, "loss_open": 1.4, "load_open": 1.7, "contraction": 0.65,
    "mass_kg": [1.95, 2.6], "preload_n_m": [2.6, 1.4], "rate_n_m_rad": [1.7, 1.1],
    "density_kg_m3": RHO, "gravity_m_s2": GRAVITY, "velocity_start_m_s": 2.3,
}
D, Y = DATA["bore_m"], DATA["travel_rad"]
R = D / 2
A = pi * R * R
HALF, ARM, SWEEP = A / 2, 4 * R / (3 * pi), 2 * R / (3 * pi)
ZETA, LOAD, CC = DATA["loss_open"], DATA["load_open"], DATA["contraction"]
M = [(m + 32 / 45 * RHO * R**3) * R * R / 4 for m in DATA["mass_kg"]]
WEIGHT = [s * m * GRAVITY * (1 - RHO / DATA["disc_density_kg_m3"]) * ARM for s, m in zip((-1, 1), DATA["mass_kg"])]
U_STOP = CC * 2 / pi * Y


def g(y):
    u = CC * 2 / pi * max(y, 0.0)
    return u / sqrt(1 + (4 * ZETA - 1 / U_STOP**2) * u * u)


def kappa(y):
    return 1 + 4 * (LOAD - ZETA) * g(y)**2


def resist(i, y):
    return DATA["preload_n_m"][i] + DATA["rate_n_m_rad"][i] * y + WEIGHT[i] * sin(y)


def run(a, rtol):
    v0 = DATA["velocity_start_m_s"]
    held = ["stop", "stop"]
    t, s = 0.0, [Y, 0.0, Y, 0.0]
    out = {"deceleration_m_s2": a, "leaves_stop_s": [None, None], "seated_s": [None, None], "rate_at_seat_rad_s": [None, None],
           "velocity_at_seat_m_s": [None, None]}

    def dp(t, s):
        x = v0 - a * t - SWEEP * (s[1] + s[3])
        conductance = g(s[0]) + g(s[2])
        return RHO / 2 * x * sqrt(x * x + LAM * LAM) / conductance**2

    def moment(i, t, s):
        return kappa(s[2 * i]) * dp(t, s) * HALF * ARM - resist(i, s[2 * i])

    def rates(t, s):
        d = [0.0] * 4
        for i in (0, 1):
            if held[i] == "free":
                d[2 * i], d[2 * i + 1] = s[2 * i + 1], moment(i, t, s) / M[i]
        return d

    while "free" in held or "stop" in held:
        last = held.count("seat") == 1
        events = []
        for i in (0, 1):
            if held[i] == "stop":
                def event(t, s, i=i):
                    return moment(i, t, s)
            elif held[i] == "free":
                def event(t, s, i=i, end=1e-6 * Y if last else 0.0):
                    return s[2 * i] - end
            else:
                def event(t, s):
                    return 1.0
            event.terminal, event.direction = True, -1
            events.append(event)
        sol = solve_ivp(rates, (t, t + 10), s, "Radau", rtol=rtol, atol=1e-13, events=events, max_step=0.01)
        assert sol.status == 1, sol.message
        t, s = sol.t[-1], list(sol.y[:, -1])
        i = 0 if len(sol.t_events[0]) else 1
        if held[i] == "stop":
            held[i], out["leaves_stop_s"][i] = "free", t
            continue
        end = t - s[2 * i] / s[2 * i + 1]
        out["seated_s"][i], out["rate_at_seat_rad_s"][i], out["velocity_at_seat_m_s"][i] = end, s[2 * i + 1], v0 - a * end
        held[i], s[2 * i], s[2 * i + 1] = "seat", 0.0, 0.0
    return out


def main():
    cases, difference = [], 0.0
    for a in (2.0, 5.0, 10.0, 20.0):
        fine, coarse = run(a, 1e-10), run(a, 1e-7)
        cases.append(fine)
        for key in ("leaves_stop_s", "seated_s", "rate_at_seat_rad_s"):
            difference = max([difference] + [abs(p / q - 1) for p, q in zip(coarse[key], fine[key])])
    result = {"data": DATA, "inertia_kg_m2": M, "cases": cases, "greatest_relative_difference_to_rtol_1e-7": difference}
    with open("reference.json", "w") as f:
        json.dump(result, f, indent=1)
        f.write("\n")


main()
