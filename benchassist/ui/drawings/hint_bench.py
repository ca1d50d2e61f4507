"""Hint pictures of the frame at the bench: faults enlarged over the true frame."""

from PySide6.QtCore import QPointF, QRectF

from benchassist.geometry.fault import Fault
from benchassist.geometry.figure import Figure
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.canvas import Canvas, Ink, around
from benchassist.ui.drawings.hint_meter import Shown

_PLAN = FrontPlan(a=50.0, b=36.0, dbl=18.0, ed=53.0, rim_width=3.2)
_BOX = QRectF(14.0, 14.0, 228.0, 120.0)
_ARROW = Ink("outside", 2.0)
_EDGE = Ink("accent", 2.2)
_EDGE_ON = frozenset({"front-line", "lens-line"})
_LEANING = FrontPlan(a=50.0, b=36.0, dbl=18.0, ed=53.0, tilt=16.0)


def rotation(canvas: Canvas, _shown: Shown) -> None:
    """A lens turned in its rim while the frame is level."""
    figure = view(_PLAN, "front", Fault("rotation", -9.0, Eye.RIGHT))
    to_px = canvas.figure(figure, _BOX)
    centre = to_px.map(QPointF(*_PLAN.place(Eye.RIGHT, (0.0, 0.0))))
    canvas.arc((centre.x(), centre.y()), 62.0, 108.0, 78.0, _ARROW)
    canvas.arrow(
        around((centre.x(), centre.y()), 62.0, 80.0),
        around((centre.x(), centre.y()), 61.0, 70.0),
        _ARROW,
    )
    canvas.words((128.0, 146.0), "one lens leans, the bridge is level")


def skew(canvas: Canvas, _shown: Shown) -> None:
    """One half sits higher than the other."""
    canvas.figure(view(_PLAN, "front", Fault("skew", 8.0)), _BOX)
    canvas.line(((22.0, 74.0), (234.0, 74.0)), Ink("accent", 1.4, dash=(6.0, 4.0)))
    canvas.words((128.0, 146.0), "one half higher: the bridge is skewed")


def x_ing(canvas: Canvas, _shown: Shown) -> None:
    """Seen from the side the two lenses cover each other, or cross."""
    for x, fault in ((68.0, None), (188.0, Fault("x-ing", 24.0))):
        side = view(_PLAN, "side", fault)
        lenses = tuple(one for one in side.strokes if one.name.removeprefix("far-") in _EDGE_ON)
        canvas.figure(Figure("side", lenses, ()), QRectF(x - 40.0, 12.0, 80.0, 104.0))
    canvas.good((68.0, 138.0))
    canvas.bad((188.0, 138.0))


def planes(canvas: Canvas, _shown: Shown) -> None:
    """One lens lies before the other."""
    canvas.figure(view(_PLAN, "top", Fault("planes", 11.0)), _BOX)
    canvas.words((128.0, 148.0), "from above: parallel, one further forward")


def face_form(canvas: Canvas, _shown: Shown) -> None:
    """Both halves swung back more than made."""
    canvas.figure(view(_PLAN, "top", Fault("face-form", 20.0)), _BOX)
    canvas.words((128.0, 148.0), "from above: too much face form")


def four_point(canvas: Canvas, _shown: Shown) -> None:
    """A straight edge behind the front, and where it touches."""
    box = QRectF(14.0, 34.0, 228.0, 96.0)
    to_px = canvas.figure(view(_PLAN, "top"), box)
    y = to_px.map(QPointF(0.0, 8.0)).y()
    canvas.shape(((46, y - 10), (210, y - 10), (210, y), (46, y)), _EDGE, "accent_soft")
    for x in (56.0, 200.0):
        canvas.circle((x, y + 1.0), 4.5, Ink("raised", 1.5), "within")
    for x in (112.0, 144.0):
        canvas.arrow((x, y + 3.0), (x, y + 18.0), Ink("close", 1.6), is_double=True)
    canvas.words((128.0, 148.0), "temporal points touch, nasal gaps are equal")


def open_angle(canvas: Canvas, _shown: Shown) -> None:
    """One temple opens further than the other."""
    canvas.figure(view(_PLAN, "top", Fault("open-angle", 13.0, Eye.LEFT)), _BOX)
    canvas.words((128.0, 148.0), "from above: one temple opens wider")


