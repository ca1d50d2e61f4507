"""Hint pictures of the frame at the bench: an invented fault, enlarged over the true frame."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from benchassist.geometry.fault import Fault, Faults, drawn
from benchassist.geometry.figure import Figure
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.canvas import TALL, WIDE, Canvas, Ink
from benchassist.ui.drawings.hint_meter import Shown

_PLAN = FrontPlan(a=50.0, b=36.0, dbl=18.0, ed=53.0, rim_width=3.2)
_BOX = QRectF(14.0, 10.0, 228.0, 112.0)
_CLOSE_UP = QRectF(-142.0, -28.0, 540.0, 190.0)
_EDGE = Ink("accent", 2.2)
_DASHED = Ink("accent", 1.2, dash=(5.0, 4.0))
_EDGE_ON = frozenset({"front-line", "lens-line"})
_WORDS, _SCALE = (128.0, 135.0), (128.0, 149.0)


def _fault(
    canvas: Canvas, name: str, about: str, words: str, *faults: Fault, box: QRectF = _BOX
) -> QTransform:
    """A view with the faults that a check finds, in words, and how much larger they are."""
    shown = Faults(faults, about)
    to_px = canvas.figure(view(_PLAN, name, shown), box, 6.0)
    canvas.words(_WORDS, words)
    _tell_scale(canvas, shown, name)
    return to_px


def _tell_scale(canvas: Canvas, shown: Faults, name: str) -> None:
    made = drawn(shown, name)
    if made.lead is not None:
        size = made.lead.kind.size(made.lead.fault.value)
        canvas.words(_SCALE, f"{size}, {made.scale}")


def rotation(canvas: Canvas, _shown: Shown) -> None:
    """A lens turned in its rim while the frame is level."""
    fault = Fault("rotation", -3.0, Eye.RIGHT)
    _fault(canvas, "front", "rotation", "one lens leans, the bridge is level", fault)


def skew(canvas: Canvas, _shown: Shown) -> None:
    """One half sits higher than the other."""
    words = "one half higher: the bridge is skewed"
    _fault(canvas, "front", "skew", words, Fault("skew", 1.5))


def x_ing(canvas: Canvas, _shown: Shown) -> None:
    """Seen from the side the two lenses cover each other, or cross."""
    crossed = Faults((Fault("x-ing", 1.5),), "x-ing")
    for x, faults in ((68.0, Faults()), (188.0, crossed)):
        side = view(_PLAN, "side", faults)
        lenses = tuple(one for one in side.strokes if one.name.removeprefix("far-") in _EDGE_ON)
        canvas.figure(Figure("side", lenses, ()), QRectF(x - 40.0, 12.0, 80.0, 92.0))
    canvas.good((68.0, 122.0))
    canvas.bad((188.0, 122.0))
    _tell_scale(canvas, crossed, "side")


def planes(canvas: Canvas, _shown: Shown) -> None:
    """One lens lies before the other."""
    words = "from above: parallel, one further forward"
    _fault(canvas, "top", "planes", words, Fault("plane-step", 1.5))


def face_form(canvas: Canvas, _shown: Shown) -> None:
    """Both halves swung back more than made."""
    words = "from above: too much face form"
    _fault(canvas, "top", "face-form", words, Fault("face-form", 6.0))


def four_point(canvas: Canvas, _shown: Shown) -> None:
    """A straight edge behind the front, and where it touches."""
    box = QRectF(14.0, 24.0, 228.0, 96.0)
    figure = view(_PLAN, "top")
    to_px = canvas.figure(figure, box)
    ends = [to_px.map(QPointF(*stroke.points[-3])) for stroke in figure.named("lens-line")]
    nasal = [to_px.map(QPointF(*stroke.points[0])) for stroke in figure.named("lens-line")]
    y = min(end.y() for end in ends) - 5.0
    left, right = (min(end.x() for end in ends), max(end.x() for end in ends))
    edge = ((left - 8, y - 9), (right + 8, y - 9), (right + 8, y), (left - 8, y))
    canvas.shape(edge, _EDGE, "accent_soft")
    for end in ends:
        canvas.circle((end.x(), y + 1.0), 4.5, Ink("raised", 1.5), "within")
    for end in nasal:
        gap = ((end.x(), y + 2.0), (end.x(), end.y() - 3.0))
        canvas.line(gap, Ink("outside", 2.0))
    canvas.words(_WORDS, "temporal points touch, nasal gaps are equal")
    canvas.words(_SCALE, "true to size")


def open_angle(canvas: Canvas, _shown: Shown) -> None:
    """One temple opens further than the other."""
    words = "from above: one temple opens wider"
    _fault(canvas, "top", "open-angle", words, Fault("open-angle", 3.0, Eye.LEFT))


def pantoscopic(canvas: Canvas, _shown: Shown) -> None:
    """Seen from the side, one temple points lower than the other."""
    words = "the temples are not parallel"
    _fault(canvas, "side", "pantoscopic", words, Fault("pantoscopic", 1.5))


def table_inverted(canvas: Canvas, _shown: Shown) -> None:
    """Upside down: one shaft lifts off the flat table."""
    words = "table touch, upside down: a shaft lifts"
    _fault(canvas, "table", "table-inverted", words, Fault("table-inverted", 2.0))


def table_upright(canvas: Canvas, _shown: Shown) -> None:
    """Upright: one tip lifts off the flat table."""
    words = "table touch, upright: a tip lifts"
    _fault(canvas, "table", "table-upright", words, Fault("table-upright", 2.0))


def temple_bend(canvas: Canvas, _shown: Shown) -> None:
    """One end is bent down more than the other."""
    words = "one end drops more than the other"
    _fault(canvas, "side", "temple-bend", words, Fault("bend-drop", 8.0))


def shafts(canvas: Canvas, _shown: Shown) -> None:
    """A straight shaft beside a bowed one, sighted along."""
    for y, bow in ((46.0, 0.0), (98.0, 20.0)):
        for ink in (Ink("frame_edge", 9.0), Ink("frame", 7.0)):
            canvas.curve((34.0, y), (90.0, y - bow), (140.0, y - bow), (204.0, y), ink)
        canvas.line(((26.0, y), (212.0, y)), Ink("accent", 1.2, dash=(5.0, 4.0)))
    canvas.good((232.0, 46.0))
    canvas.bad((232.0, 98.0))
    canvas.words(_WORDS, "sight along the shaft: straight, not bowed")
    canvas.words(_SCALE, "greatly enlarged")


def fold(canvas: Canvas, _shown: Shown) -> None:
    """Folded temples seen from behind: they cross on the middle line, or one climbs."""
    climbs = Faults((Fault("fold", 5.0, Eye.LEFT),), "fold")
    for x, faults in ((66.0, Faults()), (190.0, climbs)):
        box = QRectF(x - 54.0, 22.0, 108.0, 72.0)
        to_px = canvas.figure(view(_PLAN, "behind", faults), box)
        middle = to_px.map(QPointF(0.0, 0.0)).x()
        canvas.line(((middle, 14.0), (middle, 100.0)), _DASHED)
    canvas.good((66.0, 116.0))
    canvas.bad((190.0, 116.0))
    canvas.words(_WORDS, "seen from behind")
    _tell_scale(canvas, climbs, "behind")


def pads(canvas: Canvas, _shown: Shown) -> None:
    """Seen close, one pad is lower than the other."""
    canvas.painter.save()
    canvas.painter.setClipRect(QRectF(2.0, 2.0, WIDE - 4.0, TALL - 36.0))
    shown = Faults((Fault("pads", -1.5),), "pads")
    canvas.figure(view(_PLAN, "front", shown), _CLOSE_UP, 6.0)
    canvas.painter.restore()
    canvas.words(_WORDS, "one pad is lower than the other")
    _tell_scale(canvas, shown, "front")
