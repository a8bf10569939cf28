"""Disc and elastic branch by the method of steps: no time grid, each segment at most 2 L/a long."""
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar
from scipy.special import roots_legendre

from law import GRAVITY, RHO, relative_velocity
from line import Wave
from surroundings import HEADER, V_START, WAVE_SPEED


class Elastic:
    """Method of steps: segments end at every kink and its reflections, none longer than T."""

    def __init__(self, case, rtol, method="DOP853"):
        self.case, self.law, self.rtol, self.method = case, case.law, rtol, method
        self.delay = 2 * case.length / WAVE_SPEED
        self.wave = Wave(max(1e-11, 10 * rtol))
        self.pieces = []           # (start, end, dense output)
        self.marks = {}
        self._kinks = set()

    def flow(self, t, y, w):
        """Velocity and pressure difference at time t for disc position y and speed w."""
        law, case = self.law, self.case
        drive = GRAVITY * (case.upstream(t) - HEADER + 2 * self.wave(t - self.delay))
        carried = law.sweep * w
        g2 = law.g(y)**2
        free = drive - WAVE_SPEED * (carried - V_START)
        v_rel = relative_velocity(2 * g2 * WAVE_SPEED, 2 * g2 * free)
        return v_rel + carried, RHO * (free - WAVE_SPEED * v_rel)

    def _moving(self, t, s):
        _, dp = self.flow(t, *s)
        return [s[1], self.law.acceleration(s[0], s[1], dp)]

    def _kink(self, t):
        self._kinks.update(t + n * self.delay for n in range(400))

    def run(self):
        law = self.law
        self._kink(0.0)
        self._kink(self.case.clip)
        t, state, held = 0.0, [law.travel, 0.0], True

        def net(t, s):
            return law.acceleration(law.travel, 0.0, self.flow(t, law.travel, 0.0)[1])
        net.terminal, net.direction = True, -1

        def seat(t, s):
            return s[0]
        seat.terminal, seat.direction = True, -1

        def stop(t, s):
            return s[0] - law.travel
        stop.terminal, stop.direction = True, 1

        def curtain(t, s):
            return s[0] - law.kink
        curtain.terminal, curtain.direction = True, -1

        while t < 3:
            end = min(k for k in self._kinks if k > t + 1e-10)
            if held:
                events = [net]
                sol = solve_ivp(lambda t, s: [0.0, 0.0], (t, end), state, events=events, dense_output=True,
                                max_step=self.delay / 4)
            else:
                events = [seat, stop] + ([curtain] if state[0] > law.kink + 1e-12 and law.kink < law.travel else [])
                sol = solve_ivp(self._moving, (t, end), state, method=self.method, rtol=self.rtol,
                                atol=[1e-2 * self.rtol * law.travel, 1e-1 * self.rtol * law.travel],
                                events=events, dense_output=True, first_step=min(1e-5, (end - t) / 2))
            if sol.status < 0:
                raise RuntimeError(sol.message)
            self._append(t, sol)
            t, state = sol.t[-1], list(sol.y[:, -1])
            if sol.status == 1:
                fired = [e for e, times in zip(events, sol.t_events) if len(times)][0]
                if fired is stop:
                    raise RuntimeError("disc returned to its stop")
                if fired is seat:
                    self.marks["seated"], self.marks["speed"] = t, state[1]
                    return self
                self._kink(t)
                if fired is net:
                    held, self.marks["left_stop"] = False, t
                else:
                    state[0] = law.kink
        raise RuntimeError("not seated")

    def _append(self, start, sol):
        dense = sol.sol
        for left, right in zip(sol.t[:-1], sol.t[1:]):
            def f(t):
                v, _ = self.flow(t, *dense(t))
                return WAVE_SPEED / GRAVITY * (v - V_START) - self.wave(t - self.delay)
            self.pieces.append((left, right, dense))
            # The delayed argument stays left of this piece, so the wave is complete there.
            self.wave.extend(f, left, right)

    def at(self, t):
        """v, y, w, dp, H_dn at time t."""
        dense = next(p[2] for p in self.pieces if t <= p[1] + 1e-15)
        y, w = dense(t)
        v, dp = self.flow(t, y, w)
        return v, y, w, dp, self.case.upstream(t) - dp / (RHO * GRAVITY)

    def quadrature(self, f, left, right, points=8):
        """Gauss integral of f over [left, right], piece by piece."""
        x, weight = roots_legendre(points)
        total = 0.0
        for a, b, _ in self.pieces:
            a, b = max(a, left), min(b, right)
            if b > a:
                total += (b - a) / 2 * sum(k * f((a + b) / 2 + (b - a) / 2 * z) for k, z in zip(weight, x))
        return total

    def head_after(self, t):
        """Head at the valve for t after seating with V = 0 from then on."""
        seated = self.marks["seated"]
        sign, s = 1.0, t - self.delay
        while s >= seated:
            sign, s = -sign, s - self.delay
        return HEADER + sign * (-WAVE_SPEED / GRAVITY * V_START - 2 * self.wave(s))


