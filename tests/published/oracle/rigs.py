#!/usr/bin/env python3
"""Oracle of whole rigs: from the text of a rig to its damping, by a second model of everything in between.

    python3 tests/published/oracle/rigs.py            writes rigs.json beside this file
    python3 tests/published/oracle/rigs.py --check    computes everything again and compares with that file

Needs mpmath, which python3-sympy (Debian) brings; nothing else. The file has for every rig its text and, for each case on
each road, the least damping ratio of what swings at the intended speed and its frequency, whether something grows without
swinging, the lowest speeds at which something grows while it swings and without, and the understeer of the vehicle with
all it tows. tests/published/lateral-rigs.test.ts analyses the texts and compares.

How it is independent: not a line is shared with the language. The text and the model are both made from the rigs in
`RIGS`, so that no text is read here. Statics goes from the rearmost unit forward with moments about couplings and axles;
tyres use the sine and arctangent of the published curve; the motion is Lagrange's equations in headings and one sideways
place, with every axle's slip a state of its own. Eigenvalues at the intended speed are those of mpmath with 25 digits; speeds
are bracketed by a QR iteration of its own, which is compared with them.

What both take from one source are figures only: the tyres of a kind (Gillespie, second hand), the load index (ETRTO,
UN Regulation No. 30) and the conventions of the language reference for what a text leaves open. All rigs are invented.
"""

import argparse
import cmath
import json
import math
import pathlib
import sys
from dataclasses import dataclass, field
from typing import Optional

import mpmath

FILE = pathlib.Path(__file__).with_name("rigs.json")
mpmath.mp.dps = 25
G = 9.80665

# Stiffness per degree over load at the rated load (T. D. Gillespie, Fundamentals of Vehicle Dynamics, second hand; low in the
# range for all but passenger tyres: common practice) and relaxation length in m (from memory), by kind and construction.
TYRE_KINDS = {
    ("passenger", "radial"): (0.15, 0.4),
    ("passenger", "bias"): (0.12, 0.5),
    ("light truck", "radial"): (0.13, 0.5),
    ("light truck", "bias"): (0.11, 0.5),
    ("commercial", "radial"): (0.12, 0.6),
    ("commercial", "bias"): (0.10, 0.6),
    ("trailer", "radial"): (0.13, 0.4),
    ("trailer", "bias"): (0.11, 0.5),
}
# Load at which stiffness peaks over the rated load: 8520 N for 205/60R15 91V (H. B. Pacejka, Tyre and Vehicle Dynamics,
# table A3.1), rated for 615 kg.
PEAK_RATIO = 1.41
# kg by load index (UN Regulation No. 30, annex 4; from memory).
LOAD_INDEX = {72: 355, 79: 437, 91: 615, 94: 670, 96: 710, 100: 800, 112: 1120, 116: 1250, 120: 1400, 121: 1450}
# What the language takes where a text is silent; the frame's share is of the empty unit, its fittings among it.
USUAL_RESERVE = 1.25
FRAME_SHARE, FRAME_GYRATION = 0.08, 0.6
LEAST_SPEED, MOST_SPEED = 10 / 3.6, 200 / 3.6


@dataclass
class Tyres:
    """`name` where they are declared on their own, with cornering stiffness in N/rad and relaxation length in m."""

    count: int
    marking: str
    kind: str
    single: int
    twin: int = 0
    construction: str = "radial"
    dual: bool = False
    name: str = ""
    cornering: Optional[float] = None
    relaxation: Optional[float] = None


@dataclass
class Axles:
    """A group of axles; `at` is its middle, m behind the front axle of a vehicle or the coupling of a trailer."""

    at: float
    track: float
    name: str = ""
    count: int = 1
    spacing: float = 0
    rating: float = 0
    tyres: Optional[Tyres] = None


@dataclass
class Mass:
    """kg at m behind, to the left and up; kg m² about its own vertical. Present in the cases named, or in all."""

    mass: float
    back: float
    up: float
    left: float = 0
    inertia: float = 0
    name: str = ""
    cases: tuple = ()


@dataclass
class Hitch:
    """`back` is m behind the rear axle of a vehicle, else behind the coupling."""

    kind: str
    back: float
    up: float
    damper: float = 0
    spring: float = 0


