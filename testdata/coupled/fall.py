"""Free fall of the swing disc: with a quadratic damper only, and in liquid held at v = 0."""
from dataclasses import replace
from math import cos, exp, sin, sqrt

from scipy.integrate import quad, solve_ivp

from law import RHO, SWING, V_LAM

FALL_DAMPING = 0.5


def free_fall(rtol):
    """Swing disc released from its stop: a quadratic damper and no flow load, and the law's own
    displacement damping in liquid held at v = 0."""
    damped = replace(SWING, damping=FALL_DAMPING)

    def seat(t, s):
        return s[0]
    seat.terminal = True
    sol = solve_ivp(lambda t, s: [s[1], damped.acceleration(s[0], s[1], 0.0)], (0, 3), [SWING.travel, 0.0],
                    "DOP853", rtol=rtol, atol=1e-15, events=seat)
    # w^2 over the angle p = y + offset is linear: closed form.
    k, b = 2 * FALL_DAMPING / SWING.inertia, 2 * SWING.weight / SWING.inertia
    top = SWING.travel + SWING.offset

    def speed(y):
        p = y + SWING.offset
        return sqrt(b / (1 + k * k) * (k * sin(p) + cos(p) - exp(-k * (top - p)) * (k * sin(top) + cos(top))))
    # y = Y - z^2 removes the square-root singularity at the start.
    fall_time = quad(lambda z: 2 * z / speed(SWING.travel - z * z), 0, sqrt(SWING.travel), epsabs=1e-13, epsrel=1e-12)[0]

    def still(t, s):
        v_rel = -SWING.sweep * s[1]
        dp = RHO / 2 * v_rel * sqrt(v_rel * v_rel + V_LAM**2) / SWING.g(s[0])**2
        return [s[1], SWING.acceleration(s[0], s[1], dp)]
    fractions = [0.9, 0.75, 0.5, 0.25, 0.1, 0.05, 0.02]
    marks = []
    for q in fractions:
        def event(t, s, q=q):
            return s[0] - q * SWING.travel
        event.terminal = q == fractions[-1]
        marks.append(event)
    sol2 = solve_ivp(still, (0, 20), [SWING.travel, 0.0], "Radau", rtol=rtol, atol=1e-15, events=marks)
    return {"damper": {"damping_n_m_s2": FALL_DAMPING, "seated_s": sol.t[-1], "disc_speed_at_seating": sol.y[1, -1],
                       "seated_quadrature_s": fall_time, "disc_speed_closed_form": -speed(0.0)},
            "still_liquid": [{"opening": q, "t_s": float(t[0]), "w_rad_s": float(y[0][1])}
                             for q, t, y in zip(fractions, sol2.t_events, sol2.y_events)]}
