"""Disc and rigid column: an ordinary differential equation, stiff near the seat."""
from math import sqrt

from scipy.integrate import solve_ivp

from elastic import reversal
from law import GRAVITY, RHO, V_LAM
from surroundings import HEADER, V_START


class RigidColumn:
    """V' = g (H_up - H_h)/L - dp/(rho L), states V, y and v_rel (so that dp keeps its digits)."""

    def __init__(self, case, rtol):
        self.case, self.law, self.rtol, self.marks, self.pieces = case, case.law, rtol, {}, []

    def dp(self, y, v_rel):
        return RHO / 2 * v_rel * sqrt(v_rel * v_rel + V_LAM**2) / self.law.g(y)**2

    def _rhs(self, t, s):
        v, y, v_rel = s
        law, case = self.law, self.case
        dp = self.dp(y, v_rel)
        w = (v - v_rel) / law.sweep
        dv = (GRAVITY * (case.upstream(t) - HEADER) - dp / RHO) / case.length
        return [dv, w, dv - law.sweep * law.acceleration(y, w, dp)]

    def run(self):
        law = self.law
        near = 1e-6 * law.travel   # the last micro-part is closed with constant acceleration

        def column(t, s):
            dp = self.dp(law.travel, s[0])
            return [(GRAVITY * (self.case.upstream(t) - HEADER) - dp / RHO) / self.case.length]

        def net(t, s):
            return law.acceleration(law.travel, 0.0, self.dp(law.travel, s[0]))
        net.terminal = True
        t, v = 0.0, [V_START]
        for end in (self.case.clip, 3.0):
            sol = solve_ivp(column, (t, end), v, "DOP853", rtol=self.rtol, atol=1e-14, events=net, dense_output=True)
            self.pieces.append((t, sol.t[-1], lambda x, d=sol.sol: [d(x)[0], law.travel, d(x)[0]]))
            t, v = sol.t[-1], [sol.y[0, -1]]
            if sol.status == 1:
                break
        self.marks["left_stop"] = t

        def seat(t, s):
            return s[1] - near
        seat.terminal = True

        def curtain(t, s):
            return s[1] - law.kink
        curtain.terminal = True
        state = [v[0], law.travel, v[0]]
        ends = sorted({e for e in (self.case.clip, 3.0) if e > t})
        while True:
            end = next(e for e in ends if e > t)
            events = [seat] + ([curtain] if state[1] > law.kink + 1e-12 else [])
            sol = solve_ivp(self._rhs, (t, end), state, "Radau", rtol=self.rtol,
                            atol=[1e-2 * self.rtol, 1e-2 * self.rtol, 1e-4 * self.rtol],
                            events=events, dense_output=True, first_step=1e-6)
            self.pieces.append((t, sol.t[-1], sol.sol))
            t, state = sol.t[-1], list(sol.y[:, -1])
            if sol.status == 1 and len(sol.t_events[0]):
                break
            if sol.status == 1:
                state[1] = law.kink
        dv, w, _ = self._rhs(t, state)
        acceleration = law.acceleration(state[1], w, self.dp(state[1], state[2]))
        rest = 2 * near / (-w + sqrt(w * w - 2 * acceleration * near))
        self.marks.update(seated=t + rest, speed=w + acceleration * rest, last=t)
        self.pieces.append((t, t + rest, lambda x, t=t, s=state, dv=dv, w=w, q=acceleration: [
            s[0] + dv * (x - t), s[1] + w * (x - t) + q * (x - t)**2 / 2, s[2] * (t + rest - x) / rest]))
        return self

    def at(self, t):
        """v, y, w, dp, H_dn (= H_up - dp/(rho g)) at time t."""
        t = min(t, self.marks["last"])
        v, y, v_rel = next(p[2](t) for p in self.pieces if t <= p[1] + 1e-15)
        dp = self.dp(y, v_rel)
        w = (v - v_rel) / self.law.sweep
        return v, y, w, dp, self.case.upstream(t) - dp / (RHO * GRAVITY)

    def scalars(self):
        seated, last = self.marks["seated"], self.marks["last"]
        turned = reversal(self, 0.0, last, 1e-3)
        v = self.law.sweep * self.marks["speed"]
        return {"left_stop_s": self.marks["left_stop"],
                "velocity_leaving_stop_m_s": self.at(self.marks["left_stop"])[0],
                "reversal_s": turned, "opening_at_reversal": self.at(turned)[1] / self.law.travel,
                "mean_deceleration_to_reversal_m_s2": V_START / turned,
                "seated_s": seated, "reverse_velocity_at_seating_m_s": -v,
                "disc_speed_at_seating": self.marks["speed"],
                "dp_before_seating_pa": self.at(last)[3]}