@dataclass
class Unit:
    name: str
    axles: list
    tare: Mass
    loads: list = field(default_factory=list)
    hitch: Optional[Hitch] = None
    coupling: str = ""
    coupling_up: float = 0
    brakes: str = "overrun"

    @property
    def is_vehicle(self):
        return self.coupling == ""

    @property
    def is_full(self):
        return self.coupling.startswith("drawbar")

    @property
    def hitch_back(self):
        return self.hitch.back + (self.axles[1].at if self.is_vehicle else 0)

    @property
    def empty_mass(self):
        return self.tare.mass + sum(m.mass for m in self.loads if not m.cases)

    def masses(self, case):
        return [self.tare, *(m for m in self.loads if not m.cases or case in m.cases)]


@dataclass
class Rig:
    name: str
    about: str
    units: list
    speed: float = 90
    grade: float = 10
    braking: float = 3
    cases: tuple = ("laden",)


# ---- The text ----


def mm(metres):
    return f"{round(metres * 1000, 3):g} mm"


def tyre_words(tyres):
    if tyres is None:
        return ""
    which = tyres.name or f'"{tyres.marking}"'
    return f", tyres {tyres.count} x {which}" + (", dual" if tyres.dual else "")


def rating_words(axles):
    return f", rating {axles.rating:g} kg" if axles.rating else ""


def hitch_line(unit):
    h = unit.hitch
    if not unit.is_vehicle:
        at = f"{mm(h.back)} back"
    else:
        at = f"{mm(abs(h.back))} {'behind' if h.back >= 0 else 'ahead of'} rear"
    damper = f", damper {h.damper:g} N·m·s/rad" if h.damper else ""
    spring = f", spring {h.spring:g} N·m/rad" if h.spring else ""
    return f"  hitch {h.kind} at {at}, {mm(h.up)} up{damper}{spring}"


def unit_text(unit):
    tare = unit.tare
    own = f"{mm(tare.up)} up, inertia {tare.inertia:g} kg·m²"
    if unit.is_vehicle:
        front, rear = unit.axles
        lines = [f"vehicle {unit.name} {{", f"  wheelbase {mm(rear.at)}, track {mm(front.track)}"]
        for axles in unit.axles:
            words = (rating_words(axles) + tyre_words(axles.tyres))[2:]
            lines += [f"  axle {axles.name} {words}"] if words else []
        share = tare.mass * tare.back / rear.at
        lines.append(f"  kerb {tare.mass - share:.9g} kg on front, {share:.9g} kg on rear, {own}")
    else:
        lines = [f"trailer {unit.name} {{", f"  coupling {unit.coupling}, {mm(unit.coupling_up)} up"]
        for position, axles in enumerate(unit.axles):
            group = {1: "single", 2: "tandem", 3: "tri"}[axles.count]
            spread = f", spacing {mm(axles.spacing)}, equalised" if axles.count > 1 else ""
            steered = ", steered" if unit.is_full and position == 0 else ""
            place = f"at {mm(axles.at)} back, track {mm(axles.track)}"
            words = spread + steered + rating_words(axles) + tyre_words(axles.tyres)
            lines.append(f"  {'axle' if axles.name else 'axles'} {axles.name}{' ' if axles.name else ''}{group} {place}{words}")
        if unit.is_full:
            base = unit.axles[1].at - unit.axles[0].at
            share = tare.mass * (tare.back - unit.axles[0].at) / base
            lines.append(f"  tare {tare.mass - share:.9g} kg on front, {share:.9g} kg on rear, {own}")
        else:
            lines.append(f"  tare {tare.mass:g} kg at {mm(tare.back)} back, {own}")
        lines.append(f"  brakes {unit.brakes}")
    if unit.hitch:
        lines.append(hitch_line(unit))
    for load in unit.loads:
        side = f", {mm(abs(load.left))} {'left' if load.left > 0 else 'right'}" if load.left else ""
        if load.cases:
            lines.append(f"  locker {load.name}_box at {mm(load.back)} back{side}, floor {mm(load.up)} up")
        else:
            lines.append(f"  fitting {load.name} {load.mass:g} kg at {mm(load.back)} back{side}, {mm(load.up)} up")
    return [*lines, "}"]


