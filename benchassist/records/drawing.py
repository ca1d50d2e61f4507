"""The spectacles to scale on the paper, with what was ordered and what was found."""

from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry.dimensions import Dimension, dimensions
from benchassist.geometry.figure import Figure, Point, Stroke
from benchassist.geometry.front import front_view
from benchassist.geometry.plan import Centration, FrontPlan
from benchassist.job.plan import front_plan
from benchassist.optics.eye import Eye
from benchassist.records.ink import (
    ACCENT,
    FRAME,
    INK,
    LEFT,
    LENS,
    LINE,
    SMALL,
    SMALL_SOFT,
    SMALL_STRONG,
    SOFT,
    WIDTH,
    state_colour,
)
from benchassist.records.paper import Block, heading
from benchassist.records.pen import Pen
from benchassist.records.record import DefectLine, EyeCentration, Record, SpotLine
from benchassist.records.words import amount

_POINTS_A_MM = 72 / 25.4
_FOR_FIGURES_MM = 2.5
_CROWN_MM = 6.0
"""Above the frame, for the words right and left."""

_SIZES = {"a": "width", "b": "height", "dbl": "bridge", "ed": "effective diameter"}


@dataclass(frozen=True, slots=True)
class _Scene:
    """The figure and where it goes: millimetres to points from the top left."""

    plan: FrontPlan
    figure: Figure
    scale: float
    middle: float
    crown: float
    has_defects: bool

    def at(self, top: float, point: Point) -> Point:
        x, y = point
        return self.middle + x * self.scale, top + (self.crown - y) * self.scale

    def placed(self, top: float, stroke: Stroke) -> tuple[Point, ...]:
        return tuple(self.at(top, point) for point in stroke.points)


def drawing_blocks(record: Record) -> tuple[Block, ...]:
    """The front view, life size where the page is wide enough."""
    plan = front_plan(record.order)
    figure = front_view(plan)
    left, _, right, high = figure.bounds
    scale = min(_POINTS_A_MM, (WIDTH - 8) / max(right - left, 1.0))
    scene = _Scene(
        plan, figure, scale, LEFT + WIDTH / 2, high + _CROWN_MM, bool(record.defects)
    )
    found = {eye: _found(record.centration.eye(eye)) for eye in Eye}
    lines = dimensions(plan, found[Eye.RIGHT], found[Eye.LEFT])
    lowest = min([-plan.height / 2, *(line.start[1] + _away(plan, line)[1] for line in lines)])
    height = (high + _CROWN_MM - lowest) * scale + 26

    def draw(pen: Pen, top: float) -> None:
        for stroke in figure.strokes:
            _draw_stroke(pen, scene, top, stroke)
        for line in lines:
            _draw_dimension(pen, scene, top, line)
        for eye in Eye:
            _draw_found_point(pen, scene, top, eye, found[eye])
            _draw_eye(pen, scene, top, eye, record)
        for defect in record.defects:
            _draw_defect(pen, scene, top, defect)
        pen.text_middle(LEFT + WIDTH / 2, top + height - 4, _legend(scene), SMALL_SOFT)

    return (*heading("As found", "facing the wearer"), Block(height, draw))


def _found(eye: EyeCentration) -> Centration:
    """Where a lens was found to sit, as the drawing needs it."""
    distance, near, height = (
        None if value is None else float(value)
        for value in (eye.distance_pd, eye.near_pd, eye.height)
    )
    return Centration(distance, near, height)


def _legend(scene: _Scene) -> str:
    size = scene.scale / _POINTS_A_MM
    is_life_size = scene.scale == _POINTS_A_MM
    drawn = "life size when printed at 100 %" if is_life_size else f"drawn at {size:.2f} : 1"
    assumed = [_SIZES[name] for name in scene.plan.assumed]
    usual = f" · usual {', '.join(assumed)} drawn, none ordered" if assumed else ""
    crosses = " · slanting crosses: defects by their numbers" if scene.has_defects else ""
    return f"{drawn} · plain figures ordered, bold figures found, mm{usual}{crosses}"


def _draw_stroke(pen: Pen, scene: _Scene, top: float, stroke: Stroke) -> None:
    points = scene.placed(top, stroke)
    match stroke.name:
        case "lens":
            pen.shape(points, fill=LENS, line=FRAME, thickness=0.7)
        case "rim" | "bridge" | "endpiece" | "temple":
            pen.shape(points, fill=FRAME)
        case "pad":
            pen.shape(points, line=FRAME, thickness=0.6)
        case "near-circle" | "engraving" | "level":
            # The readings are written where these marks are.
            return
        case "box":
            pen.stroke((*points, points[0]), LINE, 0.5, dashed=True)
        case _:
            closed = (*points, points[0]) if stroke.is_closed else points
            pen.stroke(closed, SOFT, 0.6)


