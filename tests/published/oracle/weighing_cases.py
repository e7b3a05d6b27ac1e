"""Cases of weighing.py: invented units, masses and readings. A reading is the load of what really stands there, made
with the oracle's own loads, plus an error in standard deviations of its scale."""

import math
import random

import numpy as np

CAR = {
    "groups": [
        {"axles": [{"x": 0.0, "track": 1.62}], "suspension": "equalised"},
        {"axles": [{"x": -2.75, "track": 1.58}], "suspension": "equalised"},
    ],
    "couplingCarries": False,
    "hitch": {"x": -3.8, "z": 0.45},
    "brakeShare": 1,
}
TRAILER = {
    "groups": [{"axles": [{"x": -4.1, "track": 1.95}], "suspension": "equalised"}],
    "coupling": {"x": 0.0, "z": 0.45},
    "couplingCarries": True,
    "brakeShare": 1,
}
TANDEM = {
    "groups": [{"axles": [{"x": -4.4, "track": 2.0}, {"x": -5.2, "track": 1.9}], "suspension": "equalised"}],
    "coupling": {"x": 0.0, "z": 0.5},
    "couplingCarries": True,
    "brakeShare": 1,
}


def place(x, y=0.0, z=0.6):
    return {"x": x, "y": y, "z": z}


def mass(name, unit, kilograms, centre, **spread):
    source = {"id": name, "unit": unit, "mass": kilograms, "centre": centre}
    return {**source, "spread": spread} if spread else source


def tare(unit, kilograms, centre, **spread):
    guess = {"unit": unit, "mass": kilograms, "centre": centre}
    return {**guess, "spread": spread} if spread else guess


def wheel(side, unit, group=0):
    return {"what": side, "unit": unit, "group": group}


def group(unit, number=0):
    return {"what": "group", "unit": unit, "group": number}


ALL = {"what": "all"}


def reading(kind, coupled, sources, error=0.0, deviation=2.0):
    listed = [s for s in sources if s["unit"] in coupled]
    return {"kind": kind, "coupled": coupled, "sources": listed, "error": error, "deviation": deviation}


def raised(unit, standing, at, pitch):
    return {"what": "raised", "unit": unit, "tilt": {"standing": standing, "raised": at, "pitch": pitch}}


def case(name, units, tares, true, readings, free, determined=None):
    return {
        "name": name,
        "units": units,
        "tares": tares,
        "true": true,
        "readings": readings,
        "free": free,
        "determined": free if determined is None else determined,
    }


