"""A drawing as numbers: named strokes and named spots in millimetres."""

from dataclasses import dataclass, replace

from benchassist.optics.eye import Eye

Point = tuple[float, float]
Polyline = tuple[Point, ...]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """One line or closed shape.

    Attributes:
        name: what it shows, such as 'lens', 'rim' or 'segment'; the painter knows its look.
        points: its corners, mm, x to the right and y up.
        eye: the eye it belongs to, None for what both share.
        is_closed: whether the last point joins the first.
    """

    name: str
    points: Polyline
    eye: Eye | None = None
    is_closed: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """A named place where something is read or looked at."""

    name: str
    at: Point


@dataclass(frozen=True, slots=True)
class Note:
    """A few words and the place beside which they stand, mm."""

    words: str
    at: Point


@dataclass(frozen=True, slots=True)
class Figure:
    """A view of the spectacles.

    Attributes:
        view: 'front', 'top', 'side', 'behind' or 'table'.
        strokes: in the order in which they are painted.
        spots: places by name.
        factor: how many times larger than measured the faults are drawn; 1 when none is.
        notes: the sizes of the faults that are pointed out, as measured.
        panels: titles over the pictures of which it is made; empty where it is a single one.
    """

    view: str
    strokes: tuple[Stroke, ...]
    spots: tuple[Spot, ...]
    factor: float = 1.0
    notes: tuple[Note, ...] = ()
    panels: tuple[Note, ...] = ()

    def spot(self, name: str) -> Point | None:
        """The place of that name, None where this view has none."""
        return next((spot.at for spot in self.spots if spot.name == name), None)

    def named(self, name: str) -> tuple[Stroke, ...]:
        """The strokes of that name."""
        return tuple(stroke for stroke in self.strokes if stroke.name == name)

    def shifted(self, x: float) -> "Figure":
        """The same picture moved to the right, mm."""

        def moved(point: Point) -> Point:
            return point[0] + x, point[1]

        return Figure(
            self.view,
            tuple(replace(one, points=tuple(map(moved, one.points))) for one in self.strokes),
            tuple(replace(one, at=moved(one.at)) for one in self.spots),
            self.factor,
            tuple(replace(one, at=moved(one.at)) for one in self.notes),
            tuple(replace(one, at=moved(one.at)) for one in self.panels),
        )

    @property
    def bounds(self) -> Box:
        """The smallest box around all strokes, mm."""
        return bounds(tuple(point for stroke in self.strokes for point in stroke.points))


def bounds(points: Polyline) -> Box:
    """The smallest box around the points.

    Raises:
        ValueError: there are no points.
    """
    xs = [x for x, _ in points]
    ys = [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)
