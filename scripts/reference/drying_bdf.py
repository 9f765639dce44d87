#!/usr/bin/env python3
"""Drying of a layer by scipy's BDF: an independent check of model/drying.

Written apart from the TypeScript solver and by other means:
  * state is water content w (not humidity); h is found from w by Newton's method on the analytic isotherm;
  * conductivity over a gap is integrated by Gauss-Legendre quadrature, without tables or a Kirchhoff potential;
  * the face humidity is found by a bracketing root search at every evaluation;
  * even cells after a square-root stretch, N = 160; time by variable-order BDF with rtol 1e-7.

Prints JSON. Regenerate the stored result with
  python3 scripts/reference/drying_bdf.py > tests/published/data/drying-bdf.json
Needs numpy and scipy.
"""
import json
import sys
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.sparse import lil_matrix

DAY = 86400.0
N = 160
GAUSS_X, GAUSS_W = np.polynomial.legendre.leggauss(6)


def bsb(cement, wc, age=90.0, temp_k=293.15):
    """Xi, Bazant, Molina, Jennings 1994, type I cement."""
    c = np.exp(855.0 / temp_k)
    n = (2.5 + 15.0 / age) * (0.33 + 2.2 * wc) * 1.1
    k = ((1 - 1 / n) * c - 1) / (c - 1)
    v = (0.068 - 0.22 / age) * (0.85 + 0.45 * wc) * 0.9 * cement
    return v, c, k


MATERIALS = {
    "cement-sand-screed": dict(gab=bsb(400, 0.55), cap=(60.0, 40.0), lam=(1.16e-7, 0.10, 0.75, 6.0), h0=0.98, dh=0.02, cure=7),
    "cement-sand-screed, model code shape": dict(gab=bsb(400, 0.55), cap=(60.0, 40.0), lam=(2.69e-7, 0.05, 0.80, 15.0), h0=0.98, dh=0.02, cure=7),
    "dense-concrete": dict(gab=bsb(400, 0.40), cap=(20.0, 40.0), lam=(3.5e-8, 0.10, 0.75, 6.0), h0=0.96, dh=0.08, cure=7),
    "calcium-sulfate-screed": dict(gab=(3.0, 10.0, 0.6), cap=(120.0, 60.0), lam=(3.5e-7, 0.05, 0.90, 6.0), h0=0.995, dh=0.0, cure=2),
}


def air(day):
    """Seasonal and daily temperature, a nine-day wave and a daily swing of humidity. Days since uncovering."""
    temp = 17.0 + 4.0 * np.sin(2 * np.pi * day / 365.0) + 2.0 * np.sin(2 * np.pi * day)
    rh = 60.0 + 8.0 * np.sin(2 * np.pi * day / 9.0) - 4.0 * np.sin(2 * np.pi * day)
    return temp, rh


def psat(t):
    return 610.94 * np.exp(17.625 * t / (243.04 + t))