def text_of(rig):
    lines = []
    known = [a.tyres for u in rig.units for a in u.axles if a.tyres and a.tyres.name]
    for tyres in {t.name: t for t in known}.values():
        cornering = f", cornering {tyres.cornering:g} N/rad" if tyres.cornering else ""
        relaxation = f", relaxation {mm(tyres.relaxation)}" if tyres.relaxation else ""
        lines.append(f'tyre {tyres.name} "{tyres.marking}" at 300 kPa{cornering}{relaxation}')
    stowed = [(u, m) for u in rig.units for m in u.loads if m.cases]
    lines += [f"item {m.name} {m.mass:g} kg" for _, m in stowed]
    for unit in rig.units:
        lines += unit_text(unit)
    lines += [f"rig {rig.name} {{", f"  tow {rig.units[0].name}"]
    lines.append("  haul " + ", ".join(u.name for u in rig.units[1:]))
    lines += [f"  stow {m.name} in {u.name}.{m.name}_box" for u, m in stowed]
    lines.append(f"  travel {rig.speed:g} km/h, grades -{rig.grade:g} % to {rig.grade:g} %, braking {rig.braking:g} m/s²")
    for case in rig.cases:
        absent = [m.name for _, m in stowed if case not in m.cases]
        lines.append(f"  case {case} {{ {'absent ' + ', '.join(absent) + ' ' if absent else ''}}}")
    return "\n".join([*lines, "}", ""])


# ---- Statics: forces over g, kg ----


def total(masses):
    """Mass, place of the centre (back, up) and yaw inertia about it."""
    m = sum(p.mass for p in masses)
    back, left, up = (sum(p.mass * getattr(p, axis) for p in masses) / m for axis in ("back", "left", "up"))
    inertia = sum(p.inertia + p.mass * ((p.back - back) ** 2 + (p.left - left) ** 2) for p in masses)
    return m, back, up, inertia


def holds_itself(unit, road):
    return not unit.is_vehicle and unit.brakes != "unbraked" and road["brakes"] == "as fitted" and road["forward"] > 0


def support_loads(rig, case, road):
    """Loads (left, right) of every axle group. Weight acts with `down`, the body force with `forward` times g."""
    down, forward = road["down"], road["forward"]
    press = push = 0.0  # of the unit behind on the hitch: downward, forward
    loads = []
    for index in reversed(range(len(rig.units))):
        unit = rig.units[index]
        masses = unit.masses(case)
        m, back, up, _ = total(masses)
        along = m * forward
        held = along if holds_itself(unit, road) else 0.0
        hitch_back, hitch_up = (unit.hitch_back, unit.hitch.up) if unit.hitch else (0.0, 0.0)
        weight = m * down + press
        first = unit.axles[0].at
        # Moments about the ground under the first axle group; tail-down counts up.
        tail = m * down * (back - first) + press * (hitch_back - first) - along * up - push * hitch_up
        onward = along - held + push
        if unit.is_vehicle:
            rear = tail / (unit.axles[1].at - first)
            groups = [weight - rear, rear]
        elif unit.is_full:
            rear = (tail + onward * rig.units[index - 1].hitch.up) / (unit.axles[1].at - first)
            groups = [weight - rear, rear]
            weight = 0.0
        else:
            # About the axle the coupling is `first` ahead: it is pressed down by what the tail does not lift.
            pressed = -(tail + onward * rig.units[index - 1].hitch.up) / first
            groups = [weight - pressed]
            weight = pressed
        loads.insert(0, [sides(unit, position, load, masses, down) for position, load in enumerate(groups)])
        press, push = weight, onward
    return loads


def sides(unit, position, load, masses, down):
    """A vehicle's masses turn over the axles that carry them; couplings let trailers roll."""
    base = unit.axles[-1].at - unit.axles[0].at
    moment = 0.0
    for p in masses:
        on_rear = (p.back - unit.axles[0].at) / base if base else 1.0
        share = on_rear if position == len(unit.axles) - 1 else 1 - on_rear
        moment += p.mass * p.left * share * down
    shift = moment / unit.axles[position].track
    return load / 2 + shift, load / 2 - shift


# ---- Tyres ----


def axle_stiffness(unit, axles, loads, usual):
    """Stiffness in N/rad and relaxation length in m of one axle of a group with the given loads of its sides, kg."""
    tyres = axles.tyres
    per_side = round(tyres.count / (2 * axles.count)) if tyres else 1
    if tyres:
        kind, construction = tyres.kind, tyres.construction
        rated = LOAD_INDEX[tyres.twin if tyres.dual else tyres.single]
    else:
        kind, construction = "passenger" if unit.is_vehicle else "trailer", "radial"
        rated = (axles.rating or USUAL_RESERVE * usual) / (2 * axles.count)
    per_degree, relaxation = TYRE_KINDS[kind, construction]
    at_rated = per_degree * 180 / math.pi * rated * G
    if tyres and tyres.cornering:
        at_rated = tyres.cornering
    if tyres and tyres.relaxation:
        relaxation = tyres.relaxation
    peak = at_rated / math.sin(2 * math.atan(1 / PEAK_RATIO))
    each = [load / axles.count / per_side for load in loads]
    stiffness = sum(peak * math.sin(2 * math.atan(load / (PEAK_RATIO * rated))) for load in each if load > 0)
    return per_side * stiffness, relaxation