def pantoscopic(canvas: Canvas, _shown: Shown) -> None:
    """The angle between the front and a square on the temples."""
    to_px = canvas.figure(view(_LEANING, "side"), QRectF(14.0, 14.0, 216.0, 120.0))
    hinge = to_px.map(QPointF(0.0, 0.26 * 36.0))
    x, y = hinge.x() + 4.0, hinge.y()
    canvas.line(((x, y - 34.0), (x, y + 62.0)), Ink("accent", 1.4, dash=(6.0, 4.0)))
    canvas.arc((x, y), 52.0, 253.0, 270.0, _ARROW)
    canvas.words((x - 62.0, y + 44.0), "tilt", "outside", strong=True)
    canvas.line(((x - 48.0, y + 44.0), (x - 8.0, y + 50.0)), Ink("outside", 1.0))
    canvas.words((116.0, 148.0), "lower rims nearer the cheeks, both alike")


def table_inverted(canvas: Canvas, _shown: Shown) -> None:
    """Upside down: one shaft lifts off the flat table."""
    canvas.figure(view(_PLAN, "table", Fault("table-inverted", 24.0, Eye.RIGHT)), _BOX)
    canvas.words((128.0, 148.0), "table touch, upside down: a shaft lifts")


def table_upright(canvas: Canvas, _shown: Shown) -> None:
    """Upright: one tip lifts off the flat table."""
    canvas.figure(view(_PLAN, "table", Fault("table-upright", 24.0, Eye.LEFT)), _BOX)
    canvas.words((128.0, 148.0), "table touch, upright: a tip lifts")


def temple_bend(canvas: Canvas, _shown: Shown) -> None:
    """One tip is bent down less than the other."""
    canvas.figure(view(_PLAN, "side", Fault("temple-bend", 24.0)), _BOX)
    canvas.words((116.0, 148.0), "same start, same drop on both sides")


def shafts(canvas: Canvas, _shown: Shown) -> None:
    """A straight shaft beside a bowed one, sighted along."""
    for y, bow in ((52.0, 0.0), (108.0, 20.0)):
        for ink in (Ink("frame_edge", 9.0), Ink("frame", 7.0)):
            canvas.curve((34.0, y), (90.0, y - bow), (140.0, y - bow), (204.0, y), ink)
        canvas.line(((26.0, y), (212.0, y)), Ink("accent", 1.2, dash=(5.0, 4.0)))
    canvas.good((232.0, 52.0))
    canvas.bad((232.0, 108.0))
    canvas.words((128.0, 144.0), "sight along the shaft: straight, not bowed")


def fold(canvas: Canvas, _shown: Shown) -> None:
    """Folded temples seen from behind: they cross on the middle line, or not."""
    for x, lift in ((68.0, 0.0), (188.0, 22.0)):
        canvas.line(((x, 20.0), (x, 122.0)), Ink("accent", 1.2, dash=(5.0, 4.0)))
        for eye in (-1, 1):
            canvas.ellipse((x + eye * 27, 84.0), 22.0, 17.0, Ink("frame_glow", 3.0), "lens")
        canvas.line(((x - 12, 78.0), (x + 12, 78.0)), Ink("frame_glow", 3.0))
        for start, end, rise in ((-50.0, 46.0, 0.0), (50.0, -46.0, lift)):
            ends = ((x + start, 70.0), (x + end, 58.0 - rise))
            for ink in (Ink("frame_edge", 7.0), Ink("frame", 5.0)):
                canvas.line(ends, ink)
    canvas.good((68.0, 136.0))
    canvas.bad((188.0, 136.0))


def pads(canvas: Canvas, _shown: Shown) -> None:
    """Pads that mirror one another, and a pad that is turned and low."""
    for x, turned, low in ((68.0, 0.0, 0.0), (188.0, 34.0, 12.0)):
        canvas.line(((x, 16.0), (x, 118.0)), Ink("accent", 1.2, dash=(5.0, 4.0)))
        canvas.curve((x - 44, 52.0), (x - 20, 16.0), (x + 20, 16.0), (x + 44, 52.0),
                     Ink("frame", 6.0))  # fmt: skip
        for side, lean, drop in ((-1, 18.0, 0.0), (1, 18.0 - turned, low)):
            _pad(canvas, (x + side * 20.0, 78.0 + drop), side, lean)
    canvas.good((68.0, 136.0))
    canvas.bad((188.0, 136.0))


def _pad(canvas: Canvas, at: tuple[float, float], side: int, lean: float) -> None:
    canvas.painter.save()
    canvas.painter.translate(*at)
    canvas.painter.rotate(-side * lean)
    canvas.line(((side * 14.0, -24.0), (0.0, 0.0)), Ink("frame_edge", 1.8))
    canvas.ellipse((0.0, 0.0), 8.0, 21.0, Ink("lens_edge", 1.6), "lens")
    canvas.painter.restore()
