#!/usr/bin/env python3
"""Oracle of the lateral dynamics: the equations of motion of a train derived anew, by Kane's method, with sympy.

    python3 tests/published/oracle/lateral.py --write    writes lateral-trains.jsonl beside this file
    python3 tests/published/oracle/lateral.py --check    derives everything again and compares with that file

Needs python3-sympy (Debian), which brings mpmath; nothing else. Each line of the file is a random train (the shape of
`Train` in language/mechanics/stability/train.ts, SI units), a speed and the eigenvalues of its lateral motion;
tests/published/lateral-oracle.test.ts compares the model with them.

How it is independent: not a line is shared with the model. Generalised speeds are the velocities of the first unit along
and across its own axes and the yaw rates; velocities, partial velocities and accelerations are written nonlinearly,
tyre slip as an angle between velocity and wheel, longitudinal forces and weight as vectors. Only then each part is
linearised symbolically about straight running, with an acceleration where the forces do not balance the weight. The
eigenvalues are computed with 30 digits.
"""

import argparse
import json
import pathlib
import random
import sys

import mpmath
import sympy as sp

FILE = pathlib.Path(__file__).with_name("lateral-trains.jsonl")
TRAINS = 120
SEED = 20240229
MOST_UNITS = 4
mpmath.mp.dps = 30

t = sp.Symbol("t")
V, A0 = sp.symbols("V A0")


class Derivation:
    """The parts of a train on unit `i` (from 1), linearised: each a matrix in symbols, ready for numbers."""

    def __init__(self, i):
        self.i = i
        self.u = sp.Function("u")(t)
        self.v = sp.Function("v")(t)
        self.w = [sp.Function(f"w{k}")(t) for k in range(1, i + 1)]
        self.theta = [sp.Integer(0)] + [sp.Function(f"theta{k}")(t) for k in range(2, i + 1)]
        self.psi = sp.Function("psi")(t)
        self.levers = sp.symbols(f"g1:{i + 1}")
        self.speeds = [self.u, self.v, *self.w]
        self.rates = {self.theta[k].diff(t): self.w[k] - self.w[0] for k in range(1, i)}
        across = [sp.Matrix([-sp.sin(a), sp.cos(a)]) for a in self.theta]
        # Velocity of the point in the axes of the first unit, and what it gains from each generalised speed.
        self.velocity = sp.Matrix([self.u, self.v])
        for lever, rate, direction in zip(self.levers, self.w, across):
            self.velocity += lever * rate * direction
        self.partial = [self.velocity.diff(speed) for speed in self.speeds]
        self.symbols = {}

    def linear(self, forces, numbers):
        """Columns of a generalised force: by du, dv, dw…, then v, w…, theta…, psi; a function of numbers."""
        dots = [sp.Symbol(f"d{k}") for k in range(len(self.speeds))]
        plain = [sp.Symbol(f"s{k}") for k in range(len(self.speeds))]
        angles = [sp.Symbol(f"a{k}") for k in range(1, self.i)]
        psi = sp.Symbol("p")
        to_symbols = [(speed.diff(t), dot) for speed, dot in zip(self.speeds, dots)]
        to_symbols += list(zip(self.speeds, plain)) + list(zip(self.theta[1:], angles)) + [(self.psi, psi)]
        at_rest = {**{s: 0 for s in [*dots[1:], *plain[1:], *angles, psi]}, dots[0]: A0, plain[0]: V}
        rows = []
        for force in forces:
            expression = force.subs(self.rates).subs(to_symbols)
            columns = [*dots[1:], *plain[1:], *angles, psi]
            rows.append([sp.simplify(expression.diff(c).subs(at_rest)) for c in columns])
            rows[-1].append(sp.simplify(expression.subs(at_rest)))
        return sp.lambdify([*self.levers, V, A0, *numbers], sp.Matrix(rows), "mpmath")

    def generalised(self, vector):
        return [sum(a * b for a, b in zip(vector, part)) for part in self.partial]

    def mass(self):
        m = sp.Symbol("m")
        turned = sp.Matrix([-self.velocity[1], self.velocity[0]]) * self.w[0]
        acceleration = self.velocity.diff(t) + turned
        return self.linear(self.generalised(-m * acceleration), [m])

    def inertia(self):
        moment = sp.Symbol("I")
        forces = [0] * (2 + self.i)
        forces[-1] = -moment * self.w[-1].diff(t)
        return self.linear([sp.sympify(f) for f in forces], [moment])

    def axes(self):
        a = self.theta[-1]
        return sp.Matrix([sp.cos(a), sp.sin(a)]), sp.Matrix([-sp.sin(a), sp.cos(a)])

    def slip(self):
        ahead, left = self.axes()
        return sp.atan(self.velocity.dot(left) / self.velocity.dot(ahead))

    def tyre(self):
        c = sp.Symbol("C")
        return self.linear(self.generalised(-c * self.slip() * self.axes()[1]), [c])

    def tyre_of_lagging(self):
        """Per rad of a slip angle kept as a state: a column of its own, so only the value at rest is wanted."""
        c = sp.Symbol("C")
        return self.linear(self.generalised(-c * self.axes()[1]), [c])

    def slip_row(self):
        return self.linear([self.slip()], [])

    def along_unit(self):
        p = sp.Symbol("P")
        return self.linear(self.generalised(p * self.axes()[0]), [p])

    def along_course(self, fixed):
        f = sp.Symbol("F")
        course = sp.Matrix([sp.cos(self.psi), -sp.sin(self.psi)]) if fixed else sp.Matrix([1, 0])
        return self.linear(self.generalised(f * course), [f])


