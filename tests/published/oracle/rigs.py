#!/usr/bin/env python3
"""Oracle of whole rigs: from the text of a rig to its damping, by a second model of everything in between.

    python3 tests/published/oracle/rigs.py            writes rigs.json beside this file
    python3 tests/published/oracle/rigs.py --check    computes everything again and compares with that file

Needs mpmath, which python3-sympy (Debian) brings; nothing else. The file has for every rig its text and, for each case
on each road, the least damping ratio of what swings at the intended speed and its frequency in Hz, whether something
grows without swinging, the lowest speeds (m/s) at which something grows while it swings and without, and the understeer
of the vehicle with all it tows (rad per m/s²). tests/published/lateral-rigs.test.ts analyses the texts and compares.

How it is independent: not a line is shared with the language. The text and the model are both made from the rigs in
`RIGS`, so that no text is read here. Statics goes from the rearmost unit forward with moments about the ground under the
axles; tyres use the sine and arctangent of the published curve; the motion is Lagrange's equations in headings and one
sideways place, with every axle's slip a state of its own. Eigenvalues at the intended speed are those of mpmath with 25
digits; speeds are bracketed by a QR iteration of its own, which is compared with them.

The rigs are in rig_fleet.py, their texts in rig_texts.py, loads and tyres in rig_loads.py, the equations in rig_motion.py
and their eigenvalues in rig_eigenvalues.py.

What both take from one source are figures only: the tyres of a kind (Gillespie, second hand), the load index (ETRTO,
UN Regulation No. 30) and the conventions of the language reference for what a text leaves open. All rigs are invented.
"""

import argparse
import json
import math
import pathlib
import sys

sys.dont_write_bytecode = True  # a check leaves nothing beside the files it reads

from rig_eigenvalues import exact_eigenvalues, qr_eigenvalues, swings
from rig_fleet import RIGS
from rig_loads import G, support_loads
from rig_motion import Motion, bodies_of
from rig_texts import text_of

FILE = pathlib.Path(__file__).with_name("rigs.json")
LEAST_SPEED, MOST_SPEED = 10 / 3.6, 200 / 3.6


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
    usual = [
        [max(sum(loads[u][g]) for loads in level) for g in range(len(unit.axles))] for u, unit in enumerate(rig.units)
    ]
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
