"""What a drawing of the spectacles needs to know, with usual sizes for what is unknown."""

from dataclasses import dataclass
from enum import StrEnum

from benchassist.geometry import usual
from benchassist.geometry.figure import Point, Polyline
from benchassist.geometry.outline import lens_outline
from benchassist.optics.eye import Eye


class Layout(StrEnum):
    """What the lens carries besides its distance portion."""

    PLAIN = "plain"
    SEGMENT = "segment"
    DOUBLE_SEGMENT = "double segment"
    CORRIDOR = "corridor"


class Mount(StrEnum):
    """How the lens is held."""

    FULL = "full"
    HALF = "half"
    RIMLESS = "rimless"


@dataclass(frozen=True, slots=True)
class Centration:
    """Where one lens is centred.

    Distances are mm from the middle of the bridge, the height mm above the lowest point of the
    boxed lens.
    """

    distance_pd: float | None = None
    near_pd: float | None = None
    height: float | None = None


@dataclass(frozen=True, slots=True)
class FrontPlan:
    """What the drawing needs to know; an unknown size is None and a usual one is drawn.

    Sizes in mm, angles in degrees: boxed lens `a` x `b`, distance between lenses `dbl`,
    effective diameter `ed`, width of the rim seen from the front, segment width and depth,
    temple length, tilt and face form.
    """

    a: float | None = None
    b: float | None = None
    dbl: float | None = None
    ed: float | None = None
    mount: Mount = Mount.FULL
    rim_width: float = 2.4
    layout: Layout = Layout.PLAIN
    segment_width: float | None = None
    segment_depth: float | None = None
    temple_length: float | None = None
    tilt: float | None = None
    face_form: float | None = None
    right: Centration = Centration()
    left: Centration = Centration()

    def eye(self, eye: Eye) -> Centration:
        """The centration of one lens."""
        return self.right if eye is Eye.RIGHT else self.left

    @property
    def width(self) -> float:
        """The boxed width of a lens as drawn, mm."""
        return self.a or usual.A

    @property
    def height(self) -> float:
        """The boxed height of a lens as drawn, mm."""
        return self.b or usual.B

    @property
    def gap(self) -> float:
        """The distance between the lenses as drawn, mm."""
        return self.dbl or usual.DBL

    @property
    def assumed(self) -> tuple[str, ...]:
        """The names of the sizes that are drawn without having been ordered."""
        sizes = (("a", self.a), ("b", self.b), ("dbl", self.dbl), ("ed", self.ed))
        return tuple(name for name, size in sizes if not size)

    @property
    def rim(self) -> float:
        """The width of the rim as drawn, mm; a rimless lens has none."""
        return 0.0 if self.mount is Mount.RIMLESS else self.rim_width

    def outline(self) -> Polyline:
        """The lens outline about its boxed centre, +x towards the nose."""
        return lens_outline(self.width, self.height, self.ed or None)

    def place(self, eye: Eye, point: Point) -> Point:
        """A point of a lens (+x towards the nose, from its boxed centre) on the drawing."""
        across = point[0] - (self.width + self.gap) / 2
        return eye.nasal_sign * across, point[1]

    def placed(self, eye: Eye, points: Polyline) -> Polyline:
        """A line of one lens on the drawing."""
        return tuple(self.place(eye, point) for point in points)

    def reference(self, eye: Eye) -> Point:
        """Optical centre, middle of the segment top's height or fitting cross, in the lens.

        Where no distance or height is ordered: 2.5 mm nasal of the boxed centre, and a usual
        height for the layout.
        """
        ordered = self.eye(eye)
        usual = {Layout.PLAIN: 0.0, Layout.CORRIDOR: 4.0}.get(self.layout, -3.0)
        across, up = 2.5, usual
        if ordered.distance_pd is not None:
            across = (self.width + self.gap) / 2 - ordered.distance_pd
        if ordered.height is not None:
            up = ordered.height - self.height / 2
        return across, up

    def near_inset(self, eye: Eye) -> float:
        """How far the near portion is set towards the nose, mm; 2.5 where not ordered."""
        ordered = self.eye(eye)
        if ordered.near_pd is None or ordered.distance_pd is None:
            return 2.5
        return ordered.distance_pd - ordered.near_pd
