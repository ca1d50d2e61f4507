"""The spectacles from the front, to scale, with a place for each thing to be read.

Millimetres, facing the wearer: the right lens lies at -x, y is up, and the origin is the middle
of the bridge on the boxed horizontal centre line. Within one lens positions are first laid out
with +x towards the nose and mirrored for the left lens.
"""

from benchassist.geometry.figure import Figure, Polyline, Spot, Stroke
from benchassist.geometry.layout import layout_strokes, lens_spots
from benchassist.geometry.outline import curve, edge_at, offset, ribbon, side_at
from benchassist.geometry.plan import FrontPlan, Mount
from benchassist.optics.eye import Eye


def front_view(plan: FrontPlan) -> Figure:
    """The spectacles from the front: frame, lenses, marks of the layout and spots."""
    outline = plan.outline()
    strokes: list[Stroke] = []
    spots: list[Spot] = []
    for eye in Eye:
        strokes.extend(_side_strokes(plan, eye, outline))
    strokes.extend(_bridge(plan, outline))
    for eye in Eye:
        strokes.extend(lens_strokes(plan, eye, outline))
        strokes.extend(layout_strokes(plan, eye, outline))
        spots.extend(lens_spots(plan, eye, outline))
        spots.extend(_frame_spots(plan, eye, outline))
    crown = 0.3 * plan.height
    spots.append(Spot("bridge", (0.0, crown)))
    spots.append(Spot("pads", (0.0, -0.1 * plan.height)))
    spots.append(Spot("front", (0.0, crown + 10.0)))
    return Figure("front", tuple(strokes), tuple(spots))


def lens_strokes(plan: FrontPlan, eye: Eye, outline: Polyline) -> tuple[Stroke, ...]:
    """Rim, lens and box of one side, in the order in which they are painted."""
    half_a, half_b = plan.width / 2, plan.height / 2
    box = ((-half_a, -half_b), (half_a, -half_b), (half_a, half_b), (-half_a, half_b))
    shapes: list[tuple[str, Polyline, bool]] = []
    if plan.mount is Mount.FULL:
        shapes.append(("rim", offset(outline, plan.rim), True))
    if plan.mount is Mount.HALF:
        shapes.append(("rim", _brow(outline, plan.rim), True))
    shapes += [("lens", outline, True), ("box", box, True)]
    return tuple(
        Stroke(name, plan.placed(eye, points), eye, is_closed)
        for name, points, is_closed in shapes
    )


def _brow(outline: Polyline, rim: float) -> Polyline:
    """The upper rim of a half-rim mount, closed, ending a little below the middle."""
    outer = offset(outline, rim)
    count = len(outline)
    reach = count // 2 + count // 16
    start = -(count // 32)
    upper = [number % count for number in range(start, start + reach)]
    return (
        *(outer[number] for number in upper),
        *(outline[number] for number in reversed(upper)),
    )


def _frame_spots(plan: FrontPlan, eye: Eye, outline: Polyline) -> list[Spot]:
    outer = offset(outline, plan.rim)
    low_x = -0.3 * plan.width
    level = 0.26 * plan.height
    side = side_at(outer, level, is_nasal=False)
    places = {
        "rim": (low_x, edge_at(outline, low_x, is_upper=False) - plan.rim / 2),
        "endpiece": (side - 2.5, level),
        "temple": (side - 9.0, level - 1.0),
        "tip": (side - 9.0, level - 13.0),
    }
    return [Spot(f"{eye}.{name}", plan.place(eye, at)) for name, at in places.items()]


def _side_strokes(plan: FrontPlan, eye: Eye, outline: Polyline) -> list[Stroke]:
    """Temple stub, endpiece and pad of one side."""
    outer = offset(outline, plan.rim)
    level = 0.26 * plan.height
    side = side_at(outer, level, is_nasal=False)
    stub = curve(
        (side - 3.5, level + 0.2),
        (side - 7.0, level + 0.2),
        (side - 10.0, level - 0.4),
        (side - 13.0, level - 1.6),
        8,
    )
    arm = curve(
        (side + 1.8, level - 0.6),
        (side - 0.5, level),
        (side - 2.5, level + 0.2),
        (side - 5.5, level + 0.2),
        8,
    )
    thick = max(plan.rim_width * 1.9, 3.4)
    widths = tuple(thick * (1.3 - 0.45 * step / 8) for step in range(9))
    shapes = (
        ("temple", ribbon(stub, (thick * 0.66,) * 9)),
        ("endpiece", ribbon(arm, widths)),
        ("pad", _pad(plan)),
    )
    return [
        Stroke(name, plan.placed(eye, points), eye, is_closed=True) for name, points in shapes
    ]


def _pad(plan: FrontPlan) -> Polyline:
    """The pad of one side, a slim drop beside the rim that leans outwards below."""
    tall = min(0.3 * plan.height, 13.0)
    x, y = plan.width / 2 + 0.16 * plan.gap + plan.rim * 0.55, -0.10 * plan.height
    top, low = (x + 0.9, y + tall * 0.5), (x - 1.1, y - tall * 0.5)
    wide = 2.1
    inner = curve(top, (x + wide, y + tall * 0.42), (x + wide, y - tall * 0.2), low)
    outer = curve(low, (x - wide * 1.5, y - tall * 0.34), (x - wide, y + tall * 0.3), top)
    return (*inner, *outer)


def _bridge(plan: FrontPlan, outline: Polyline) -> list[Stroke]:
    """The bridge as one closed shape, its ends under the rims."""
    outer = offset(outline, plan.rim)
    h = plan.height / 2
    thick = max(plan.rim_width * 1.7, 2.4)
    crown = 0.60 * h
    upper = plan.place(Eye.RIGHT, (side_at(outer, 0.46 * h, is_nasal=True) - 1.4, 0.46 * h))
    low_y = 0.46 * h - 1.5 * thick
    lower = plan.place(Eye.RIGHT, (side_at(outer, low_y, is_nasal=True) - 1.4, low_y))
    rise = (crown - 0.25 * upper[1]) / 0.75
    sink = (crown - thick - 0.25 * lower[1]) / 0.75
    top = curve(upper, (0.55 * upper[0], rise), (-0.55 * upper[0], rise), (-upper[0], upper[1]))
    under = curve(
        (-lower[0], lower[1]), (-0.62 * lower[0], sink), (0.62 * lower[0], sink), lower
    )
    return [Stroke("bridge", (*top, *under), is_closed=True)]
