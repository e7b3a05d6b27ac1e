#!/usr/bin/env python3
"""Oracle of weighbridge readings: least squares for tares, done a second way with numpy.

    python3 tests/published/oracle/weighing.py            writes weighing.jsonl beside this file
    python3 tests/published/oracle/weighing.py --check    computes everything again and compares with that file

Needs numpy (Debian: python3-numpy). The file has a line for every case: the units, the masses of each weighing, the
readings and what comes out. tests/published/weighing-oracle.test.ts reconciles the same readings and compares.

How it is independent: loads are sums over masses by moments about the other support, without influences; unknown are
mass, coordinates and the product moment about the centre, not moments about a fixed place, with numerical derivatives; an
uncertain listed mass is an unknown more, with an observation of its own, instead of a covariance; a standardised residual
is an error of one reading estimated as an unknown more, over its standard error. Which unknowns the readings determine is
written down for each case by hand. All rigs are invented.
"""

import argparse
import json
import pathlib
import sys

import numpy as np

sys.dont_write_bytecode = True  # a check leaves nothing beside the files it reads

from weighing_cases import CASES

FILE = pathlib.Path(__file__).with_name("weighing.jsonl")
AXES = ["mass", "x", "y", "z", "product"]  # the last about the centre, kg m²


def group_x(group):
    return sum(axle["x"] for axle in group["axles"]) / len(group["axles"])


def shares(unit, x):
    """What coupling and groups carry of a kilogram at x."""
    places = [group_x(group) for group in unit["groups"]]
    if unit["couplingCarries"]:
        behind = -x / -places[0]
        return 1 - behind, [behind]
    front = (x - places[1]) / (places[0] - places[1])
    return 0.0, [front, 1 - front]


def load_of_mass(case, kind, coupled, unit, mass, x, y, z):
    """kg that one mass adds to what is weighed."""
    units = case["units"]
    if unit not in coupled:
        return 0.0
    coupling, groups = shares(units[unit], x)
    if kind["what"] == "raised":
        tilt = kind["tilt"]
        standing, raised, theta = np.array(tilt["standing"]), np.array(tilt["raised"]), tilt["pitch"]
        side = np.sign(raised[0] - standing[0])

        def ahead(px, pz):  # horizontal distance from the standing support once pitched
            return side * (px - standing[0]) * np.cos(theta) - (pz - standing[1]) * np.sin(theta)

        return mass * ahead(x, z) / ahead(raised[0], raised[1])
    if kind["what"] == "all":
        return mass * (sum(groups) + (coupling if unit - 1 in coupled or len(coupled) == 1 else 0.0))
    if kind["what"] == "coupling":
        return mass * coupling if unit == kind["unit"] else 0.0
    at, group = kind["unit"], kind["group"]
    if unit == at + 1:
        hitch = shares(units[at], units[at]["hitch"]["x"])[1]
        carried = mass * coupling * hitch[group]
        return carried / 2 if kind["what"] in ("left", "right") else carried
    if unit != at:
        return 0.0
    carried = mass * groups[group]
    if kind["what"] == "group":
        return carried
    # Wheels of the first axle of the group; every axle of the group carries alike.
    axles = units[at]["groups"][group]["axles"]
    rolling = y * (mass if units[at]["couplingCarries"] else carried) / len(axles) / axles[0]["track"]
    half = carried / len(axles) / 2
    return half + rolling if kind["what"] == "left" else half - rolling


class Model:
    """All loads of a case as a function of tares (mass, x, y, z each) and of deviations of listed masses."""

    def __init__(self, case):
        self.case = case
        self.nuisances = sorted(
            {(s["id"], axis) for r in case["readings"] for s in r["sources"] for axis in s.get("spread", {})}
        )
        self.filed = np.array([[t["mass"], *(t["centre"][a] for a in "xyz"), 0.0] for t in case["tares"]]).reshape(-1)

    def loads(self, tares, nuisances):
        off = dict(zip(self.nuisances, nuisances))
        result = []
        for reading in self.case["readings"]:
            total = 0.0
            for index, tare in enumerate(self.case["tares"]):
                m, x, y, z, product = tares[5 * index : 5 * index + 5]
                total += load_of_mass(self.case, reading["kind"], reading["coupled"], tare["unit"], m, x, y, z)
                # The product moment as four masses at the corners of a square of 2 m, two of them negative.
                for dx, dy in [(1, 1), (1, -1), (-1, 1), (-1, -1)]:
                    part = dx * dy * product / 4
                    total += load_of_mass(
                        self.case, reading["kind"], reading["coupled"], tare["unit"], part, x + dx, y + dy, z
                    )
            for s in reading["sources"]:
                spread = s.get("spread", {})
                m, x, y, z = (
                    value + spread.get(axis, 0.0) * off.get((s["id"], axis), 0.0)
                    for axis, value in zip(AXES[:4], [s["mass"], *(s["centre"][a] for a in "xyz")])
                )
                total += load_of_mass(self.case, reading["kind"], reading["coupled"], s["unit"], m, x, y, z)
            result.append(total)
        return np.array(result)


def derivatives(function, at):
    columns = []
    for k in range(len(at)):
        step = np.zeros(len(at))
        step[k] = 0.5
        columns.append(function(at + step) - function(at - step))
    return np.array(columns).T if columns else np.zeros((len(function(at)), 0))