def hand_made():
    box = mass("box", 1, 80.0, place(-2.0, 0.1, 0.9))
    tank = mass("tank", 1, 100.0, place(-4.5, 0.4, 0.5), mass=8.0, x=0.05)
    empty = mass("tank", 1, 0.0, place(-4.5, 0.4, 0.5))
    guest = mass("guest", 0, 70.0, place(-1.5, -0.4, 0.8), mass=6.0)
    car, hut = tare(0, 1850.0, place(-1.2)), tare(1, 1150.0, place(-3.9, 0.0, 0.7), mass=25.0, x=0.03)
    sides = [wheel("left", 1), wheel("right", 1)]
    coupling = {"what": "coupling", "unit": 1}
    yield case(
        "a trailer alone, no reading to spare",
        [CAR, TRAILER],
        [hut],
        [[1212.0, -3.75, 0.04, 0.7, 0.0]],
        [reading(kind, [1], [box], error) for kind, error in zip([coupling, *sides], [0.3, -0.5, 0.8])],
        [["mass", "x", "y"]],
    )
    axles = [group(0), group(0, 1), group(1)]
    differences = [reading(k, [0, 1], [box, guest], e, 5.0) for k, e in zip(axles, [0.4, -1.1, 0.2])]
    differences += [reading(k, [0], [guest], e, 5.0) for k, e in zip(axles[:2], [-0.7, 1.4])]
    differences += [reading(coupling, [1], [box], 0.9)]
    yield case(
        "coupled and alone, both tares unknown, a listed mass uncertain",
        [CAR, TRAILER],
        [car, hut],
        [[1901.0, -1.26, 0.0, 0.6, 0.0], [1210.0, -3.8, 0.0, 0.7, 0.0]],
        differences,
        [["mass", "x"], ["mass", "x"]],
    )
    passes = [reading(k, [1], [box, empty], e) for k, e in zip([coupling, *sides], [0.3, -0.5, 0.8])]
    passes += [reading(k, [1], [box, tank], e) for k, e in zip([coupling, *sides], [1.3, 1.5, -0.2])]
    passes += [reading(ALL, [1], [box, tank], -0.4, 6.0)]
    for name, spoiled in [("an uncertain tank, empty and full", 0.0), ("one reading off by ten deviations", 10.0)]:
        readings = [{**r, "error": r["error"] + (spoiled if i == 0 else 0.0)} for i, r in enumerate(passes)]
        true = [[1230.0, -3.7, -0.03, 0.7, 0.0]]
        yield case(name, [CAR, TRAILER], [hut], true, readings, [["mass", "x", "y"]])
    corners = [wheel(side, 0, end) for end in (0, 1) for side in ("left", "right")]
    yield case(
        "four wheels of a vehicle far from its file",
        [CAR],
        [tare(0, 1500.0, place(-1.0, 0.3))],
        [[1990.0, -1.6, -0.25, 0.6, 40.0]],
        [reading(k, [0], [guest], e, 1.0) for k, e in zip([*corners, group(0)], [1.2, -0.4, 0.3, 0.9, -1.3])],
        [["mass", "x", "y", "product"]],
        [["mass", "x", "y"]],
    )
    lift = raised(0, [-4.8, 0.36], [0.0, 0.5], 0.16)
    yield case(
        "a total, an axle and its sides: lateral place and product moment not by themselves",
        [CAR],
        [car],
        [[1901.0, -1.26, 0.03, 0.6, 20.0]],
        [reading(k, [0], [guest], e) for k, e in zip([ALL, group(0), *corners[:2]], [0.5, -1.3, 1.1, 0.2])],
        [["mass", "x", "y"]],
        [["mass", "x"]],
    )
    yield case(
        "two axles, sides and the coupling raised",
        [TANDEM],
        [tare(0, 1900.0, place(-4.6, 0.0, 0.8), mass=20.0, x=0.02, z=0.2)],
        [[1985.0, -4.5, 0.05, 1.05, 0.0]],
        [
            reading({"what": "coupling", "unit": 0}, [0], [], -0.6),
            reading(wheel("left", 0), [0], [], 0.5),
            reading(wheel("right", 0), [0], [], -1.5),
            reading(ALL, [0], [], 0.7, 4.0),
            reading(lift, [0], [], 0.2, 0.5),
            reading(lift, [0], [], 1.2, 0.5),
        ],
        [["mass", "x", "y", "z"]],
    )
    true = [[1901.0, -1.26, 0.0, 0.6, 0.0], [1210.0, -3.8, 0.0, 0.7, 0.0]]
    yield case(
        "the whole combination twice and the trailer's axles: neither mass by itself",
        [CAR, TRAILER],
        [car, hut],
        true,
        [reading(k, [0, 1], [box], e) for k, e in zip([ALL, ALL, group(1)], [0.5, -1.0, 0.1])],
        [["mass"], ["mass"]],
        [[], []],
    )
    yield case(
        "an axle of a vehicle twice",
        [CAR],
        [car],
        true[:1],
        [reading(group(0), [0], [guest], e) for e in (0.4, -0.9)],
        [["mass"]],
        [[]],
    )
    once = [reading(ALL, [0], [], 0.5)]
    hut = tare(0, 1150.0, place(-3.9))
    yield case("a whole unit once", [TRAILER], [hut], [[1205.0, -3.9, 0.0, 0.6, 0.0]], once, [["mass"]])