# ---- The motion ----


@dataclass
class Axle:
    x: float
    stiffness: float
    relaxation: float
    force: float = 0
    steered: bool = False


@dataclass
class Body:
    """Places are m ahead of the origin of the unit; `joint` is (damper, spring) at its coupling."""

    mass: float
    x: float
    inertia: float
    axles: list
    coupling: float = 0
    hitch: float = 0
    joint: tuple = (0, 0)


def bodies_of(rig, case, road, usual):
    loads = support_loads(rig, case, road)
    bodies = []
    for index, unit in enumerate(rig.units):
        m, back, _, inertia = total(unit.masses(case))
        axle_count = sum(a.count for a in unit.axles)
        braking = -m * road["forward"] * G / axle_count if holds_itself(unit, road) else 0.0
        groups = []
        for position, group in enumerate(unit.axles):
            stiffness, lag = axle_stiffness(unit, group, loads[index][position], usual[index][position])
            places = [-group.at - (k - (group.count - 1) / 2) * group.spacing for k in range(group.count)]
            steered = unit.is_vehicle and position == 0
            groups.append([Axle(x, stiffness, lag, braking, steered) for x in places])
        ahead = rig.units[index - 1].hitch if index else None
        body = Body(m, -back, inertia, sum(groups, []), joint=(ahead.damper, ahead.spring) if ahead else (0, 0))
        if unit.hitch:
            body.hitch = -unit.hitch_back
        if unit.is_full:
            pivot = -unit.axles[0].at
            frame = Body(FRAME_SHARE * unit.empty_mass, pivot, 0.0, groups[0], hitch=pivot, joint=body.joint)
            frame.inertia = frame.mass * FRAME_GYRATION**2
            rest = m - frame.mass
            x = (m * body.x - frame.mass * pivot) / rest
            inertia -= frame.inertia + frame.mass * (pivot - body.x) ** 2 + rest * (x - body.x) ** 2
            body = Body(rest, x, inertia, groups[1], coupling=pivot, hitch=body.hitch)
            bodies.append(frame)
        bodies.append(body)
    return bodies