def solve(case):
    model = Model(case)
    readings = np.array([r["reading"] for r in case["readings"]])
    deviations = np.array([r["deviation"] for r in case["readings"]])
    free = [5 * index + AXES.index(axis) for index, axes in enumerate(case["free"]) for axis in axes]
    k, j, n = len(free), len(model.nuisances), len(readings)

    def tares_of(unknowns):
        tares = model.filed.copy()
        tares[free] = unknowns[:k]
        return tares

    # An uncertain listed mass counts to first order, at the place where the file has it.
    by_source = derivatives(lambda u: model.loads(model.filed, u), np.zeros(j))

    def loads(unknowns):
        return model.loads(tares_of(unknowns), np.zeros(j)) + by_source @ unknowns[k:]

    unknowns = np.concatenate([model.filed[free], np.zeros(j)])
    prior = np.hstack([np.zeros((j, k)), np.eye(j)])
    for _ in range(60):
        jacobian = np.vstack([derivatives(loads, unknowns) / deviations[:, None], prior])
        target = np.concatenate([(readings - loads(unknowns)) / deviations, -unknowns[k:]])
        unknowns = unknowns + np.linalg.lstsq(jacobian, target, rcond=None)[0]
    jacobian = np.vstack([derivatives(loads, unknowns) / deviations[:, None], prior])
    misfit = np.concatenate([(readings - loads(unknowns)) / deviations, -unknowns[k:]])
    covariance = np.linalg.inv(jacobian.T @ jacobian) if k + j else np.zeros((0, 0))
    degrees = n - k
    chi_square = float(misfit @ misfit)
    factor = max(1.0, np.sqrt(chi_square / degrees)) if degrees > 0 else 1.0

    predicted = model.loads(model.filed, np.zeros(j))
    variance = (by_source**2).sum(axis=1)
    for index, tare in enumerate(case["tares"]):
        for axis, deviation in tare.get("spread", {}).items():
            step = np.zeros(len(model.filed))
            step[5 * index + AXES.index(axis)] = deviation
            up = model.loads(model.filed + step, np.zeros(j))
            down = model.loads(model.filed - step, np.zeros(j))
            variance = variance + ((up - down) / 2) ** 2

    standardised, redundancies = [], []
    for i in range(n):
        shift = np.zeros(n + j)
        shift[i] = 1 / deviations[i]
        wide = np.column_stack([jacobian, shift])
        if np.linalg.matrix_rank(wide, tol=1e-6) < k + j + 1:
            standardised.append(None)
            redundancies.append(0.0)
            continue
        inverse = np.linalg.inv(wide.T @ wide)
        error = (inverse @ (wide.T @ misfit))[-1]
        standardised.append(float(error / np.sqrt(inverse[-1, -1])))
        known = np.column_stack([jacobian[:, k:], shift])
        redundancies.append(float(np.linalg.inv(known.T @ known)[-1, -1] / inverse[-1, -1]))

    fitted = model.loads(tares_of(unknowns), np.zeros(j))
    return {
        "readings": [
            {
                "predicted": float(predicted[i]),
                "predictedDeviation": float(np.sqrt(variance[i])),
                "fitted": float(fitted[i]),
                "redundancy": redundancies[i],
                "standardised": standardised[i],
            }
            for i in range(n)
        ],
        "tares": [
            tare_result(case, index, tares_of(unknowns), free, covariance, factor)
            for index in range(len(case["tares"]))
        ],
        "degreesOfFreedom": degrees,
        "chiSquare": chi_square,
    }


def tare_result(case, index, tares, free, covariance, factor):
    """Value and standard error of every determined quantity; the mass that is not listed where it is significant."""
    result = {}
    told = case["determined"][index]
    for axis in told:
        at = 5 * index + AXES.index(axis)
        place = free.index(at)
        result[axis] = {"value": float(tares[at]), "standardError": float(factor * np.sqrt(covariance[place, place]))}
    if "mass" not in told:
        return result
    tare = case["tares"][index]
    change = tares[5 * index] - tare["mass"]
    if abs(change) <= 2 * result["mass"]["standardError"]:
        return result
    result["unlisted"] = {"mass": {"value": float(change), "standardError": result["mass"]["standardError"]}}
    for axis in told[1:]:
        at = [free.index(5 * index), free.index(5 * index + AXES.index(axis))]
        m0, p0 = tare["mass"], tare["centre"][axis]

        def place(u):
            return (u[0] * u[1] - m0 * p0) / (u[0] - m0)

        u = np.array([tares[5 * index], tares[5 * index + AXES.index(axis)]])
        steps = np.array([1e-4, 1e-6])
        slope = np.array([(place(u + d) - place(u - d)) / (2 * d.sum()) for d in np.diag(steps)])
        variance = slope @ covariance[np.ix_(at, at)] @ slope
        result["unlisted"][axis] = {"value": float(place(u)), "standardError": float(factor * np.sqrt(variance))}
    return result


def same(a, b):
    if isinstance(a, float) and isinstance(b, float):
        return abs(a - b) <= 1e-6 * max(1, abs(a))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[k], b[k]) for k in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(same, a, b))
    return a == b


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare with weighing.jsonl instead of writing it")
    check = parser.parse_args().check
    computed = [{**case, "expected": solve(case)} for case in CASES(Model)]
    if not check:
        FILE.write_text("".join(json.dumps(case) + "\n" for case in computed), encoding="utf-8")
        return 0
    stored = {case["name"]: case for case in map(json.loads, FILE.read_text(encoding="utf-8").splitlines())}
    count = len(stored)
    computed = json.loads(json.dumps(computed))
    differing = [case["name"] for case in computed if not same(case, stored.pop(case["name"], None))] + list(stored)
    print(f"{count} weighings computed again, {len(differing)} differ {differing}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