def drawn(number):
    """A random rig, weighed in many ways in random order and with scales of random accuracy."""
    draw = random.Random(number)

    def u(least, most):
        return round(draw.uniform(least, most), 3)

    wheelbase = u(2.3, 4.2)
    car = {
        **CAR,
        "groups": [
            {"axles": [{"x": 0.0, "track": u(1.4, 1.8)}], "suspension": "equalised"},
            {"axles": [{"x": -wheelbase, "track": u(1.4, 1.8)}], "suspension": "equalised"},
        ],
        "hitch": {"x": -wheelbase - u(0.7, 1.5), "z": 0.5},
    }
    axle = -u(3.0, 6.0)
    trailer = {
        **TRAILER,
        "groups": [
            {
                "axles": [{"x": axle - 0.4 + 0.8 * k, "track": u(1.6, 2.1)} for k in range(draw.choice([1, 2]))],
                "suspension": "equalised",
            }
        ],
    }
    middle = sum(a["x"] for a in trailer["groups"][0]["axles"]) / len(trailer["groups"][0]["axles"])
    listed = [
        mass("guest", 0, u(50, 100), place(-u(1, 2), u(-0.5, 0.5), 0.8), mass=u(1, 10), y=0.1),
        mass("box", 1, u(20, 120), place(-u(0, 6), u(-0.8, 0.8), 0.9), x=u(0, 0.3), z=0.1),
        mass("tank", 1, u(0, 120), place(-u(2, 6), u(-0.8, 0.8), 0.4), mass=u(1, 10)),
    ]
    tares = [
        tare(0, u(1300, 2500), place(-u(0.4, 0.5) * wheelbase, u(-0.05, 0.05), u(0.5, 0.8)), mass=u(5, 40)),
        tare(1, u(700, 2000), place(middle + u(0.05, 0.4), u(-0.05, 0.05), u(0.5, 0.9)), mass=u(5, 40), z=0.1),
    ]
    true = [
        [t["mass"] + u(-100, 200), *(t["centre"][a] + u(-0.2, 0.2) for a in "xyz"), u(-50, 50)] for t in tares
    ]
    pitch = u(0.05, 0.3)
    kinds = [(k, [0, 1]) for k in (group(0), group(0, 1), wheel("left", 1), wheel("right", 1), ALL)]
    kinds += [(k, [0]) for k in (wheel("left", 0), wheel("right", 0), wheel("left", 0, 1), ALL)]
    kinds += [({"what": "coupling", "unit": 1}, [1]), (group(1), [1])]
    kinds += [(raised(0, [-wheelbase, 0.33], [0.0, 0.33], pitch), [0])]
    kinds += [(raised(1, [middle, 0.33], [0.0, 0.45], pitch), [1])]
    draw.shuffle(kinds)
    readings = [reading(k, c, listed, draw.gauss(0, 1), draw.choice([0.5, 2.0, 5.0, 10.0])) for k, c in kinds]
    free = [["mass", "x", "y", "z", "product"], ["mass", "x", "y", "z"]]
    return case(f"weighed in many ways, draw {number}", [car, trailer], tares, true, readings, free, [["mass", "x", "y", "z"]] * 2)


def CASES(model):
    """All cases, with the readings made; `model` computes loads."""
    made = []
    for each in [*hand_made(), *map(drawn, range(12))]:
        loads = model(each).loads(np.array(each["true"]).reshape(-1), np.zeros(99))
        readings = []
        for r, load in zip(each["readings"], loads):
            value = round(load + r["error"] * r["deviation"], 1)
            assert math.isfinite(value)
            kept = {k: r[k] for k in ("kind", "coupled", "deviation")}
            readings.append({**kept, "sources": r["sources"], "reading": value})
        made.append({**{k: v for k, v in each.items() if k != "true"}, "readings": readings})
    return made
