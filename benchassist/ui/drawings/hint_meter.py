"""Hint pictures of the lens meter: what one sees in it, and what lies on its stop."""

from dataclasses import dataclass

from benchassist.geometry.figure import Point
from benchassist.ui.drawings.canvas import Canvas, Ink, around

_BRIGHT = Ink("instrument_line", 1.8)
_FAINT = Ink("instrument_soft", 1.0)
_BLUR = ((9.0, 26), (6.5, 34), (4.0, 46))
"""Widths and strengths that, one over the other, look out of focus."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What a reading makes the picture show.

    Attributes:
        axis: direction of the sharp lines, degrees of ISO 8429.
        amount: prism, prism dioptres.
        base: direction of the base, degrees of ISO 8429.
    """

    axis: float = 165.0
    amount: float = 1.5
    base: float = 90.0


def reticle_power(canvas: Canvas, shown: Shown) -> None:
    """Broken lines beside unbroken ones: turn the axis wheel until they join."""
    _reticle(canvas, (68.0, 70.0), shown.axis, is_broken=True)
    _reticle(canvas, (188.0, 70.0), shown.axis, is_broken=False)
    canvas.bad((30.0, 142.0))
    canvas.words((84.0, 142.0), "broken: turn", "instrument_line")
    canvas.good((150.0, 142.0))
    canvas.words((202.0, 142.0), "one clean line", "instrument_line")


def _reticle(canvas: Canvas, at: Point, axis: float, *, is_broken: bool) -> None:
    _protractor(canvas, at, 54.0)
    for side in (-1, 0, 1):
        middle = around(at, 11.0 * side, axis)
        ends = tuple(around(middle, 36.0 * way, axis + 90) for way in (-1, 1))
        for width, alpha in _BLUR:
            canvas.line(ends, Ink("instrument_line", width, alpha=alpha))
    for side in (-1, 0, 1):
        middle = around(at, 9.0 * side, axis + 90)
        if not is_broken:
            canvas.line(tuple(around(middle, 42.0 * way, axis) for way in (-1, 1)), _BRIGHT)
            continue
        for way in (-1, 1):
            shifted = around(middle, 3.4 * way, axis + 90)
            near, far = around(shifted, 3.0 * way, axis), around(shifted, 40.0 * way, axis)
            canvas.line((near, far), _BRIGHT)


def _protractor(canvas: Canvas, at: Point, radius: float) -> None:
    canvas.circle(at, radius, _FAINT)
    for angle in range(0, 360, 15):
        inner = radius - (6.0 if angle % 45 == 0 else 3.0)
        canvas.line((around(at, inner, angle), around(at, radius, angle)), _FAINT)


def reticle_prism(canvas: Canvas, shown: Shown) -> None:
    """The target stands off the middle by the prism, towards its base."""
    at, step = (104.0, 80.0), 15.0
    for ring in range(1, 5):
        canvas.circle(at, ring * step, _FAINT)
        canvas.words((at[0] + ring * step - 6.0, at[1] + 8.0), str(ring), "instrument_soft")
    canvas.line(((at[0] - 66, at[1]), (at[0] + 66, at[1])), _FAINT)
    canvas.line(((at[0], at[1] - 66), (at[0], at[1] + 66)), _FAINT)
    target = around(at, min(shown.amount, 4.2) * step, shown.base)
    for turn in (0, 90):
        ends = tuple(around(target, 13.0 * way, turn) for way in (-1, 1))
        canvas.line(ends, Ink("instrument_line", 2.2))
    if shown.amount > 0.3:  # noqa: PLR2004  (nearer, an arrow would cover the target)
        canvas.arrow(at, target, Ink("instrument_line", 1.4, dash=(4.0, 3.0)))
    canvas.words((216.0, 70.0), f"{shown.amount:.2f} Δ", "instrument_line", strong=True)
    canvas.words((216.0, 88.0), f"base {shown.base:.0f}°", "instrument_line")


def near_surface(canvas: Canvas, _shown: Shown) -> None:
    """The back surface on the stop, and the front surface on the stop."""
    for x, is_back, words in ((66.0, True, "back on the stop"), (190.0, False, "front on it")):
        _stop(canvas, x)
        _lens_on_stop(canvas, x, is_back=is_back)
        canvas.words((x, 148.0), words, "ink")


def _stop(canvas: Canvas, x: float) -> None:
    canvas.shape(
        ((x - 26, 130), (x - 20, 90), (x + 20, 90), (x + 26, 130)), Ink("outline", 1.2), "line"
    )
    canvas.line(((x - 13, 90), (x + 13, 90)), Ink("ink", 2.4))
    canvas.arrow((x, 126), (x, 98), Ink("accent", 1.4))


def _lens_on_stop(canvas: Canvas, x: float, *, is_back: bool) -> None:
    """A meniscus: hollow back surface down on the stop, or turned over on its front."""
    if is_back:
        front, back = _bow(x, 52.0, 102.0, -26.0), _bow(x, 52.0, 104.0, -15.0)
        wafer, words = (_bow(x, 52.0, 102.0, -28.0)[12:16]), 60.0
    else:
        front, back = _bow(x, 52.0, 62.0, 26.0), _bow(x, 52.0, 60.0, 15.0)
        wafer, words = (_bow(x, 52.0, 62.0, 28.0)[12:16]), 44.0
    canvas.shape((*front, *reversed(back)), Ink("lens_edge", 1.5), "lens")
    canvas.line(wafer, Ink("accent", 4.0))
    canvas.words((x + 22.0, words), "near portion", "accent")


def _bow(x: float, reach: float, y: float, bulge: float) -> tuple[Point, ...]:
    steps = range(-10, 11)
    return tuple((x + reach * n / 10, y + bulge * (1 - (n / 10) ** 2)) for n in steps)
