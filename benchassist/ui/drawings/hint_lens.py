"""Hint pictures of the finished lens: marks, distances, surface and edge."""

from math import pi, sin

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from benchassist.geometry.figure import Figure, Point
from benchassist.geometry.front import front_view
from benchassist.geometry.plan import Centration, FrontPlan, Layout
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.canvas import Canvas, Ink
from benchassist.ui.drawings.hint_meter import Shown

_CENTRED = Centration(distance_pd=31.5, near_pd=29.0, height=22.0)
_PLAN = FrontPlan(a=50.0, b=38.0, dbl=18.0, ed=53.0, layout=Layout.CORRIDOR, right=_CENTRED,
                  left=_CENTRED)  # fmt: skip
_MEASURE = Ink("accent", 1.8)


def _right_lens(plan: FrontPlan) -> Figure:
    """The right lens of a plan alone, with its rim."""
    whole = front_view(plan)
    kept = {"rim", "lens", "cross", "arc", "engraving", "level", "near-circle", "segment"}
    strokes = tuple(
        stroke for stroke in whole.strokes if stroke.eye is Eye.RIGHT and stroke.name in kept
    )
    return Figure("front", strokes, whole.spots)


def _px(to_px: QTransform, plan: FrontPlan, at: Point) -> Point:
    place = to_px.map(QPointF(*plan.place(Eye.RIGHT, at)))
    return place.x(), place.y()


def progressive_marks(canvas: Canvas, _shown: Shown) -> None:
    """What is printed and what is engraved on a power-variation lens."""
    to_px = canvas.figure(_right_lens(_PLAN), QRectF(14.0, 8.0, 160.0, 124.0))
    for at, words in (
        ((-1.0, 11.0), "distance"),
        ((-1.0, 3.0), "fitting cross"),
        ((-1.0, -13.0), "near"),
    ):
        x, y = _px(to_px, _PLAN, at)
        canvas.line(((x + 26.0, y), (182.0, y)), Ink("outline", 1.0))
        canvas.words((219.0, y), words, "ink")
    left, right = (_px(to_px, _PLAN, (2.5 + side * 17.0, -1.0)) for side in (-1, 1))
    y = 145.0
    canvas.arrow((left[0], y), (right[0], y), _MEASURE, is_double=True)
    for x, top in (left, right):
        canvas.line(((x, top + 6.0), (x, y + 5.0)), Ink("accent", 1.0, dash=(3.0, 3.0)))
    canvas.words((219.0, y), "34 mm")


def centration(canvas: Canvas, _shown: Shown) -> None:
    """From the middle of the bridge to each centre."""
    to_px = canvas.figure(front_view(_PLAN), QRectF(8.0, 6.0, 240.0, 96.0))
    middle = to_px.map(QPointF(0.0, 0.0))
    for eye in Eye:
        centre = to_px.map(QPointF(eye.nasal_sign * -31.5, 3.0))
        canvas.arrow((middle.x(), 122.0), (centre.x(), 122.0), _MEASURE)
        dashed = Ink("accent", 1.0, dash=(3.0, 3.0))
        canvas.line(((centre.x(), centre.y() + 8.0), (centre.x(), 128.0)), dashed)
    canvas.line(((middle.x(), 30.0), (middle.x(), 128.0)), Ink("accent", 1.0, dash=(3.0, 3.0)))
    canvas.words((128.0, 146.0), "each lens from the middle of the bridge")


def heights(canvas: Canvas, _shown: Shown) -> None:
    """From the lowest point of the boxed lens up."""
    to_px = canvas.figure(_right_lens(_PLAN), QRectF(20.0, 10.0, 150.0, 112.0))
    top = _px(to_px, _PLAN, (2.5, 3.0))
    low = _px(to_px, _PLAN, (2.5, -19.0))
    for y in (top[1], low[1]):
        canvas.line(((24.0, y), (214.0, y)), Ink("accent", 1.0, dash=(4.0, 3.0)))
    canvas.arrow((206.0, low[1]), (206.0, top[1]), _MEASURE, is_double=True)
    canvas.words((231.0, (top[1] + low[1]) / 2), "height", "accent", strong=True)
    canvas.words((128.0, 146.0), "inside the rim: lowest point to the mark")


