"""The spectacles to scale on the paper, with what was ordered and what was found."""

from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry.figure import Figure, Point, Stroke
from benchassist.geometry.front import front_view
from benchassist.geometry.plan import FrontPlan
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
)
from benchassist.records.paper import Block, heading
from benchassist.records.pen import Pen
from benchassist.records.record import EyeCentration, Record, SpotLine
from benchassist.records.words import amount

_POINTS_A_MM = 72 / 25.4
_SIZES = {"a": "width", "b": "height", "dbl": "bridge", "ed": "effective diameter"}
_DROP_MM = 9.0
"""How far below the boxed lenses the centration distances are drawn."""


@dataclass(frozen=True, slots=True)
class _Scene:
    """The figure and where it goes: millimetres to points from the top left."""

    plan: FrontPlan
    figure: Figure
    scale: float
    middle: float
    crown: float

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
    scene = _Scene(plan, figure, scale, LEFT + WIDTH / 2, high + 8)
    height = (high + 8 + plan.height / 2 + _DROP_MM) * scale + 30

    def draw(pen: Pen, top: float) -> None:
        for stroke in figure.strokes:
            _draw_stroke(pen, scene, top, stroke)
        for eye in Eye:
            _draw_eye(pen, scene, top, eye, record)
        pen.text_middle(LEFT + WIDTH / 2, top + height - 4, _legend(scene), SMALL_SOFT)

    return (*heading("As found", "facing the wearer"), Block(height, draw))


def _legend(scene: _Scene) -> str:
    size = scene.scale / _POINTS_A_MM
    is_life_size = scene.scale == _POINTS_A_MM
    drawn = "life size when printed at 100 %" if is_life_size else f"drawn at {size:.2f} : 1"
    assumed = [_SIZES[name] for name in scene.plan.assumed]
    usual = f" · usual {', '.join(assumed)} drawn, none ordered" if assumed else ""
    return f"{drawn} · plain figures ordered, bold figures found, mm{usual}"


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
    centration = record.centration.eye(eye)
    _draw_found_point(pen, scene, top, eye, centration)
    _draw_width(pen, scene, top, eye, centration)
    _draw_height(pen, scene, top, eye, centration)
    for spot in record.spots:
        if spot.eye is eye:
            _draw_spot(pen, scene, top, spot)


def _draw_found_point(
    pen: Pen, scene: _Scene, top: float, eye: Eye, centration: EyeCentration
) -> None:
    """A petrol cross where the lens is really centred."""
    if centration.found_pd is None or centration.found_height is None:
        return
    plan = scene.plan
    across = (plan.width + plan.gap) / 2 - float(centration.found_pd)
    up = float(centration.found_height) - plan.height / 2
    x, y = scene.at(top, plan.place(eye, (across, up)))
    pen.stroke(((x - 5, y), (x + 5, y)), ACCENT, 1.1)
    pen.stroke(((x, y - 5), (x, y + 5)), ACCENT, 1.1)


def _draw_width(
    pen: Pen, scene: _Scene, top: float, eye: Eye, centration: EyeCentration
) -> None:
    side, low = -eye.nasal_sign, -scene.plan.height / 2 - _DROP_MM
    reach = max(float(centration.ordered_pd or 0), float(centration.found_pd or 0))
    if not reach:
        return
    start, end = scene.at(top, (0.0, low)), scene.at(top, (side * reach, low))
    pen.stroke((start, end), SOFT, 0.6)
    pen.stroke(((start[0], start[1] - 4), (start[0], start[1] + 4)), SOFT, 0.6)
    middle = (start[0] + end[0]) / 2
    if centration.ordered_pd is not None:
        x, y = scene.at(top, (side * float(centration.ordered_pd), low))
        pen.stroke(((x, y - 5), (x, y)), INK, 0.8)
        pen.text_middle(middle, y - 4, _mm(centration.ordered_pd), SMALL)
    if centration.found_pd is not None:
        x, y = scene.at(top, (side * float(centration.found_pd), low))
        pen.stroke(((x, y), (x, y + 5)), ACCENT, 1.1)
        pen.text_middle(middle, y + 10, _mm(centration.found_pd), SMALL_STRONG)


def _mm(value: Decimal) -> str:
    return amount(value, "mm").removesuffix(" mm")


def _draw_height(
    pen: Pen, scene: _Scene, top: float, eye: Eye, centration: EyeCentration
) -> None:
    plan = scene.plan
    reach = max(float(centration.ordered_height or 0), float(centration.found_height or 0))
    if not reach:
        return
    low = -plan.height / 2
    across = -plan.width / 2 - plan.rim - 4.0
    out = -eye.nasal_sign
    foot = scene.at(top, plan.place(eye, (across, low)))
    peak = scene.at(top, plan.place(eye, (across, low + reach)))
    pen.stroke((foot, peak), SOFT, 0.6)
    pen.stroke(((foot[0] - 4, foot[1]), (foot[0] + 4, foot[1])), SOFT, 0.6)
    write = pen.text_right if out < 0 else pen.text
    x, y = foot[0] + out * 6, (foot[1] + peak[1]) / 2
    if centration.ordered_height is not None:
        at = foot[1] - float(centration.ordered_height) * scene.scale
        pen.stroke(((foot[0] - out * 5, at), (foot[0], at)), INK, 0.8)
        write(x, y, _mm(centration.ordered_height), SMALL)
    if centration.found_height is not None:
        at = foot[1] - float(centration.found_height) * scene.scale
        pen.stroke(((foot[0], at), (foot[0] + out * 5, at)), ACCENT, 1.1)
        write(x, y + SMALL.leading, _mm(centration.found_height), SMALL_STRONG)


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