class Motion:
    """
    Lagrange's equations: q is the sideways place of the vehicle's origin and the heading of every body; a point has the
    sideways velocity lever·q̇, and the headings shorten its way along the road by half the squares. The state is the
    sideways velocity over the ground as the vehicle sees it, all yaw rates, headings over the vehicle's, and slip angles.
    """

    def __init__(self, bodies, body_force):
        self.bodies = bodies
        self.n = len(bodies)
        self.axles = [(u, a, self.lever(u, a.x)) for u, b in enumerate(bodies) for a in b.axles if a.stiffness > 0]
        size = self.n + 1
        inertia = mpmath.zeros(size)
        for u, b in enumerate(bodies):
            lever = self.lever(u, b.x)
            for i in range(size):
                for j in range(size):
                    inertia[i, j] += b.mass * lever[i] * lever[j]
            inertia[u + 1, u + 1] += b.inertia
        # Generalised forces by q̇, headings, slip angles.
        self.forces = mpmath.zeros(size, 2 * size - 1 + len(self.axles))
        traction = 0.0
        for u, b in enumerate(bodies):
            self.pull(self.lever(u, b.x), 0, body_force * b.mass)
            traction -= body_force * b.mass
            for a in b.axles if u else []:
                self.pull(self.lever(u, a.x), u, a.force)
                traction -= a.force
        self.pull(self.lever(0, 0), 0, traction)
        for u in range(1, self.n):
            damper, spring = bodies[u].joint
            for row, column, sign in ((u, u, -1), (u, u + 1, 1), (u + 1, u, 1), (u + 1, u + 1, -1)):
                self.forces[row, column] += sign * damper
                self.forces[row, size + column - 1] += sign * spring
        for k, (_, a, lever) in enumerate(self.axles):
            for i in range(size):
                self.forces[i, 2 * size - 1 + k] -= a.stiffness * lever[i]
        self.inertia = inertia
        self.accelerations = inertia**-1 * self.forces

    def lever(self, unit, x):
        """How far the point at `x` of a body goes sideways with each coordinate."""
        lever = [1.0] + [0.0] * self.n
        for u in range(unit):
            lever[u + 1] = self.bodies[u].hitch - (self.bodies[u].coupling if u else 0)
        lever[unit + 1] = x - (self.bodies[unit].coupling if unit else 0)
        return lever

    def pull(self, lever, heading, force):
        """A force at a point in the direction of the body `heading`."""
        column = self.n + 1
        for i, arm in enumerate(lever):
            self.forces[i, column + heading] += force * arm
            if i:
                self.forces[i, column + i - 1] -= force * arm

    def matrix(self, speed):
        """The state matrix, as plain rows."""
        n, lags = self.n, len(self.axles)
        wide = 2 * n + lags
        rows = []
        for i in range(n + 1):
            row = [float(self.accelerations[i, j]) for j in range(n + 1)]
            row += [float(self.accelerations[i, n + 1 + j]) for j in range(1, n + lags)]
            if i == 0:
                row[1] -= speed
            rows.append(row)
        for u in range(1, n):
            row = [0.0] * wide
            row[1], row[u + 1] = -1.0, 1.0
            rows.append(row)
        for k, (u, a, lever) in enumerate(self.axles):
            row = [arm / a.relaxation for arm in lever] + [0.0] * (n - 1 + lags)
            if u:
                row[n + u] -= speed / a.relaxation
            row[2 * n + k] -= speed / a.relaxation
            rows.append(row)
        return rows

    def understeer(self):
        """rad per m/s²: what the steering angle of a turn of given curvature gains with the square of speed."""
        low, high = 10.0, 30.0
        return (self.steering(high) - self.steering(low)) / (high**2 - low**2)

    def steering(self, speed):
        """Steering angle over curvature in a steady turn at yaw rate 1: sideways velocity, headings, slips, angle."""
        n, lags = self.n, len(self.axles)
        size = n + 1 + lags
        left, right = mpmath.zeros(size), mpmath.zeros(size, 1)
        for i in range(n + 1):
            for j in range(1, n):
                left[i, j] = self.forces[i, n + 1 + j]
            for k in range(lags):
                left[i, n + k] = self.forces[i, 2 * n + 1 + k]
            right[i] = self.inertia[i, 0] * speed
        for k, (u, a, lever) in enumerate(self.axles):
            row = n + 1 + k
            left[row, n + k] = -1
            left[row, 0] = 1 / mpmath.mpf(speed)
            if u:
                left[row, u] -= 1
            if a.steered:
                left[row, size - 1] = -1
            right[row] = -sum(lever[1:]) / mpmath.mpf(speed)
        return mpmath.lu_solve(left, right)[size - 1] * speed


# ---- Eigenvalues ----


def qr_eigenvalues(rows):
    """Eigenvalues of a real matrix: to Hessenberg form by elimination, then the shifted QR iteration in complex numbers."""
    h = [[complex(v) for v in row] for row in rows]
    n = len(h)
    for k in range(1, n - 1):
        pivot = max(range(k, n), key=lambda i: abs(h[i][k - 1]))
        if h[pivot][k - 1] == 0:
            continue
        h[k], h[pivot] = h[pivot], h[k]
        for row in h:
            row[k], row[pivot] = row[pivot], row[k]
        for i in range(k + 1, n):
            factor = h[i][k - 1] / h[k][k - 1]
            h[i] = [a - factor * b for a, b in zip(h[i], h[k])]
            for row in h:
                row[k] += factor * row[i]
    found, high, steps = [], n - 1, 0
    while high >= 0:
        low = high
        while low and abs(h[low][low - 1]) > 1e-16 * (abs(h[low][low]) + abs(h[low - 1][low - 1])):
            low -= 1
        if low == high:
            found.append(h[high][high])
            high, steps = high - 1, 0
            continue
        steps += 1
        if steps > 100:
            raise ArithmeticError("the QR iteration does not converge")
        qr_step(h, low, high, shift_of(h, high) if steps % 10 else abs(h[high][high - 1]))
    return found


def shift_of(h, high):
    a, b, c, d = h[high - 1][high - 1], h[high - 1][high], h[high][high - 1], h[high][high]
    root = cmath.sqrt((a - d) ** 2 / 4 + b * c)
    return min((a + d) / 2 + root, (a + d) / 2 - root, key=lambda value: abs(value - d))