def segment_tilt(canvas: Canvas, _shown: Shown) -> None:
    """A segment top that is not level."""
    plan = FrontPlan(a=50.0, b=38.0, dbl=18.0, ed=53.0)
    to_px = canvas.figure(_right_lens(plan), QRectF(40.0, 8.0, 176.0, 116.0))
    x, y = _px(to_px, plan, (2.5, -1.0))
    bowl = tuple((n * 5.0, 34.0 * (1 - (n / 8.0) ** 2) ** 0.5) for n in range(-8, 9))
    level = Ink("accent", 1.4, dash=(5.0, 4.0))
    canvas.line(((x - 62.0, y), (x + 62.0, y)), level)
    canvas.painter.save()
    canvas.painter.translate(x, y)
    canvas.painter.rotate(-9.0)
    canvas.shape(bowl, Ink("lens_edge", 1.6), "raised")
    canvas.line(((-40.0, 0.0), (40.0, 0.0)), Ink("outside", 2.2))
    canvas.painter.restore()
    canvas.arc((x, y), 54.0, 0.0, 9.0, Ink("outside", 2.0))
    canvas.words((128.0, 146.0), "the top edge against the level of the frame")


def calliper(canvas: Canvas, _shown: Shown) -> None:
    """A calliper across the thickness of a lens."""
    outer, inner = _bow(50.0, 26.0), _bow(62.0, 16.0)
    canvas.shape((*outer, *reversed(inner)), Ink("lens_edge", 1.6), "lens")
    for tip, way in (((110.0, 76.0), -1), ((110.0, 78.0), 1)):
        far = 77.0 + way * 64.0
        for ink in (Ink("frame_edge", 7.5), Ink("frame_glow", 5.0)):
            canvas.curve(tip, (118.0, far), (206.0, far), (230.0, 77.0), ink)
        canvas.arrow((66.0, 77.0 + way * 40.0), (98.0, 77.0 + way * 10.0), _MEASURE)
    canvas.circle((230.0, 77.0), 7.5, Ink("frame_edge", 1.6), "frame")
    canvas.words((128.0, 148.0), "square to both surfaces")


def _bow(y: float, bulge: float) -> tuple[Point, ...]:
    return tuple((110.0 + 8.4 * n, y + bulge * (1 - (n / 10) ** 2)) for n in range(-10, 11))


def surface_light(canvas: Canvas, _shown: Shown) -> None:
    """Slanting light on a dark ground makes a scratch shine."""
    lamp, lens = (46.0, 34.0), (138.0, 88.0)
    beam = (lamp, (lens[0] - 40.0, lens[1] + 22.0), (lens[0] + 22.0, lens[1] - 32.0))
    canvas.shape(beam, None, "caution_bar", 70)
    canvas.circle(lamp, 12.0, None, "caution_bar")
    canvas.ellipse(lens, 52.0, 36.0, Ink("lens_edge", 2.0))
    scratch = tuple((lens[0] - 20.0 + n * 4.0, lens[1] - 8.0 + 5.0 * sin(n * pi / 7))
                    for n in range(12))  # fmt: skip
    canvas.line(scratch, Ink("instrument_line", 2.0))
    for dx, dy in ((-26.0, 16.0), (14.0, -22.0), (28.0, 12.0)):
        canvas.circle((lens[0] + dx, lens[1] + dy), 1.6, None, "instrument_line")
    canvas.arrow((lens[0] + 20.0, lens[1] - 4.0), (220.0, 40.0), Ink("instrument_line", 1.6))
    canvas.words((226.0, 28.0), "eye", "instrument_line")
    canvas.words((128.0, 144.0), "dark ground, light from the side", "instrument_line")


def edge(canvas: Canvas, _shown: Shown) -> None:
    """The bevel seated in its groove, and a lens that stands proud with a gap."""
    for x, lift in ((68.0, 0.0), (188.0, 13.0)):
        rim = ((x - 34, 24), (x + 34, 24), (x + 34, 62), (x + 12, 62), (x, 48), (x - 12, 62),
               (x - 34, 62))  # fmt: skip
        canvas.shape(rim, Ink("frame_edge", 1.6), "frame")
        lens = ((x, 50 + lift), (x + 11, 63 + lift), (x + 11, 122), (x - 11, 122),
                (x - 11, 63 + lift))  # fmt: skip
        canvas.shape(lens, Ink("lens_edge", 1.6), "lens")
    canvas.arrow((238.0, 68.0), (204.0, 68.0), Ink("outside", 2.0))
    canvas.words((236.0, 82.0), "gap", "outside", strong=True)
    canvas.good((68.0, 138.0))
    canvas.bad((188.0, 138.0))