def reversal(solution, left_end, right_end, step):
    """First time at which the velocity falls through zero."""
    t = left_end
    while t < right_end:
        n = min(t + step, right_end)
        if solution.at(n)[0] <= 0:
            return brentq(lambda x: solution.at(x)[0], t, n, xtol=1e-15, rtol=1e-14)
        t = n
    return None


def slope(solution, end, window):
    """Least-squares slope of v over the window that ends at `end`, over the continuum."""
    middle = end - window / 2
    return 12 / window**3 * solution.quadrature(lambda t: (t - middle) * solution.at(t)[0], end - window, end)


def scalars(s):
    seated = s.marks["seated"]
    v, _, w, dp, head = s.at(seated)
    turned = reversal(s, 0.0, seated, 1e-3)
    greatest = minimize_scalar(lambda t: s.at(t)[0], bounds=(max(turned or 0, seated - 0.02), seated),
                               method="bounded", options={"xatol": 1e-12})
    window = max(0.05, 2 * s.delay)
    return {
        "left_stop_s": s.marks["left_stop"],
        "velocity_leaving_stop_m_s": s.at(s.marks["left_stop"])[0],
        "reversal_s": turned,
        "opening_at_reversal": s.at(turned)[1] / s.law.travel if turned else None,
        "mean_deceleration_to_reversal_m_s2": V_START / turned if turned else None,
        "deceleration_least_squares_m_s2": -slope(s, turned, window) if turned else None,
        "seated_s": seated,
        "reverse_velocity_at_seating_m_s": -v,
        "max_reverse_velocity_m_s": max(-greatest.fun, -v),
        "disc_speed_at_seating": w,
        "dp_before_seating_pa": dp,
        "head_before_seating_m": head,
        "head_jump_m": -WAVE_SPEED * v / GRAVITY,
        "reverse_column_m": -s.quadrature(lambda t: s.at(t)[0], turned, seated) if turned else None,
    }


def reopening(s, head, times, heads):
    """Delay after seating at which the downstream head first falls below `head`."""
    seated = before = s.marks["seated"]
    for t, h in zip(times, heads):
        if h < head:
            while t - before > 1e-12:
                middle = (t + before) / 2
                before, t = (before, middle) if s.head_after(middle) < head else (middle, t)
            return t - seated
        before = t
    return None


def aftermath(s):
    """Greatest and least head at the valve over two periods 4 L/a with the disc held on its seat."""
    seated, samples = s.marks["seated"], 4000
    span = 4 * s.delay
    t = seated + span * (np.arange(samples) + 0.5) / samples
    h = np.array([s.head_after(x) for x in t])

    def polish(index, sign):
        a, b = t[max(index - 1, 0)], t[min(index + 1, samples - 1)]
        best = minimize_scalar(lambda x: sign * s.head_after(x), bounds=(a, b), method="bounded",
                               options={"xatol": 1e-10})
        return (best.x, sign * best.fun) if best.fun < sign * h[index] else (t[index], h[index])
    first = s.head_after(seated)
    high, low = polish(int(h.argmax()), -1), polish(int(h.argmin()), 1)
    if first >= high[1]:
        high = (seated, first)
    law = s.law
    opens = s.case.upstream(seated) - law.resistance(0.0) / law.arm_area(0.0) / (RHO * GRAVITY)
    return {
        "head_after_seating_m": first,
        "peak_head_m": high[1], "peak_delay_s": high[0] - seated,
        "min_head_m": low[1], "min_delay_s": low[0] - seated,
        "would_reopen_after_s": reopening(s, opens, t, h),
    }


def balances(s):
    """Relative residuals: disc energy, and volume stored in the branch against its end flows."""
    law, seated, delay = s.law, s.marks["seated"], s.delay

    potential = law.potential
    work = s.quadrature(lambda t: (law.arm_area(s.at(t)[1]) * s.at(t)[3] + law.cushion(s.at(t)[1], s.at(t)[2])) * s.at(t)[2],
                        s.marks["left_stop"], seated)
    w = s.marks["speed"]
    energy = law.inertia * w * w / 2 + potential(0.0) - potential(law.travel)
    scale = abs(work) + law.inertia * w * w / 2 + abs(potential(0.0) - potential(law.travel))

    # Volume per bore area (m): inflow less outflow = (g/a^2) integral of (H - H_h) dx.
    wave, a, g = s.wave, WAVE_SPEED, GRAVITY
    inflow = s.quadrature(lambda t: s.at(t)[0] - V_START, 0.0, seated)

    def integral(left, right):
        edges = [left] + sorted({p for a_, b_, _ in s.wave._pieces for p in (a_, b_) if left < p < right}) + [right]
        x, k = roots_legendre(8)
        return sum((q - p) / 2 * sum(c * wave((p + q) / 2 + (q - p) / 2 * z) for c, z in zip(k, x))
                   for p, q in zip(edges[:-1], edges[1:]))
    outflow = 2 * g / a * integral(0.0, seated - delay / 2)
    stored = g / a * (integral(seated - delay / 2, seated) - integral(seated - delay, seated - delay / 2))
    return {"disc_energy": abs(energy - work) / scale,
            "branch_volume": abs(inflow - outflow - stored) / (V_START * seated)}