def qr_step(h, low, high, shift):
    for i in range(low, high + 1):
        h[i][i] -= shift
    turns = []
    for i in range(low, high):
        a, b = h[i][i], h[i + 1][i]
        length = math.hypot(abs(a), abs(b))
        c, s = (a / length, b / length) if length else (1, 0)
        turns.append((c, s))
        upper, lower = h[i], h[i + 1]
        for j in range(i, high + 1):
            p, q = upper[j], lower[j]
            upper[j] = c.conjugate() * p + s.conjugate() * q
            lower[j] = c * q - s * p
    for i, (c, s) in enumerate(turns, low):
        for row in h[low : min(i + 2, high) + 1]:
            p, q = row[i], row[i + 1]
            row[i] = p * c + q * s
            row[i + 1] = q * c.conjugate() - p * s.conjugate()
    for i in range(low, high + 1):
        h[i][i] += shift


def swings(value):
    return abs(value.imag) > 1e-6 * abs(value)


def exact_eigenvalues(rows):
    values = [complex(v) for v in mpmath.eig(mpmath.matrix(rows), left=False, right=False)]
    largest = max(map(abs, values))
    for value in qr_eigenvalues(rows):
        if min(abs(value - each) for each in values) > 1e-7 * largest:
            raise ArithmeticError("the QR iteration and mpmath differ")
    return values


def critical_speed(motion, swinging, most):
    """Lowest speed above which something grows that swings, or does not: m/s, or on which side of the range it lies."""

    def grows(speed):
        values = qr_eigenvalues(motion.matrix(speed))
        return any(v.real > 1e-9 and swings(v) == swinging for v in values)

    steps = 48
    below = LEAST_SPEED
    if grows(below):
        return "below"
    for k in range(1, steps + 1):
        above = LEAST_SPEED + (most - LEAST_SPEED) * k / steps
        if grows(above):
            for _ in range(36):
                middle = (below + above) / 2
                below, above = (below, middle) if grows(middle) else (middle, above)
            return (below + above) / 2
        below = above
    return "above"


# ---- Roads ----


def roads_of(rig):
    """The level road, the grades both ways and braking; going down and braking with and without brakes on trailers."""

    def road(kind, brakes="as fitted", grade=0.0, deceleration=0.0):
        slant = math.hypot(1, grade)
        forward = deceleration / G - grade / slant
        return {"kind": kind, "brakes": brakes, "down": 1 / slant, "forward": forward}

    roads = [road("level"), road("climb", grade=rig.grade / 100)]
    braked = any(not u.is_vehicle and u.brakes != "unbraked" for u in rig.units)
    for brakes in ["as fitted"] * braked + ["vehicle alone"]:
        roads.append(road("descent", brakes, grade=-rig.grade / 100))
    for brakes in ["as fitted"] * braked + ["vehicle alone"]:
        roads.append(road("braking", brakes, deceleration=rig.braking))
    return roads


def compute(rig):
    roads = roads_of(rig)
    level = [support_loads(rig, case, roads[0]) for case in rig.cases]
    usual = [[max(sum(loads[u][g]) for loads in level) for g in range(len(unit.axles))] for u, unit in enumerate(rig.units)]
    results = []
    for road in roads:
        for case in rig.cases:
            motion = Motion(bodies_of(rig, case, road, usual), road["forward"] * G)
            values = exact_eigenvalues(motion.matrix(rig.speed / 3.6))
            least = min((v for v in values if swings(v)), key=lambda v: -v.real / abs(v), default=None)
            most = max(MOST_SPEED, 1.5 * rig.speed / 3.6)
            results.append(
                {
                    "case": case,
                    "road": road["kind"],
                    "brakes": road["brakes"],
                    "damping": -least.real / abs(least) if least else 1.0,
                    "frequency": abs(least.imag) / (2 * math.pi) if least else 0.0,
                    "folds": any(v.real > 0 and not swings(v) for v in values),
                    "zeroDamping": critical_speed(motion, True, most),
                    "divergence": critical_speed(motion, False, most),
                    "understeer": float(motion.understeer()),
                }
            )
    return {"name": rig.name, "about": rig.about, "text": text_of(rig), "results": results}


# ---- The rigs ----

SALOON = dict(marking="205/60R15 91V", kind="passenger", single=91)
SMALL = dict(marking="155/80R13 79T", kind="passenger", single=79)
VAN = dict(marking="195/70R14C 96/94N", kind="commercial", single=96, twin=94)
TRUCK = dict(marking="225/75R16C 121/120R", kind="commercial", single=121, twin=120)
LIGHT_TRUCK = dict(marking="LT245/75R16 120/116S", kind="light truck", single=120, twin=116)
TRAILER = dict(marking="ST205/75R14 100/96M", kind="trailer", single=100, twin=96)


