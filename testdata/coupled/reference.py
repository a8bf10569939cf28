"""Reference integration of a check-valve disc coupled with the liquid around it.

Run: /usr/bin/python3 reference.py     (writes reference.json and reference.csv beside itself)
Equations: README.md.
"""
import csv
import json
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import scipy

from elastic import Elastic, aftermath, balances, scalars
from fall import free_fall
from inclined import INCLINED
from law import AXIAL, DASHPOT, GRAVITY, RHO, SWING, V_LAM
from rigid import RigidColumn
from surroundings import HEADER, V_START, WAVE_SPEED, Case

TIGHT = 1e-12

CASES = [
    Case("S-6", SWING, 6.0, 40.0, 5.0),
    Case("S-40", SWING, 40.0, 250.0, 33.0),
    Case("A-6", AXIAL, 6.0, 40.0, 5.0),
    Case("A-40", AXIAL, 40.0, 250.0, 33.0),
    Case("D-6", DASHPOT, 6.0, 40.0, 5.0),
    Case("I-6", INCLINED, 6.0, 40.0, 5.0),
]
LAWS = {"swing": SWING, "axial": AXIAL, "dashpot": DASHPOT, "inclined": INCLINED}
RIGID = replace(CASES[0], name="S-6-rigid")


def sample_times(case, seated, rows=40, fine=10):
    """Whole multiples of a fraction of L/a, so that they fall on any grid with whole reaches."""
    base = case.length / WAVE_SPEED / (5 if case.length < 20 else 10)
    last = int(seated / base)
    stride = max(1, -(-(last - fine) // rows))
    steps = sorted(set(range(0, last - fine, stride)) | set(range(last - fine + 1, last + 1)))
    return [n * base for n in steps] + [seated]


def spread(tight, other):
    return {k: abs(other[k] - tight[k]) for k in
            ("reversal_s", "seated_s", "reverse_velocity_at_seating_m_s", "disc_speed_at_seating")}


def rounded(value):
    if isinstance(value, dict):
        return {k: rounded(v) for k, v in value.items()}
    if isinstance(value, list):
        return [rounded(v) for v in value]
    return float(f"{value:.10g}") if isinstance(value, (float, np.floating)) else value


def main():
    folder = Path(__file__).parent
    rows, cases = [], []
    for case in CASES + [RIGID]:
        rigid = case is RIGID
        solve = (lambda c, r: RigidColumn(c, r).run()) if rigid else (lambda c, r: Elastic(c, r).run())
        read = (lambda s: s.scalars()) if rigid else scalars
        tight = solve(case, TIGHT)
        result = read(tight)
        accuracy = {f"rtol_{r:g}": spread(result, read(solve(case, r))) for r in (1e-7, 1e-9, 1e-10, 1e-11)}
        if not rigid:
            accuracy["Radau_1e-10"] = spread(result, read(Elastic(case, 1e-10, "Radau").run()))
        entry = {"name": case.name, "column": "rigid" if rigid else "elastic",
                 "law": next(n for n, law in LAWS.items() if law is case.law), "branch_length_m": case.length,
                 "head_start_m": case.head_start, "head_fall_rate_m_s": case.rate, "head_fall_m": case.drop,
                 "result": result, "difference_from_rtol_1e-12": accuracy}
        if not rigid:
            entry["held_shut"] = aftermath(tight)
            entry["balance"] = balances(tight)
        cases.append(entry)
        seated = tight.marks["seated"]
        for t in sample_times(case, seated):
            v, y, w, dp, head = tight.at(t)
            if rigid and t == seated:
                v, y, w = tight.law.sweep * tight.marks["speed"], 0.0, tight.marks["speed"]
            rows.append([case.name] + [f"{x:.10g}" for x in (t, v, max(y, 0.0), w, dp, case.upstream(t), head)])
        print(case.name, json.dumps(rounded(entry), indent=1), flush=True)

    laws = {name: law.document() for name, law in LAWS.items()}
    document = {
        "equations": {
            "motion": "M y'' = kappa dp A arm - preload - rate y - weight sin(y + offset) - damping y'|y'| + dashpot grip(y) y'^2 while closing",
            "grip": "u^2 (3 - 2 u), u = (dashpot_span travel - y)/(0.2 dashpot_span travel), 1 beyond u = 1",
            "kappa": "kappa_seat + (kappa_open - kappa_seat) (y/travel)^2, on the bore area",
            "flow": "v_rel sqrt(v_rel^2 + v_lam^2) = g^2 2 dp/rho, v_rel = v - sweep y', g = 1/sqrt(zeta)",
            "zeta": "zeta_open + (1/(Cc alpha) - 1/(Cc alpha_max))^2 for alpha < alpha_max, zeta_open beyond; alpha = alpha_rate y",
            "branch": "H_dn = H_h + F(t) - F(t - 2L/a), v = V_0 + (g/a)(F(t) + F(t - 2L/a))",
            "upstream": "H_up = head_start - min(head_fall_rate t, head_fall)"},
        "constants": {"rho_kg_m3": RHO, "g_m_s2": GRAVITY, "v_lam_m_s": V_LAM, "wave_speed_m_s": WAVE_SPEED,
                      "header_head_m": HEADER, "velocity_start_m_s": V_START},
        "laws": laws, "cases": cases, "free_fall": free_fall(TIGHT),
        "versions": {"python": sys.version.split()[0], "scipy": scipy.__version__, "numpy": np.__version__}}
    (folder / "reference.json").write_text(json.dumps(rounded(document), indent=1) + "\n")
    with open(folder / "reference.csv", "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(["case", "t_s", "v_m_s", "y", "w", "dp_pa", "head_upstream_m", "head_downstream_m"])
        out.writerows(rows)
    print(json.dumps(rounded(document["free_fall"]), indent=1))


if __name__ == "__main__":
    main()
