"""What is measured on a drawing by the formulas of the bench is the fault times its factor."""

from collections.abc import Callable
from math import atan2, degrees, dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchassist.geometry.alignment import AlongFront, LeanGaps, four_point, open_angle, skew
from benchassist.geometry.alignment import x_ing as x_ing_of
from benchassist.geometry.fault import KINDS, Fault, Faults, Kind
from benchassist.geometry.figure import Figure, Point, Stroke
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.table import UPRIGHT_SEEN
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye

PLAN = FrontPlan(52, 38, 18, 55, tilt=8, face_form=4, temple_length=145)


def line(figure: Figure, name: str, eye: Eye) -> tuple[Point, ...]:
    names = {name, f"far-{name}"}
    return next(one.points for one in figure.strokes if one.eye is eye and one.name in names)


def sides(figure: Figure, name: str) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    return line(figure, name, Eye.RIGHT), line(figure, name, Eye.LEFT)


def spot(figure: Figure, name: str) -> Point:
    at = figure.spot(name)
    assert at is not None
    return at


def middle(points: tuple[Point, ...]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def slope(start: Point, end: Point) -> float:
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


def rotation(figure: Figure) -> float:
    x, y = line(figure, "cross", Eye.LEFT)
    return slope(x, y)


def skewed(figure: Figure) -> float:
    """Heights of the four ends of the lens boxes over the foot of the sheet."""
    (outer, inner), (left_inner, left_outer) = (
        (min(points), max(points)) for points in sides(figure, "lens")
    )
    ends = [40 + end[1] for end in (outer, inner, left_inner, left_outer)]
    return skew(AlongFront(*ends), 52, 9).step


def x_ing(figure: Figure) -> float:
    right, left = (
        LeanGaps(points[-1][0], points[0][0]) for points in sides(figure, "front-line")
    )
    tall = [points[-1][1] - points[0][1] for points in sides(figure, "front-line")]
    lean = [degrees(atan2(one.top - one.bottom, t)) for one, t in zip((right, left), tall, strict=True)]
    assert x_ing_of(LeanGaps(0, 0), LeanGaps(0, 0), 30) == 0
    return lean[1] - lean[0]


def along_front(figure: Figure) -> tuple[AlongFront, float, float]:
    """Gaps of the nasal and temporal ends before a straight edge, from above."""
    right, left = sides(figure, "front-line")
    ends = (right[-2], right[0], left[0], left[-2])
    furthest = max(y for _, y in ends)
    gaps = AlongFront(*(furthest - y for _, y in ends))
    return gaps, right[0][0] - right[-2][0], -right[0][0]
