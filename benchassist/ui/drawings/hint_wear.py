"""Hint pictures of fitting and handing over."""

from math import cos, pi

from benchassist.geometry.figure import Point
from benchassist.geometry.outline import lens_outline
from benchassist.ui.drawings.canvas import Canvas, Ink
from benchassist.ui.drawings.hint_meter import Shown

_SKIN = Ink("ink_soft", 1.6)
_FRAME = Ink("frame", 4.0)
_MEASURE = Ink("accent", 1.8)
_INK = Ink("accent", 2.4)
_LEVEL = Ink("accent", 1.4, dash=(5.0, 4.0))


def level(canvas: Canvas, _shown: Shown) -> None:
    """A front that sits level on the face, and one that hangs."""
    for x, turn in ((68.0, 0.0), (188.0, 9.0)):
        canvas.ellipse((x, 76.0), 42.0, 56.0, _SKIN)
        for side in (-1, 1):
            start = -90.0 if side > 0 else 90.0
            canvas.arc((x + side * 43.0, 78.0), 9.0, start, start + 180.0, _SKIN)
            canvas.circle((x + side * 19.0, 68.0), 2.4, None, "ink")
        canvas.line(((x - 54.0, 68.0), (x + 54.0, 68.0)), _LEVEL)
        canvas.arc((x, 96.0), 16.0, 200.0, 340.0, _SKIN)
        canvas.painter.save()
        canvas.painter.translate(x, 70.0)
        canvas.painter.rotate(turn)
        for side in (-1, 1):
            canvas.ellipse((side * 20.0, 0.0), 16.0, 12.0, Ink("frame", 3.4))
        canvas.line(((-5.0, -3.0), (5.0, -3.0)), Ink("frame", 3.4))
        canvas.painter.restore()
    canvas.good((68.0, 147.0))
    canvas.bad((188.0, 147.0))


def vertex(canvas: Canvas, _shown: Shown) -> None:
    """From the back of the lens to the front of the eye."""
    canvas.circle((82.0, 76.0), 46.0, _SKIN, "raised")
    canvas.arc((122.0, 76.0), 20.0, -62.0, 62.0, Ink("ink_soft", 2.0))
    canvas.line(((112.0, 58.0), (112.0, 94.0)), Ink("accent", 5.0))
    outer = _side_lens(196.0, 8.0)
    inner = _side_lens(188.0, 12.0)
    canvas.shape((*outer, *reversed(inner)), Ink("lens_edge", 1.6), "lens")
    canvas.arrow((143.0, 76.0), (199.0, 76.0), _MEASURE, is_double=True)
    canvas.words((171.0, 62.0), "distance", "accent", strong=True)
    canvas.words((128.0, 146.0), "front of the eye to back of the lens")


def _side_lens(x: float, bulge: float) -> tuple[Point, ...]:
    return tuple((x + bulge * cos(n / 10 * pi / 2), 76.0 + 5.4 * n) for n in range(-10, 11))


def fitting_cross(canvas: Canvas, _shown: Shown) -> None:
    """The cross before the pupil: how far across, and how far up."""
    lid = tuple((128.0 + 9.0 * n, 76.0 - 38.0 * (1 - (n / 10) ** 2)) for n in range(-10, 11))
    low = tuple((128.0 + 9.0 * n, 76.0 + 32.0 * (1 - (n / 10) ** 2)) for n in range(-10, 11))
    canvas.shape((*lid, *reversed(low)), _SKIN, "raised")
    canvas.circle((128.0, 72.0), 27.0, Ink("accent", 1.6), "accent_soft")
    canvas.circle((128.0, 72.0), 10.0, None, "instrument")
    x, y = 158.0, 52.0
    for ends in (((x - 11, y), (x + 11, y)), ((x, y - 11), (x, y + 11))):
        canvas.line(ends, Ink("outside", 2.4))
    canvas.arrow((128.0, 122.0), (x, 122.0), Ink("outside", 1.8))
    canvas.arrow((232.0, 72.0), (232.0, y), Ink("outside", 1.8))
    canvas.line(((128.0, 82.0), (128.0, 126.0)), _LEVEL)
    canvas.line(((x, 64.0), (x, 126.0)), _LEVEL)
    for height in (72.0, y):
        canvas.line(((x + 14.0, height), (238.0, height)), _LEVEL)
    canvas.words((128.0, 146.0), "cross against pupil, across and up")


