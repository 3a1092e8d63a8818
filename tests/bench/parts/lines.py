# Solves the cells of lines.ts with scipy: reads them as JSON, prints states at the asked hours and the seconds of the processor.
import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import coo_matrix

asked = json.load(sys.stdin)
a, b, G = (np.array(asked["links"][key]) for key in ("a", "b", "G"))
cell, area, w, R = (np.array(asked["faces"][key]) for key in ("cell", "area", "w", "R"))
volume, T_of, S_of = (np.array(asked[key]) for key in ("volume", "T", "S"))
step, below, freezes = asked["step"], asked["below"], asked["freezes_C"]
cells = len(volume)


def along(values, H):
    q = H / step + below
    i = np.clip(q, 0, len(values) - 2).astype(int)
    return values[i] + (q - i) * (values[i + 1] - values[i])


def derivative(air_C):
    def rate(_, H):
        S = along(S_of, H)
        q = G * (S[b] - S[a])
        T = along(T_of, H[cell])
        k = np.where(T >= freezes, 0.5, 0.5 + 0.9 * (1 - freezes / np.minimum(T, freezes)))
        into = np.bincount(a, q, cells) - np.bincount(b, q, cells)
        return (into + np.bincount(cell, area * (air_C - T) / (R + w / k), cells)) / volume

    return rate


pattern = coo_matrix(
    (np.ones(2 * len(a) + cells), (np.r_[a, b, np.arange(cells)], np.r_[b, a, np.arange(cells)])), (cells, cells)
)
band = int(np.max(np.abs(a - b)))


def solve(method, tolerance):
    how = {"jac_sparsity": pattern} if method == "BDF" else {"lband": band, "uband": band}
    H, t, states = np.full(cells, asked["start"]), 0.0, []
    for end_h, air_C in asked["stages"]:
        hours = [h for h in asked["hours"] if t < 3600 * h <= 3600 * end_h]
        at = np.unique(np.r_[3600.0 * np.array(hours), 3600.0 * end_h])
        done = solve_ivp(
            derivative(air_C), (t, 3600.0 * end_h), H, method, at, atol=tolerance, rtol=1e-8, **how
        )
        if not done.success:
            raise SystemExit(done.message)
        H, t = done.y[:, -1], 3600.0 * end_h
        states += [done.y[:, i].tolist() for i, s in enumerate(at) if any(abs(s - 3600 * h) < 1 for h in hours)]
    return states


for method, tolerance in asked["methods"]:
    states = solve(method, tolerance)
    seconds = []
    for _ in range(asked["runs"]):
        began = time.process_time()
        solve(method, tolerance)
        seconds.append(time.process_time() - began)
    print(json.dumps({"method": method, "states": states, "seconds": seconds}))
