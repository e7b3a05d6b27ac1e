"""The rigs of the oracle as data, and the text that says the same in the language. SI units throughout."""

from dataclasses import dataclass, field
from typing import Optional


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
    own = f"{mm(tare.up)} up, inertia {tare.inertia:.12g} kg·m²"
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
            head = f"axle {axles.name}" if axles.name else "axles"
            place = f"at {mm(axles.at)} back, track {mm(axles.track)}"
            words = spread + steered + rating_words(axles) + tyre_words(axles.tyres)
            lines.append(f"  {head} {group} {place}{words}")
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
    grades = f"grades -{rig.grade:g} % to {rig.grade:g} %"
    lines.append(f"  travel {rig.speed:g} km/h, {grades}, braking {rig.braking:g} m/s²")
    for case in rig.cases:
        absent = [m.name for _, m in stowed if case not in m.cases]
        lines.append(f"  case {case} {{ {'absent ' + ', '.join(absent) + ' ' if absent else ''}}}")
    return "\n".join([*lines, "}", ""])
