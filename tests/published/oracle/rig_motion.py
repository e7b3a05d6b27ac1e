"""The lateral motion of a rig: Lagrange's equations, linearised about straight running."""

from dataclasses import dataclass

import mpmath

from rig_loads import G, axle_stiffness, holds_itself, support_loads, total

# What the language takes of the steered frame of a full trailer: its share is of the tare as stated, without fittings.
FRAME_SHARE, FRAME_GYRATION = 0.08, 0.6


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
            frame = Body(FRAME_SHARE * unit.tare.mass, pivot, 0.0, groups[0], hitch=pivot, joint=body.joint)
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
    sideways velocity over the ground as the vehicle sees it, all yaw rates, headings over the vehicle's, slip angles.
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