def run(name, length=0.065, days=365):
    m = MATERIALS[name]
    (v, c, k), (wcap, mexp), (lam1, alpha, hc, n) = m["gab"], m["cap"], m["lam"]

    def water(h):
        x = k * h
        return v * c * x / ((1 - x) * (1 + (c - 1) * x)) + wcap * h**mexp

    def slope(h):
        x = k * h
        num, den = v * c * x, (1 - x) * (1 + (c - 1) * x)
        dden = -(1 + (c - 1) * x) + (c - 1) * (1 - x)
        return k * (v * c * den - num * dden) / den**2 + wcap * mexp * h ** (mexp - 1)

    def lam(h):
        return lam1 * (alpha + (1 - alpha) / (1 + (np.maximum(0.0, 1 - h) / (1 - hc)) ** n))

    def integral(a, b):
        mid, half = 0.5 * (a + b), 0.5 * (b - a)
        return sum(w * lam(mid + half * x) for x, w in zip(GAUSS_X, GAUSS_W)) * half

    edges = length * np.linspace(0, 1, N + 1) ** 1.6
    dx = np.diff(edges)
    mid = 0.5 * (edges[1:] + edges[:-1])
    gap = np.diff(mid)
    guess = {"h": np.full(N, m["h0"])}

    def humidity(w):
        h = guess["h"].copy()
        for _ in range(60):
            step = (water(h) - w) / slope(h)
            h = np.clip(h - step, 1e-4, 1.2)
            if np.max(np.abs(step)) < 1e-13:
                break
        guess["h"] = h
        return h

    def hydration(temp):
        return np.exp(4000 * (1 / 293.15 - 1 / (273.15 + temp)))

    def drop_rate(te_s):
        """d/dte of dh * exp(-(16 h/te)^0.9)^1.5, per second of equivalent age."""
        te = te_s / 3600.0
        u = (16.0 / te) ** 0.9
        return m["dh"] * np.exp(-1.5 * u) * 1.5 * 0.9 * u / te / 3600.0

    # Age at 20 C, integrated once on a five-minute grid.
    grid = np.arange(0, days + 1, 1 / 288.0)
    rates = hydration(air(grid)[0])
    ages = m["cure"] * DAY + np.concatenate([[0], np.cumsum(0.5 * (rates[1:] + rates[:-1]) * DAY / 288.0)])

    def rhs(t, y):
        w = y[:N]
        te = np.interp(t / DAY, grid, ages)
        h = humidity(w)
        temp, rh = air(t / DAY)
        f = np.exp(4700 * (1 / 293.15 - 1 / (273.15 + temp)))
        beta = 7e-9 * (4 + 4 * 0.1)
        ps, pv = psat(temp), psat(temp) * rh / 100
        first = float(h[0])

        def mismatch(hs):
            return f * integral(hs, first) / mid[0] - beta * (hs * ps - pv)

        hs = brentq(mismatch, 1e-3, 1.3, xtol=1e-14)
        out = beta * (hs * ps - pv)
        up = f * integral(h[:-1], h[1:]) / gap
        net = np.zeros(N)
        net[:-1] += up
        net[1:] -= up
        net[0] -= out
        rate = hydration(temp)
        gate = 1 / (1 + (7.5 - 7.5 * h) ** 4)
        bound = slope(h) * drop_rate(te) * rate * gate
        return np.concatenate([net / dx - bound, [out]])

    y0 = np.concatenate([np.full(N, water(m["h0"])), [0.0]])

    def jacobian(t, y):
        """Tridiagonal, by differences three columns at a time; nothing depends on the water already gone."""
        base = rhs(t, y)
        jac = lil_matrix((N + 1, N + 1))
        for colour in range(3):
            cols = np.arange(colour, N, 3)
            step = 1e-6 * np.maximum(1.0, np.abs(y[cols]))
            moved = y.copy()
            moved[cols] += step
            change = rhs(t, moved) - base
            for c, d in zip(cols, step):
                for r in range(max(0, c - 1), min(N, c + 2)):
                    jac[r, c] = change[r] / d
                if c == 0:
                    jac[N, 0] = change[N] / d
        return jac.tocsc()

    looks = [3, 7, 14, 28, 56, 90, 180, 365]
    sol = solve_ivp(rhs, (0, days * DAY), y0, method="BDF", rtol=1e-7, atol=1e-8, t_eval=[d * DAY for d in looks], jac=jacobian, max_step=0.1 * DAY)
    assert sol.success, sol.message
    rows = []
    for d, y in zip(looks, sol.y.T):
        guess["h"] = np.full(N, 0.7)
        h = humidity(y[:N])
        at = float(np.interp(0.4 * length, mid, h))
        rows.append(dict(day=d, rhAtFortyPercent=100 * at, evaporatedKgPerM2=float(y[N])))
    return rows


if __name__ == "__main__":
    if "--one" in sys.argv:  # one material only, for timing
        run("cement-sand-screed")
        sys.exit(0)
    result = dict(
        what="65 mm, one face, one year from uncovering, varying climate; see the script for every constant",
        source="scripts/reference/drying_bdf.py, scipy.integrate.solve_ivp BDF, N=160, rtol 1e-7",
        provenance="independent reference code of this project; same equations and constants, other method",
        scipy=scipy.__version__,
        numpy=np.__version__,
        climate="T = 17 + 4 sin(2 pi d/365) + 2 sin(2 pi d) C; RH = 60 + 8 sin(2 pi d/9) - 4 sin(2 pi d) %; air 0.1 m/s",
        materials={name: run(name) for name in MATERIALS},
    )
    json.dump(result, sys.stdout, indent=1)
    sys.stdout.write("\n")
