"""The rigs that the oracle computes. All of them are invented."""

from rig_texts import Axles, Hitch, Mass, Rig, Tyres, Unit

SALOON = dict(marking="205/60R15 91V", kind="passenger", single=91)
SMALL = dict(marking="155/80R13 79T", kind="passenger", single=79)
VAN = dict(marking="195/70R14C 96/94N", kind="commercial", single=96, twin=94)
TRUCK = dict(marking="225/75R16C 121/120R", kind="commercial", single=121, twin=120)
LIGHT_TRUCK = dict(marking="LT245/75R16 120/116S", kind="light truck", single=120, twin=116)
TRAILER = dict(marking="ST205/75R14 100/96M", kind="trailer", single=100, twin=96)


def car(rear=640, hitch=0.95, front_tyres=SALOON, rear_tyres=SALOON, ratings=(1100, 1250), **more):
    mass = 820 + rear
    damper, spring, kind = more.get("damper", 0), more.get("spring", 0), more.get("kind", "ball 50 mm")
    return Unit(
        "Marten",
        [
            Axles(0, 1.55, "front", rating=ratings[0], tyres=front_tyres and Tyres(2, **front_tyres)),
            Axles(2.7, 1.55, "rear", rating=ratings[1], tyres=rear_tyres and Tyres(2, **rear_tyres)),
        ],
        Mass(mass, rear * 2.7 / mass, 0.56, inertia=2400),
        more.get("loads", []),
        Hitch(kind, hitch, 0.42, damper, spring),
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


def tourer(
    length=4.0, mass=940, back=3.85, up=0.75, inertia=2600, tyres=VAN, count=1, spacing=0.0, rating=1300, **more
):
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