def derive():
    parts = {}
    for i in range(1, MOST_UNITS + 1):
        d = Derivation(i)
        parts[i] = {
            "mass": d.mass(),
            "inertia": d.inertia(),
            "tyre": d.tyre(),
            "lagging": d.tyre_of_lagging(),
            "slip": d.slip_row(),
            "unit": d.along_unit(),
            "course": d.along_course(False),
            "space": d.along_course(True),
        }
    return parts


class System:
    """The linear equations of one train: rows are generalised speeds u, v, w…; then theta…, psi and slips."""

    def __init__(self, parts, train, speed):
        self.parts, self.train = parts, train
        self.units = train["units"]
        self.n = len(self.units)
        self.fixed = train["course"] == "space"
        self.V = mpmath.mpf(speed)
        self.A0 = mpmath.mpf(train["acceleration"])
        # Columns: dv, dw… | v, w… | theta2… | psi | at rest; row 0 belongs to u.
        self.rows = mpmath.zeros(self.n + 2, 2 * (self.n + 1) + self.n + 1)
        self.slips = []
        self.fill()

    def levers(self, unit, x):
        found = []
        for k in range(unit):
            found.append(self.units[k].get("hitch", 0) - self.units[k].get("coupling", 0))
        return [mpmath.mpf(g) for g in [*found, x - self.units[unit].get("coupling", 0)]]

    def place(self, unit, block, matrix, row0=None):
        """Adds a part of unit `unit` (from 0), given for that unit's own columns, to the columns of the train."""
        i = unit + 1
        columns = list(range(i + 1))
        columns += [self.n + 1 + k for k in range(i + 1)]
        columns += [2 * (self.n + 1) + k for k in range(i - 1)]
        columns += [2 * (self.n + 1) + self.n - 1, 2 * (self.n + 1) + self.n]
        for r in range(block.rows):
            for c, column in enumerate(columns):
                matrix[(r if row0 is None else row0), column] += block[r, c]

    def add(self, unit, x, name, *numbers):
        part = self.parts[unit + 1][name]
        block = mpmath.matrix(part(*self.levers(unit, x), self.V, self.A0, *[mpmath.mpf(v) for v in numbers]))
        self.place(unit, block, self.rows)

    def fill(self):
        course = "space" if self.fixed else "course"
        for index, unit in enumerate(self.units):
            self.add(index, unit["x"], "mass", unit["mass"])
            self.add(index, unit["x"], "inertia", unit["yawInertia"])
            self.add(index, unit["x"], course, unit["mass"] * self.train["gravity"])
            for axle in unit["axles"]:
                if axle["relaxation"] > 0:
                    self.slips.append((index, axle))
                else:
                    self.add(index, axle["x"], "tyre", axle["stiffness"])
                if index > 0:
                    self.add(index, axle["x"], "unit", axle["force"])
            if index > 0:
                self.joint(index, unit["joint"])
        for force in self.train["forces"]:
            total = force["force"] + force["perSpeedSquared"] * self.V**2
            name = "unit" if force["direction"] == "unit" else course
            self.add(force["unit"], force["x"], name, total)
        # What is left over at rest in the row of u is the traction, along the first unit at its front axle.
        left = self.rows[0, self.rows.cols - 1]
        self.add(0, self.units[0]["axles"][0]["x"], "unit", -left)

    def joint(self, index, joint):
        w, theta = self.n + 1 + 1, 2 * (self.n + 1) - 1
        for row, sign in ((1 + index, 1), (2 + index, -1)):
            self.rows[row, w + index] += sign * joint["damping"]
            self.rows[row, w + index - 1] -= sign * joint["damping"]
            self.rows[row, theta + index] += sign * joint["spring"]
            if index > 1:
                self.rows[row, theta + index - 1] -= sign * joint["spring"]

    def eigenvalues(self):
        n, lag = self.n, len(self.slips)
        psi = 1 if self.fixed else 0
        size = (n + 1) + (n - 1) + psi + lag
        m = -self.rows[1:, : n + 1]
        f = mpmath.zeros(n + 1, size)
        wide = (n + 1) + (n - 1) + psi
        f[:, :wide] = self.rows[1:, n + 1 : n + 1 + wide]
        for k, (unit, axle) in enumerate(self.slips):
            part = self.parts[unit + 1]["lagging"]
            block = mpmath.matrix(part(*self.levers(unit, axle["x"]), self.V, self.A0, mpmath.mpf(axle["stiffness"])))
            for row in range(unit + 2):
                f[row, wide + k] += block[row + 1, block.cols - 1]
        a = mpmath.zeros(size, size)
        a[: n + 1, :] = mpmath.lu_solve(m, f) if size == 1 else mpmath.inverse(m) * f
        for k in range(n - 1):
            a[n + 1 + k, 2 + k] = 1
            a[n + 1 + k, 1] = -1
        if psi:
            a[2 * n, 1] = 1
        for k, (unit, axle) in enumerate(self.slips):
            row = mpmath.zeros(1, self.rows.cols)
            part = self.parts[unit + 1]["slip"]
            self.place(unit, mpmath.matrix(part(*self.levers(unit, axle["x"]), self.V, self.A0)), row, 0)
            rate = self.V / mpmath.mpf(axle["relaxation"])
            for column in range(wide):
                a[wide + k, column] = rate * row[0, n + 1 + column]
            a[wide + k, wide + k] -= rate
        values, _ = mpmath.eig(a)
        return sorted(([float(e.real), float(e.imag)] for e in values), key=lambda e: (round(e[0], 9), e[1]))