def _draw_eye(pen: Pen, scene: _Scene, top: float, eye: Eye, record: Record) -> None:
    x, y = scene.at(top, scene.plan.place(eye, (0.0, scene.plan.height / 2)))
    pen.text_middle(x, y - 14, " ".join(eye.value.upper()), SMALL_SOFT)
    for spot in record.spots:
        if spot.eye is eye:
            _draw_spot(pen, scene, top, spot)


def _draw_found_point(pen: Pen, scene: _Scene, top: float, eye: Eye, found: Centration) -> None:
    """A petrol cross where the lens is really centred."""
    if found.distance_pd is None or found.height is None:
        return
    side, low = -eye.nasal_sign, -scene.plan.height / 2
    x, y = scene.at(top, (side * found.distance_pd, low + found.height))
    pen.stroke(((x - 5, y), (x + 5, y)), ACCENT, 1.1)
    pen.stroke(((x, y - 5), (x, y + 5)), ACCENT, 1.1)


def _draw_dimension(pen: Pen, scene: _Scene, top: float, line: Dimension) -> None:
    """A length ordered and found: a soft line, ticks where each ends, and both figures."""
    is_upright = line.name == "height"
    away = _away(scene.plan, line)
    start, ordered, found = (
        None if point is None else scene.at(top, _moved(point, away, 1))
        for point in (line.start, line.ordered_end, line.found_end)
    )
    ends = [end for end in (ordered, found) if end is not None]
    if start is None or not ends:
        return
    far = max(ends, key=lambda end: abs(end[0] - start[0]) + abs(end[1] - start[1]))
    tick = (5.0 * -line.eye.nasal_sign, 0.0) if is_upright else (0.0, 5.0)
    pen.stroke((start, far), SOFT, 0.6)
    pen.stroke((_moved(start, tick, -0.8), _moved(start, tick, 0.8)), SOFT, 0.6)
    if ordered is not None:
        pen.stroke((_moved(ordered, tick, -1), ordered), INK, 0.8)
    if found is not None:
        pen.stroke((found, _moved(found, tick, 1)), ACCENT, 1.1)
    middle = ((start[0] + far[0]) / 2, (start[1] + far[1]) / 2)
    if is_upright:
        _write_beside(pen, middle, line)
    else:
        _write_along(pen, middle, line)


def _away(plan: FrontPlan, line: Dimension) -> Point:
    """How far a line is moved, mm.

    Heights stand outside the lens, where the readings leave room, and near distances lower, so
    that the figures have room between the lines.
    """
    if line.name == "height":
        outside = plan.place(line.eye, (-plan.width / 2 - plan.rim - 4.0, 0.0))[0]
        return outside - line.start[0], 0.0
    return 0.0, -_FOR_FIGURES_MM if line.name == "near-centre" else 0.0


def _moved(point: Point, way: Point, far: float) -> Point:
    return point[0] + far * way[0], point[1] + far * way[1]


def _write_along(pen: Pen, middle: Point, line: Dimension) -> None:
    x, y = middle
    pen.text_middle(x, y - 4, _mm(line.ordered), SMALL)
    pen.text_middle(x, y + 10, _mm(line.found), SMALL_STRONG)


def _write_beside(pen: Pen, middle: Point, line: Dimension) -> None:
    write, away = (pen.text_right, -6) if line.eye is Eye.RIGHT else (pen.text, 6)
    x, y = middle[0] + away, middle[1]
    write(x, y, _mm(line.ordered), SMALL)
    write(x, y + SMALL.leading, _mm(line.found), SMALL_STRONG)


def _mm(value: float | None) -> str:
    """A length of the drawing without its unit; empty where there is none."""
    if value is None:
        return ""
    return amount(Decimal(f"{value:.2f}"), "mm").removesuffix(" mm")


def _draw_defect(pen: Pen, scene: _Scene, top: float, defect: DefectLine) -> None:
    """A slanting cross where the defect is, with its number."""
    in_lens = (float(defect.across), float(defect.up))
    x, y = scene.at(top, scene.plan.place(defect.eye, in_lens))
    ink, reach = state_colour(defect.state), 3.0
    pen.stroke(((x - reach, y - reach), (x + reach, y + reach)), ink, 1.2)
    pen.stroke(((x - reach, y + reach), (x + reach, y - reach)), ink, 1.2)
    text = str(defect.number)
    pen.block(x + 4, y - 10, pen.width(text, SMALL_STRONG) + 2, 9, LENS)
    pen.text(x + 5, y - 2.8, text, SMALL_STRONG)


def _draw_spot(pen: Pen, scene: _Scene, top: float, spot: SpotLine) -> None:
    """The mark at its place and the reading on its temporal side."""
    place = scene.figure.spot(spot.spot)
    if place is None:
        return
    x, y = scene.at(top, place)
    pen.mark(x, y, 4, spot.state)
    text = spot.text or spot.state.word
    face = SMALL_STRONG if spot.text else SMALL_SOFT
    width = pen.width(text, face)
    start = x - 8 - width if spot.eye is Eye.RIGHT else x + 8
    pen.block(start - 1, y - 4.5, width + 2, 9, LENS)
    pen.text(start, y + 2.7, text, face)
