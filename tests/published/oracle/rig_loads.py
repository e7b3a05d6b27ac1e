"""Wheel loads and cornering stiffness of a rig on a road. Loads are forces over g, kg."""

import math

G = 9.80665

# Stiffness per degree over load at the rated load (T. D. Gillespie, Fundamentals of Vehicle Dynamics, second hand; low
# in the range for all but passenger tyres: common practice) and relaxation length in m (from memory), by kind.
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
LOAD_INDEX = {79: 437, 91: 615, 94: 670, 96: 710, 100: 800, 112: 1120, 116: 1250, 120: 1400, 121: 1450}
# Taken where neither tyres nor ratings are stated.
USUAL_RESERVE = 1.25


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
        if index:
            tail += onward * rig.units[index - 1].hitch.up
        if unit.is_vehicle or unit.is_full:
            press = 0.0
            rear = tail / (unit.axles[1].at - first)
            groups = [weight - rear, rear]
        else:
            # The hitch ahead carries the coupling, `first` ahead of the axles, against the moment that is left.
            press = -tail / first
            groups = [weight - press]
        loads.insert(0, [sides(unit, position, load, masses, down) for position, load in enumerate(groups)])
        push = onward
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