def car(rear=640, inertia=2400, hitch=0.95, hitch_up=0.42, front_tyres=SALOON, rear_tyres=SALOON, ratings=(1100, 1250), **more):
    mass = 820 + rear
    damper, spring, kind = more.get("damper", 0), more.get("spring", 0), more.get("kind", "ball 50 mm")
    return Unit(
        "Marten",
        [
            Axles(0, 1.55, "front", rating=ratings[0], tyres=front_tyres and Tyres(2, **front_tyres)),
            Axles(2.7, 1.55, "rear", rating=ratings[1], tyres=rear_tyres and Tyres(2, **rear_tyres)),
        ],
        Mass(mass, rear * 2.7 / mass, 0.56, inertia=inertia),
        more.get("loads", []),
        Hitch(kind, hitch, hitch_up, damper, spring),
    )


def truck(wheelbase, front, rear, up, gyration, hitch, tyres, ratings, duals=True):
    mass = front + rear
    return Unit(
        "Oxbow",
        [
            Axles(0, 1.7, "front", rating=ratings[0], tyres=Tyres(2, **tyres)),
            Axles(wheelbase, 1.7, "rear", rating=ratings[1], tyres=Tyres(4 if duals else 2, **tyres, dual=duals)),
        ],
        Mass(mass, rear * wheelbase / mass, up, inertia=gyration**2 * mass),
        hitch=hitch,
    )


NOSE_AND_TAIL = [Mass(60, 1.6, 0.6, name="chest"), Mass(90, 6.0, 0.6, name="rack")]


def tourer(length=4.0, mass=940, back=3.85, up=0.75, inertia=2600, tyres=VAN, count=1, spacing=0.0, rating=1300, **more):
    return Unit(
        "Wicket",
        [Axles(length, 1.9, "", count, spacing, rating, Tyres(2 * count, **tyres) if tyres else None)],
        Mass(mass, back, up, inertia=inertia),
        more.get("loads", NOSE_AND_TAIL),
        coupling=more.get("coupling", "ball 50 mm"),
        coupling_up=more.get("coupling_up", 0.42),
        brakes=more.get("brakes", "overrun"),
    )


def wagon(**more):
    """A full trailer: the front axle on a frame that the drawbar steers."""
    return Unit(
        "Barrow",
        [Axles(1.8, 1.7, "front", rating=800), Axles(4.6, 1.7, "rear", rating=900)],
        Mass(1130, 1.8 + 2.8 * 610 / 1130, 0.7, inertia=1900),
        more.get("loads", []),
        coupling="drawbar 40 mm",
        coupling_up=0.42,
    )


DOLLY = Unit(
    "Plinth",
    [Axles(1.8, 1.9, rating=3000)],
    Mass(300, 1.7, 0.45, inertia=200),
    hitch=Hitch("ball 50 mm", 1.8, 0.5),
    coupling="eye 40 mm",
    coupling_up=0.42,
)
STATED = dict(SALOON, name="firm", cornering=52_000, relaxation=0.65)
STATED_VAN = dict(VAN, name="stout", cornering=41_000)
BIAS = dict(marking="ST205/75D14 100/96M", kind="trailer", single=100, twin=96, construction="bias")
BIAS_CAR = dict(marking="6.00-16 91S", kind="passenger", single=91, construction="bias")