def random_train(rng):
    def number(low, high, digits=3):
        return round(rng.uniform(low, high), digits)

    def sometimes(low, high, digits=0):
        return number(low, high, digits) if rng.random() < 0.5 else 0

    fixed = rng.random() < 0.25
    lag = sometimes(0.1, 0.8, 2)
    pulled = rng.random() < 0.6

    def axle(x):
        own = lag if rng.random() < 0.7 else sometimes(0.1, 0.8, 2)
        force = sometimes(-3000, 1000) if pulled else 0
        return {"x": round(x, 3), "stiffness": number(1e4, 2e5, 0), "relaxation": own, "force": force}

    units = []
    for index in range(rng.randint(1, MOST_UNITS)):
        if index == 0:
            base = number(2, 4.5)
            places = [0, -base] + ([-base - 1.3] if rng.random() < 0.3 else [])
            mass = number(800, 4000, 0)
            unit = {"mass": mass, "x": number(-0.8 * base, -0.2 * base), "yawInertia": number(0.3, 1.2, 2) * mass}
            unit["hitch"] = round(-base + number(-1.6, 0.6), 3)
            unit["axles"] = [axle(x) for x in places]
        else:
            length = number(1.5, 6)
            mass = number(300, 4000, 0)
            unit = {"mass": mass, "x": number(-1.15 * length, -0.5 * length), "yawInertia": number(0.3, 3, 2) * mass}
            unit |= {"coupling": number(-0.5, 0.5), "hitch": round(-length + number(-2, 1), 3)}
            unit["axles"] = [axle(-length - 0.8 * k) for k in range(rng.randint(1, 3))]
            unit["joint"] = {"damping": sometimes(100, 6000), "spring": sometimes(100, 3000)}
        units.append(unit)
    forces = []
    while pulled and len(forces) < 2 and rng.random() < 0.6:
        forces.append(
            {
                "unit": rng.randrange(len(units)),
                "x": number(-4, 1),
                "force": number(-1500, 1500, 0),
                "perSpeedSquared": sometimes(-1.5, 0, 2),
                "direction": rng.choice(["unit", "course"]),
            }
        )
    # Where the course is fixed there is something along it; the speed is constant there.
    gravity = number(-1.5, 1.5) if fixed or rng.random() < 0.5 else 0
    acceleration = 0 if fixed or rng.random() < 0.5 else number(-3, 2)
    course = "space" if fixed else "vehicle"
    return {"units": units, "forces": forces, "gravity": gravity, "acceleration": acceleration, "course": course}


def compute():
    parts = derive()
    rng = random.Random(SEED)
    for _ in range(TRAINS):
        train = random_train(rng)
        speed = round(rng.uniform(3, 45), 2)
        yield {"train": train, "speed": speed, "eigenvalues": System(parts, train, speed).eigenvalues()}


def same(a, b):
    scale = max(abs(complex(*e)) for e in a["eigenvalues"])
    return (a["train"], a["speed"]) == (b["train"], b["speed"]) and all(
        abs(complex(*x) - complex(*y)) <= 1e-9 * scale for x, y in zip(a["eigenvalues"], b["eigenvalues"])
    )


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    mode = parser.add_mutually_exclusive_group(required=True)
    mode.add_argument("--write", action="store_true")
    mode.add_argument("--check", action="store_true")
    if parser.parse_args().write:
        FILE.write_text("".join(json.dumps(each, separators=(",", ":")) + "\n" for each in compute()))
        return 0
    stored = [json.loads(line) for line in FILE.read_text().splitlines()]
    differing = [k for k, (a, b) in enumerate(zip(stored, compute(), strict=True)) if not same(a, b)]
    print(f"{len(stored)} trains derived again, {len(differing)} differ {differing[:10]}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