def zones(canvas: Canvas, _shown: Shown) -> None:
    """Far above, middle distance between, near below."""
    scale = 3.0
    outline = tuple(
        (94.0 + scale * x, 72.0 - scale * y) for x, y in lens_outline(52.0, 40.0, 55.0)
    )
    canvas.shape(outline, Ink("frame", 4.0), "lens")
    for x, way in ((46.0, 1), (142.0, -1)):
        soft = ((x - way * 18.0, 72.0), (x + way * 30.0, 84.0), (x + way * 8.0, 118.0))
        canvas.shape(soft, None, "line", 150)
    for y, words in ((38.0, "far"), (76.0, "between"), (110.0, "near")):
        canvas.circle((94.0, y), 4.0, None, "accent")
        canvas.line(((100.0, y), (192.0, y)), Ink("accent", 1.0))
        canvas.words((220.0, y), words, "ink", strong=True)
    canvas.arrow((94.0, 46.0), (94.0, 102.0), Ink("accent", 1.6))
    canvas.words((128.0, 147.0), "point the nose, then lower the eyes")


def care(canvas: Canvas, _shown: Shown) -> None:
    """Rinse first, then wipe with a soft cloth."""
    canvas.line(((30.0, 34.0), (66.0, 34.0), (72.0, 40.0), (72.0, 50.0)), Ink("outline", 8.0))
    for x, y in ((72.0, 66.0), (66.0, 82.0), (78.0, 86.0), (72.0, 102.0)):
        lower = ((x + 4, y), (x + 2.6, y + 3.6), (x, y + 4.6), (x - 2.6, y + 3.6), (x - 4, y))
        canvas.shape(((x, y - 8.0), *lower), None, "accent")
    canvas.ellipse((72.0, 120.0), 40.0, 13.0, _FRAME, "lens")
    canvas.arrow((120.0, 84.0), (144.0, 84.0), Ink("ink_soft", 1.8))
    canvas.ellipse((198.0, 92.0), 40.0, 30.0, _FRAME, "lens")
    cloth = ((180.0, 66.0), (224.0, 54.0), (232.0, 96.0), (206.0, 90.0), (190.0, 100.0))
    canvas.shape(cloth, Ink("close", 1.6), "caution_ground")
    canvas.words((72.0, 148.0), "rinse", "ink")
    canvas.words((198.0, 148.0), "then wipe, soft cloth", "ink")


def sign(canvas: Canvas, _shown: Shown) -> None:
    """A name on the line."""
    canvas.line(((40.0, 116.0), (216.0, 116.0)), Ink("outline", 1.4))
    for points in (
        ((56.0, 106.0), (74.0, 40.0), (84.0, 60.0), (78.0, 108.0)),
        ((78.0, 108.0), (96.0, 66.0), (104.0, 130.0), (120.0, 92.0)),
        ((120.0, 92.0), (134.0, 76.0), (136.0, 124.0), (158.0, 98.0)),
    ):
        canvas.curve(*points, _INK)
    nib = ((158.0, 98.0), (164.0, 82.0), (174.0, 92.0))
    canvas.shape(nib, Ink("frame_edge", 1.2), "frame_glow")
    body = ((164.0, 82.0), (208.0, 38.0), (218.0, 48.0), (174.0, 92.0))
    canvas.shape(body, Ink("frame_edge", 1.2), "frame")
    canvas.words((128.0, 136.0), "who, when, and what it means")
