#!/usr/bin/python3
"""Works out, with numpy and scipy, what calc/trade and calc/curve also work out.

Each answer is reached another way than the program's where there is one: by a
numerical integral, a differential equation, a root, a matrix, a spline of scipy's.
The answers go to the CSV files beside this script, the versions to versions.txt;
Go tests compare. Run it with Debian's python3-numpy and python3-scipy:

    /usr/bin/python3 crosscheck.py
"""
import csv
import math
import os
import platform

import numpy as np
import scipy
from scipy import constants, integrate, interpolate, optimize

HERE = os.path.dirname(os.path.abspath(__file__))
rng = np.random.default_rng(20270601)
INCH, FOOT, POUND = constants.inch, constants.foot, constants.pound


def listed(values, unit):
    return "[" + ", ".join(f"{v:.10g} {unit}" for v in values) + "]"


def pointed(xs, ys, unit):
    return "[" + ", ".join(f"[{x:.10g} {unit}, {y:.10g} {unit}]" for x, y in zip(xs, ys)) + "]"


def write(name, heading, rows):
    with open(os.path.join(HERE, name), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n")
        w.writerow(heading)
        w.writerows(rows)


class Answers:
    """Rows of expressions of the calc language with the answers expected."""

    def __init__(self, name):
        self.name, self.rows = name, []

    def add(self, expression, want, unit, tolerance, by):
        self.rows.append([expression, f"{want:.12g}", unit, f"{tolerance:g}", by])

    def done(self):
        write(self.name, ["expression", "want", "unit", "tolerance", "by"], self.rows)


# ---------------------------------------------------------------- wood and shop

def emc(t, h):
    """Wood Handbook (2021), eq. 4-5, degrees Fahrenheit, as Hailwood and Horrobin's
    two-hydrate sorption isotherm."""
    w = np.polyval([0.00415, 0.452, 330], t)
    k = np.polyval([-0.000000844, 0.000463, 0.791], t)
    k1 = np.polyval([-0.0000935, 0.000775, 6.34], t)
    k2 = np.polyval([-0.0000904, 0.0284, 1.09], t)
    a = k * h
    dissolved = a / (1 - a)
    hydrated = (k1 * a + 2 * k1 * k2 * a ** 2) / (1 + k1 * a + k1 * k2 * a ** 2)
    return 1800 / w * (dissolved + hydrated)


def magnus(t):
    return 6.112 * np.exp(17.62 * t / (243.12 + t))


def wood():
    z = Answers("wood.csv")
    for t in (30, 45, 60, 77, 90, 110, 130):
        for h in (1, 12, 35, 50, 66, 80, 94):
            z.add(f"equilibrium_moisture({t} °F, {h} %)", emc(t, h / 100), "%", 1e-10, "numpy.polyval")
    for c in (2, 15, 31.5):
        z.add(f"equilibrium_moisture({c} °C, 72 %)", emc(c * 1.8 + 32, 0.72), "%", 1e-10, "numpy.polyval")

    t, w, n = rng.uniform(0.5, 4, 6), rng.uniform(3, 12, 6), rng.integers(1, 9, 6)
    l = rng.uniform(4, 16, 6)
    for a in zip(t, w, l, n):
        edges = np.array([a[0], a[1], a[2] * 12]) * INCH
        z.add(f"board_feet({a[0]:.10g} in, {a[1]:.10g} in, {a[2]:.10g} ft, {a[3]})", np.prod(edges) * a[3] / (144 * INCH ** 3), "bd ft", 1e-8, "numpy.prod over scipy.constants.inch")

    # swelling as a differential equation: dW/dM = W / (100 Ms/S − Ms + M)
    for s, m1, m2 in ((7.5, 8, 14), (10.5, 6, 25), (4.9, 16, 9), (2.2, 12, 7)):
        grown = integrate.solve_ivp(lambda m, w: w / (3000 / s - 30 + m), (m1, m2), [100], rtol=1e-12, atol=1e-12).y[0, -1]
        z.add(f"width_change_from_shrinkage(100 mm, {s} %, {m1} %, {m2} %)", grown - 100, "mm", 1e-8, "scipy.integrate.solve_ivp")

    # movement at a ring angle as the turning of a strain tensor
    for angle in (0, 17, 45, 73, 90):
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        turn = np.array([[c, s], [-s, c]])
        z.add(f"movement_by_ring_angle(0.00165, 0.00285, {angle}°)", (turn @ np.diag([0.00285, 0.00165]) @ turn.T)[0, 0], "", 1e-10, "numpy, strain tensor")

    for g, m in ((0.29, 12), (0.60, 14), (0.42, 0), (0.5, 30)):
        shrunk = 1 - 0.265 * g * (30 - m) / 30  # volume at m of a unit green volume
        z.add(f"green_volume_density({g}, {m} %)", 1000 * g * (1 + m / 100) / shrunk, "kg/m^3", 1e-10, "mass over shrunken volume")

    # 15 700 and 7 850 lbf with inches, put into newtons by scipy's constants
    for g, d, l in ((0.68, 4.8, 25), (0.32, 3.5, 19)):
        z.add(f"screw_withdrawal({g}, {d} mm, {l} mm)", 15700 * constants.psi * g ** 2 * d * l * 1e-6, "N", 1e-10, "scipy.constants.psi")
        z.add(f"nail_withdrawal({g}, {d} mm, {l} mm)", 7850 * constants.psi * g ** 2.5 * d * l * 1e-6, "N", 1e-10, "scipy.constants.psi")

    # sag of a batten as the boundary value problem of the beam
    e, b, d, span, density = 10.8e9, 0.022, 0.018, 1.7, 430
    load, stiff = density * 9.81 * b * d, e * b * d ** 3 / 12
    scale = load * span ** 4 / stiff
    beam = integrate.solve_bvp(lambda x, y: np.vstack([y[1], y[2], y[3], np.ones_like(x)]),
                               lambda p, q: np.array([p[0], p[2], q[0], q[2]]), np.linspace(0, 1, 41), np.zeros((4, 41)), tol=1e-10)
    z.add(f"batten_sag({e / 1e9} GPa, {b * 1000:g} mm, {d * 1000:g} mm, {span} m, {density} kg/m^3)", beam.sol(0.5)[0] * scale * 1000, "mm", 1e-7, "scipy.integrate.solve_bvp, g = 9.81")

    # the outer face of a bent plank: its length over that of the middle
    for t, r in ((15, 900), (6, 400)):
        outer = integrate.quad(lambda a: r + t, 0, 1)[0] / integrate.quad(lambda a: r + t / 2, 0, 1)[0] - 1
        z.add(f"bending_strain({t} mm, {r} mm)", 100 * outer, "%", 1e-10, "arc lengths")

    # loose plies against a solid of the same glued thickness: what the form keeps
    for n in (2, 5, 9):
        loose, solid = n * (1 / n) ** 3, 1.0
        z.add(f"form_rise_for(200 mm, {n})", optimize.brentq(lambda f: f - f * loose / solid - 200, 100, 400, xtol=1e-12), "mm", 1e-10, "scipy.optimize.brentq on the second moments")

    # filler between the sides of a corner and the arc that touches them
    for corner in (60, 90, 121):
        half, r = math.radians(corner) / 2, 12.0
        reach, centre = r / math.tan(half), r / math.sin(half)
        under = lambda x: centre - math.sqrt(max(0, r * r - x * x))  # arc seen along the bisector
        edge = reach * math.sin(half)
        area = 2 * integrate.quad(lambda x: under(x) - x / math.tan(half), 0, edge, epsabs=1e-12)[0]
        z.add(f"fillet_volume({r:g} mm, 1 m, {corner}°)", area, "mL", 1e-8, "scipy.integrate.quad")

    for t, h in ((14, 80), (5, 95), (30, 40), (21.5, 62)):
        dew = optimize.brentq(lambda d: magnus(d) - h / 100 * magnus(t), -60, 60, xtol=1e-12)
        z.add(f"dew_point({t} °C, {h} %)", dew, "°C", 1e-9, "scipy.optimize.brentq on the vapour pressures")
        z.add(f"dew_margin({t} °C, {h} %, 10 °C)", 10 - dew, "K", 1e-8, "scipy.optimize.brentq on the vapour pressures")

    # a rate that doubles each 10 K, run for the cure
    rate = lambda t: math.exp(math.log(2) * (t - 20) / 10) / 8
    done = integrate.solve_ivp(lambda h, y: [rate(12)], (0, 40), [0], events=lambda h, y: y[0] - 1, rtol=1e-12, atol=1e-12).t_events[0][0]
    z.add("cure_time_at(8 h, 12 °C, 20 °C)", done, "h", 1e-8, "scipy.integrate.solve_ivp to the event")

    for n in (3, 5, 9, 13):
        girths = 36 + 6 * np.sin(np.linspace(0.2, 3, n)) + rng.uniform(-1, 1, n)
        z.add(f"hull_girth_area({listed(girths, 'in')}, 19.5 in)", 2 * integrate.simpson(girths, dx=19.5), "in^2", 1e-8, "scipy.integrate.simpson")
    girths = rng.uniform(20, 40, 8)
    z.add(f"hull_girth_area({listed(girths, 'in')}, 19.5 in)", 2 * integrate.trapezoid(girths, dx=19.5), "in^2", 1e-8, "scipy.integrate.trapezoid")

    for stock, pieces in ((96, [31] * 5 + [44] * 4 + [67] * 2), (3000, list(rng.integers(300, 2600, 17)))):
        n = len(pieces)
        # the fewest sticks there can be, by an integer programme: x[i, k], y[k]
        kerf, most = 3, n
        size = n * most + most
        cost = np.concatenate([np.zeros(n * most), np.ones(most)])
        each = np.zeros((n, size))
        room = np.zeros((most, size))
        for i in range(n):
            each[i, i * most:(i + 1) * most] = 1
            for k in range(most):
                room[k, i * most + k] = pieces[i] + kerf
        for k in range(most):
            room[k, n * most + k] = -(stock + kerf)
        best = optimize.milp(cost, integrality=np.ones(size), bounds=optimize.Bounds(0, 1), options={"time_limit": 60},
                             constraints=[optimize.LinearConstraint(each, 1, 1), optimize.LinearConstraint(room, -np.inf, 0)])
        assert best.success, best.message
        z.add(f"cut_list({listed(pieces, 'mm')}, {stock} mm, {kerf} mm).sticks", round(best.fun), "", 0, "scipy.optimize.milp: the fewest there can be")
    z.done()


# ---------------------------------------------------------------------- curves

def curves():
    z = Answers("curves.csv")
    for n in (4, 7, 11):
        xs = np.cumsum(np.concatenate([[0], rng.uniform(8, 26, n - 1)])).round(4)
        ys = (20 * np.sin(xs / xs[-1] * 2.6) + rng.uniform(-0.4, 0.4, n)).round(4)
        s = interpolate.CubicSpline(xs, ys, bc_type="natural")
        pts = pointed(xs, ys, "in")
        for x in np.linspace(xs[0], xs[-1], 6)[1:-1].round(4):
            z.add(f"batten_curve({pts}, {x:.10g} in)", float(s(x)), "in", 1e-9, "scipy.interpolate.CubicSpline natural")
            z.add(f"batten_slope({pts}, {x:.10g} in)", math.degrees(math.atan(s(x, 1))), "°", 1e-8, "scipy.interpolate.CubicSpline natural")
            z.add(f"bend_radius_at({pts}, {x:.10g} in)", (1 + s(x, 1) ** 2) ** 1.5 / abs(s(x, 2)), "in", 1e-7, "scipy.interpolate.CubicSpline natural")
        run = sum(integrate.quad(lambda x: math.sqrt(1 + s(x, 1) ** 2), a, b, epsabs=1e-12)[0] for a, b in zip(xs, xs[1:]))
        z.add(f"batten_length({pts})", run, "in", 1e-9, "scipy.integrate.quad on the spline")
        if n >= 5:
            for i in range(1, n - 1):
                keep = np.arange(n) != i
                off = ys[i] - interpolate.CubicSpline(xs[keep], ys[keep], bc_type="natural")(xs[i])
                z.add(f"at(fairness({listed(ys, 'in')}, {listed(xs, 'in')}).residuals, {i + 1})", off, "in", 1e-8, "CubicSpline natural without the point")
    for chord, rise in ((48, 2), (72, 3), (60, 19)):
        r = optimize.brentq(lambda r: r - math.sqrt(r * r - chord ** 2 / 4) - rise, chord / 2, 1e5, xtol=1e-11)
        z.add(f"arc_radius({chord} in, {rise} in)", r, "in", 1e-9, "scipy.optimize.brentq")
        z.add(f"arc_length({chord} in, {rise} in)", integrate.quad(lambda x: r / math.sqrt(r * r - x * x), -chord / 2, chord / 2, epsabs=1e-11)[0], "in", 1e-9, "scipy.integrate.quad")
    for _ in range(3):
        p = rng.uniform(-40, 40, (3, 2)).round(3)
        a = np.linalg.solve(np.column_stack([2 * p, np.ones(3)]), (p ** 2).sum(axis=1))
        text = ", ".join(f"[{x:.10g} in, {y:.10g} in]" for x, y in p)
        z.add(f"circle_through_three_points({text}).radius", math.sqrt(a[2] + a[0] ** 2 + a[1] ** 2), "in", 1e-8, "numpy.linalg.solve")
    readings = rng.uniform(1200, 1210, 9).round(2)
    z.add(f"mean_reading({listed(readings, 'mm')})", readings.mean(), "mm", 1e-10, "numpy.mean")
    z.add(f"reading_scatter({listed(readings, 'mm')})", readings.std(ddof=1), "mm", 1e-8, "numpy.std, ddof 1")
    z.done()


# ----------------------------------------------------- least squares, for calc/curve

def fits():
    rows = []

    def row(kind, xs, ys, **answers):
        rows.append([kind, " ".join(f"{v:.12g}" for v in xs), " ".join(f"{v:.12g}" for v in ys),
                     " ".join(f"{k}={v:.12g}" for k, v in answers.items())])

    for n in (3, 6, 12):
        xs = np.sort(rng.uniform(0, 3000, n)).round(2)
        ys = (2 + 0.003 * xs + rng.normal(0, 1, n)).round(3)
        slope, offset = np.polyfit(xs, ys, 1)
        row("line by numpy.polyfit", xs, ys, slope=slope, offset=offset)
    for n, radius in ((5, 3360), (9, 71000), (7, 12)):
        xs = np.linspace(0, 1200 if radius > 100 else 15, n).round(2)
        ys = (np.sqrt(radius ** 2 - (xs - xs[-1] / 2) ** 2) - radius + rng.normal(0, 0.2 if radius > 100 else 0.01, n)).round(4)
        mid = xs.mean(), ys.mean()
        u, v = xs - mid[0], ys - mid[1]
        a = np.linalg.lstsq(np.column_stack([2 * u, 2 * v, np.ones(n)]), u ** 2 + v ** 2, rcond=None)[0]
        row("circle by numpy.linalg.lstsq", xs, ys, radius=math.sqrt(a[2] + a[0] ** 2 + a[1] ** 2), x=a[0] + mid[0], y=a[1] + mid[1])
    write("fits.csv", ["kind", "xs", "ys", "answers"], rows)


# -------------------------------------------------------------------------- hulls

def hulls():
    z = Answers("hulls.csv")
    for n in (5, 9, 13):
        h = 22.5
        y = np.abs(24 * np.sin(np.linspace(0, 2.6, n)) + rng.uniform(0, 1, n)).round(3)
        y[0] = 0
        x = h * np.arange(n)
        z.add(f"simpson_first({listed(y, 'in')}, {h} in)", integrate.simpson(y, dx=h), "in^2", 1e-9, "scipy.integrate.simpson")
        z.add(f"centre_of_flotation({listed(y, 'in')}, {h} in)", integrate.simpson(x * y, dx=h) / integrate.simpson(y, dx=h), "in", 1e-9, "scipy.integrate.simpson")
        z.add(f"metacentric_radius({listed(y, 'in')}, {h} in, 30000 in^3)", 2 / 3 * integrate.simpson(y ** 3, dx=h) / 30000, "in", 1e-9, "scipy.integrate.simpson")
        uneven = np.cumsum(np.concatenate([[0], rng.uniform(8, 26, n - 1)])).round(3)
        z.add(f"trapezoid_area({listed(y, 'in')}, {listed(uneven, 'in')})", integrate.trapezoid(y, uneven), "in^2", 1e-9, "scipy.integrate.trapezoid")
    # a flared section as a polygon under the water line, both sides
    for bottom, flare, draft in ((18, 20, 4), (14, 12, 6.5)):
        top = bottom + 20 * math.tan(math.radians(flare))
        y = bottom + draft * math.tan(math.radians(flare))
        px, py = np.array([-bottom, bottom, y, -y]), np.array([0, 0, draft, draft])
        area = 0.5 * abs(np.dot(px, np.roll(py, -1)) - np.dot(py, np.roll(px, -1)))
        z.add(f"section_area([[0 in, 0 in], [{bottom} in, 0 in], [{top:.12g} in, 20 in]], {draft} in)", area, "in^2", 1e-9, "numpy, shoelace")
    for a, b, c in ((8, 12, 13), (7, 9, 13)):
        corner = (a * a + c * c - b * b) / (2 * a)
        area = abs(np.cross([a, 0], [corner, math.sqrt(c * c - corner ** 2)])) / 2
        z.add(f"sail_area_triangle({a} ft, {b} ft, {c} ft)", area, "ft^2", 1e-9, "numpy.cross")
    whole_hulls(z)
    z.done()


def half_section(chine, sheer, water):
    """One side of a chine section below water: area, first moment about the base, and
    half-breadth, by quadrature of the straight side."""
    (y0, z0), (y1, z1) = chine, sheer
    if water <= z0:
        return 0, 0, 0
    half = lambda v: np.interp(v, [z0, z1], [y0, y1])
    return (integrate.quad(half, z0, water, epsabs=1e-13)[0],
            integrate.quad(lambda v: v * half(v), z0, water, epsabs=1e-13)[0], float(half(water)))


def whole_hulls(z):
    """Flat-bottomed hulls of random offsets: afloat by scipy's root finders."""
    fresh = 62.4 / 1728  # pounds to the cubic inch
    for n, rule, add in ((9, "trapezoid", integrate.trapezoid), (9, "simpson first", integrate.simpson), (13, "simpson first", integrate.simpson)):
        x = 20.0 * np.arange(n)
        u = x / x[-1]
        chine = np.column_stack([2 + 14 * np.sin(np.pi * u) ** 0.8 + 6 * u, 6 * (u - 0.55) ** 2 + rng.uniform(0, 0.2, n)]).round(4)
        sheer = np.column_stack([chine[:, 0] + rng.uniform(3, 5, n), 18 + 6 * (u - 0.6) ** 2]).round(4)
        lines = lambda k: f"[{listed(chine[:, k], 'in')}, {listed(sheer[:, k], 'in')}]"
        hull = f"hull_from_lines(20 in, {lines(0)}, {lines(1)})"

        def cut(surface):
            a, m, y = np.array([half_section(c, s, w) for c, s, w in zip(chine, sheer, surface * np.ones(n))]).T
            v = 2 * add(a, x=x)
            return v, 2 * add(a * x, x=x) / v, 2 * add(m, x=x) / v, y

        by = f"numpy and scipy.integrate, {rule}"
        for weight in (300, 650):
            water = optimize.brentq(lambda w: fresh * cut(w)[0] - weight, 0.5, 16, xtol=1e-13)
            v, lcb, kb, y = cut(water)
            plane, moved = 2 * add(y, x=x), 2 * add(y * x, x=x)
            lcf = moved / plane
            z.add(f'draft_for({hull}, {weight} lb, "fresh", "{rule}").water_height', water, "in", 1e-9, by + ", brentq")
            floats = f'hydrostatics({hull}, {water:.12g} in, "fresh", "{rule}")'
            for field, want, unit in (("centre_of_buoyancy", lcb, "in"), ("buoyancy_over_base", kb, "in"), ("waterplane_area", plane, "in^2"),
                                      ("centre_of_flotation", lcf, "in"), ("metacentric_radius", 2 / 3 * add(y ** 3, x=x) / v, "in"),
                                      ("longitudinal_metacentric_radius", 2 * add(y * (x - lcf) ** 2, x=x) / v, "in")):
                z.add(f"{floats}.{field}", want, unit, 1e-9, by)
            for shift, high in ((-6, 12), (9, 20)):
                at = lcb + shift

                def unbalanced(p):
                    v, along, up, _ = cut(p[0] + p[1] * (x - x.mean()))
                    return fresh * v / weight - 1, (along - at - p[1] * (high - up)) / x[-1]

                middle, slope = optimize.fsolve(unbalanced, (water, 0), xtol=1e-13)
                rests = f'trim_for({hull}, [{weight} lb], [{at:.12g} in], "fresh", {high} in, "{rule}")'
                z.add(f"{rests}.trim", slope * x[-1], "in", 1e-7, by + ", fsolve")
                z.add(f"{rests}.water_height", middle, "in", 1e-8, by + ", fsolve")


if __name__ == "__main__":
    wood()
    curves()
    fits()
    hulls()
    with open(os.path.join(HERE, "versions.txt"), "w") as f:
        f.write(f"python {platform.python_version()}\nnumpy {np.__version__}\nscipy {scipy.__version__}\n")
        f.write("Debian 12 packages python3-numpy and python3-scipy\n")