RIGS = [
    Rig("Plain", "one axle, radial passenger and commercial tyres", [car(), tourer()]),
    Rig(
        "Damped",
        "a tandem with a damper at the hitch",
        [car(damper=1500), tourer(4.3, 1500, 4.1, inertia=4200, tyres=SMALL, count=2, spacing=0.8, rating=2000)],
        speed=105,
    ),
    Rig(
        "Twinned",
        "dual wheels, and three axles in a group",
        [
            truck(3.9, 2160, 1490, 0.82, 2.15, Hitch("ball 50 mm", 1.6, 0.72), TRUCK, (2700, 5400)),
            tourer(5, 3000, 4.7, inertia=9000, tyres=TRAILER, count=3, spacing=0.9, rating=3500, coupling_up=0.7),
        ],
        speed=80,
    ),
    Rig(
        "Rated",
        "tyres not stated, axles rated",
        [car(front_tyres=None, rear_tyres=None), tourer(tyres=None)],
    ),
    Rig(
        "Unrated",
        "neither tyres nor ratings stated, no brakes on the trailer, two cases",
        [
            car(front_tyres=None, rear_tyres=None, ratings=(0, 0)),
            tourer(
                tyres=None,
                rating=0,
                brakes="unbraked",
                loads=[*NOSE_AND_TAIL, Mass(140, 3.2, 0.8, 0.4, name="crate", cases=("laden",))],
            ),
        ],
        grade=6,
        braking=5,
        cases=("bare", "laden"),
    ),
    Rig(
        "Stated",
        "cornering stiffness and relaxation length stated, a spring at the hitch",
        [car(spring=3000, front_tyres=STATED, rear_tyres=STATED), tourer(tyres=STATED_VAN)],
        speed=110,
    ),
    Rig(
        "Perched",
        "a kingpin ahead of dual rear wheels",
        [
            truck(4.1, 1850, 1420, 0.79, 1.95, Hitch("kingpin 2 in", -0.18, 1.21), TRUCK, (2200, 3700)),
            tourer(
                5.35,
                2865,
                4.46,
                1.18,
                2.58**2 * 2865,
                TRUCK,
                2,
                0.92,
                3500,
                coupling="kingpin 2 in",
                coupling_up=1.24,
                brakes="electric",
            ),
        ],
        speed=95,
    ),
    Rig(
        "Lopsided",
        "loads far from the middle, on both units",
        [
            car(loads=[Mass(150, 2.9, 0.7, 0.6, name="safe")]),
            tourer(
                loads=[
                    Mass(60, 1.6, 0.6, -0.8, name="chest"),
                    Mass(90, 6.0, 0.6, 0.9, name="rack"),
                    Mass(120, 4.4, 0.7, 0.85, name="pump"),
                ]
            ),
        ],
    ),
    Rig(
        "Folding",
        "rear tyres beyond the peak of their curve: folds at the intended speed",
        [car(rear=1300, rear_tyres=SMALL), tourer(mass=1900, back=3.6, inertia=5000, tyres=SMALL)],
        speed=115,
    ),
    Rig(
        "Stepped",
        "unequal hitch heights, hard braking and steep grades",
        [car(), tourer(up=1.4, coupling_up=0.6)],
        grade=25,
        braking=7,
    ),
    Rig(
        "Hasty",
        "looked at beyond 200 km/h: a long light trailer and a high intended speed",
        [car(hitch=0.9), tourer(5.6, 420, 5.2, inertia=1300, loads=[], rating=750)],
        speed=160,
    ),
    Rig(
        "Rugged",
        "light-truck tyres before a tandem on trailer tyres",
        [
            truck(3.6, 1400, 1100, 0.7, 1.44, Hitch("ball 50 mm", 1.25, 0.42), LIGHT_TRUCK, (1900, 2400), duals=False),
            tourer(4.9, 2400, 4.5, inertia=9500, tyres=TRAILER, count=2, spacing=0.85, rating=2800, brakes="electric"),
        ],
        speed=100,
    ),
    Rig(
        "Crossply",
        "bias tyres on both units",
        [car(front_tyres=BIAS_CAR, rear_tyres=BIAS_CAR), tourer(tyres=BIAS)],
        speed=80,
    ),
    Rig(
        "Chained",
        "two trailers: one on a dolly",
        [car(kind="eye 40 mm"), DOLLY, tourer(coupling_up=0.5)],
    ),
    Rig(
        "Drawn",
        "a full trailer, a damper between car and drawbar",
        [car(kind="eye 40 mm", damper=300, ratings=(1100, 1230)), wagon()],
    ),
    Rig(
        "Sprung",
        "a full trailer with loads, a spring between car and drawbar",
        [
            car(kind="eye 40 mm", spring=4000, ratings=(1100, 1230)),
            wagon(loads=[Mass(160, 2.3, 0.9, name="stack"), Mass(110, 5.2, 0.8, name="drum")]),
        ],
        speed=100,
    ),
]


def same(a, b):
    if isinstance(a, float) and isinstance(b, float):
        return abs(a - b) <= 1e-9 * max(1, abs(a))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[k], b[k]) for k in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(same, a, b))
    return a == b


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare with rigs.json instead of writing it")
    check = parser.parse_args().check
    computed = [compute(rig) for rig in RIGS]
    if not check:
        FILE.write_text(json.dumps(computed, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
        return 0
    stored = json.loads(FILE.read_text(encoding="utf-8"))
    known = {rig["name"]: rig for rig in stored}
    differing = [rig["name"] for rig in computed if not same(rig, known.pop(rig["name"], None))] + list(known)
    print(f"{len(stored)} rigs computed again, {len(differing)} differ {differing}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
