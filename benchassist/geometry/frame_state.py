"""A spectacle frame of rigid pieces, described by the numbers that the bench puts right.

Each half front, each shaft and each tip is rigid; the bridge, the endpieces and the bends join
them. Own model: flat lenses without thickness, rims reduced to the lens box, hinges that turn
about one axis. Facing the wearer: x to the observer's right, y up, z forwards; the right half
lies at -x. Lengths in mm, angles in degrees.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from benchassist.geometry import usual
from benchassist.geometry.fault import Motion
from benchassist.geometry.solid import Move, Place, shift, turn
from benchassist.optics.eye import Eye

ENDPIECE_BACK = 4.0
"""From the temporal end of the lens backwards to the hinge, mm. Own choice."""

HINGE_UP, BRIDGE_UP, PAD_UP = 0.26, 0.15, -0.30
"""Heights over the boxed centre in shares of B: hinge, middle of the bridge, and the line just
below the pads on which the straight edge lies. Own choice."""

PAD_IN, PAD_BACK = 0.2, 6.0
"""The pad lies in from the nasal end of the lens by this share of DBL, and behind the lens by
so many mm. Own choice."""

MARKS_APART = 34.0
"""Distance of the two engravings on a power-variation lens, mm. Source: common practice."""

PLATE_MARGIN = 1.0
"""X-ing is taken so far below the top and above the bottom of the lens, mm. Own choice."""

FRONT_SHARE = 0.7
"""The share of the weight that lies in the middle of the front; the rest lies halfway along
the two shafts. Own estimate for a glazed frame; the table touch only needs to know that the
centre of mass lies well before the crossing of the diagonals."""


@dataclass(frozen=True, slots=True)
class Made:
    """What the frame is when it is true.

    Attributes:
        a: horizontal boxed lens size, mm.
        b: vertical boxed lens size, mm.
        dbl: distance between lenses, mm.
        temple_length: from hinge to tip along the temple, mm.
        face_form: form of each lens, degrees, positive with the temporal side back.
        open_angle: of each temple against the line from hinge to hinge, degrees.
        pantoscopic: of each temple against its half front, degrees, positive pointing down.
        bend_start: from hinge to bend, mm.
        drop: by which the end is bent down, degrees.
        inward: by which the end is bent towards the head, degrees.

    The sizes are usual ones, as the drawings take them; common practice, no source.
    """

    a: float = usual.A
    b: float = usual.B
    dbl: float = usual.DBL
    temple_length: float = usual.TEMPLE
    face_form: float = usual.FACE_FORM
    open_angle: float = usual.OPEN_ANGLE
    pantoscopic: float = usual.TILT
    bend_start: float = usual.TEMPLE - usual.END
    drop: float = usual.DROP
    inward: float = usual.INWARD


@dataclass(frozen=True, slots=True)
class Bridge:
    """The two halves of the front against each other; a true bridge has the made forms only.

    Attributes:
        form_right: face form of the right half, degrees, positive temporal side back.
        form_left: the same of the left half.
        x_ing: degrees by which the left half leans further forward at the top.
        skew_step: mm by which the left half sits higher at the midline.
        skew_slope: degrees by which both outer ends are swept up against each other's line:
            each half is turned by half of it about the bridge.
        plane_step: mm by which the left half lies further forward at the bridge.

    Only the sum of the two forms is a fact of the bridge: the same change in opposite ways
    turns the frame as a whole.
    """

    form_right: float
    form_left: float
    x_ing: float = 0.0
    skew_step: float = 0.0
    skew_slope: float = 0.0
    plane_step: float = 0.0


@dataclass(frozen=True, slots=True)
class SideState:
    """One lens in its rim, one pad and one temple.

    Attributes:
        lens_turn: degrees by which the lens is turned in its rim, counter-clockwise facing the
            wearer: an axis change.
        open_angle: of the endpiece, degrees: the temple's angle against the line from hinge to
            hinge while the halves have the form they were made with. Each degree of form more
            closes the temple by a degree.
        pantoscopic: of the temple against its half front, degrees, positive pointing down.
        bend_start: from hinge to bend, mm; the end takes the rest of the temple's length.
        drop: degrees by which the end is bent down from the shaft.
        inward: degrees by which the end is bent towards the head.
        twist: degrees by which the shaft is twisted so that the end hangs inwards.
        fold: degrees by which the joint's axis leans so that the folded temple climbs.
        pad_up: mm by which the pad sits too high.
        pad_back: mm by which the pad stands too far from the lens.
    """

    open_angle: float
    pantoscopic: float
    bend_start: float
    drop: float
    inward: float
    lens_turn: float = 0.0
    twist: float = 0.0
    fold: float = 0.0
    pad_up: float = 0.0
    pad_back: float = 0.0


@dataclass(frozen=True, slots=True)
class FrameState:
    """A frame as it is: what it was made to be, and every number that a bend can change.

    `FrameState.true()` has no fault; change it with `dataclasses.replace`, `with_bridge` and
    `with_side`.
    """

    made: Made
    bridge: Bridge
    right: SideState
    left: SideState

    @classmethod
    def true(cls, made: Made | None = None) -> "FrameState":
        """The frame as it was made, every fault zero."""
        plan = made or Made()
        side = SideState(
            plan.open_angle, plan.pantoscopic, plan.bend_start, plan.drop, plan.inward
        )
        return cls(plan, Bridge(plan.face_form, plan.face_form), side, side)

    def side(self, eye: Eye) -> SideState:
        """The state of one side."""
        return self.right if eye is Eye.RIGHT else self.left

    def with_bridge(self, **changed: float) -> "FrameState":
        """The frame with other numbers of its bridge, by the names of `Bridge`."""
        return replace(self, bridge=replace(self.bridge, **changed))

    def with_side(self, eye: Eye, **changed: float) -> "FrameState":
        """The frame with other numbers of one side, by the names of `SideState`."""
        side = replace(self.side(eye), **changed)
        if eye is Eye.RIGHT:
            return replace(self, right=side)
        return replace(self, left=side)

    def mirrored(self) -> "FrameState":
        """The mirror image: right and left changed, and every left-minus-right reversed."""
        old = self.bridge
        bridge = Bridge(
            form_right=old.form_left,
            form_left=old.form_right,
            x_ing=-old.x_ing,
            skew_step=-old.skew_step,
            skew_slope=old.skew_slope,
            plane_step=-old.plane_step,
        )
        right = replace(self.left, lens_turn=-self.left.lens_turn)
        left = replace(self.right, lens_turn=-self.right.lens_turn)
        return replace(self, bridge=bridge, right=right, left=left)


@dataclass(frozen=True, slots=True)
class HalfPoints:
    """Places of one half of the frame and its temple.

    Attributes:
        eye: which half.
        nasal: nasal end of the lens, at the height of the boxed centre.
        temporal: temporal end, at the same height.
        top: highest point of the rim.
        bottom: lowest point of the rim.
        low_nasal: back of the rim at its nasal end, at the height just below the pads.
        low_temporal: the same at its temporal end.
        plate: back of the rim where a plate behind the front can touch: top nasal, top
            temporal, bottom nasal, bottom temporal.
        high_reading: middle of the lens where the upper gap to that plate is taken.
        low_reading: middle of the lens where the lower gap is taken.
        nasal_mark: nasal mark on the lens.
        temporal_mark: temporal mark on the lens.
        pad: middle of the pad.
        hinge: the joint.
        bend: where the bend begins.
        tip: end of the temple.
        folded: a place on the shaft when it is folded, opposite to the hinge.
    """

    eye: Eye
    nasal: Place
    temporal: Place
    top: Place
    bottom: Place
    low_nasal: Place
    low_temporal: Place
    plate: tuple[Place, Place, Place, Place]
    high_reading: Place
    low_reading: Place
    nasal_mark: Place
    temporal_mark: Place
    pad: Place
    hinge: Place
    bend: Place
    tip: Place
    folded: Place


@dataclass(frozen=True, slots=True)
class FramePoints:
    """Places of the whole frame, and its centre of mass."""

    right: HalfPoints
    left: HalfPoints
    bridge: Place
    centre_of_mass: Place

    def half(self, eye: Eye) -> HalfPoints:
        """The places of one half."""
        return self.right if eye is Eye.RIGHT else self.left

    def both(self, name: str) -> Mapping[Eye, Place]:
        """One place of both halves, by its name in `HalfPoints`."""
        return {eye: getattr(self.half(eye), name) for eye in Eye}


def frame_points(state: FrameState) -> FramePoints:
    """Where everything of a frame is, as its front stands upright and looks forwards."""
    right, left = (_half(state, eye) for eye in Eye)
    front = mean(right.top, right.bottom, left.top, left.bottom)
    shafts = mean(right.hinge, right.bend, left.hinge, left.bend)
    centre: Place = _between(shafts, front, FRONT_SHARE)
    return FramePoints(right, left, (0.0, BRIDGE_UP * state.made.b, 0.0), centre)


def mean(*places: Place) -> Place:
    """The middle of several places."""
    x, y, z = (sum(column) / len(places) for column in zip(*places, strict=True))
    return x, y, z


def _between(start: Place, end: Place, share: float) -> Place:
    x, y, z = (a + (b - a) * share for a, b in zip(start, end, strict=True))
    return x, y, z


def _half(state: FrameState, eye: Eye) -> HalfPoints:
    made, side, move = state.made, state.side(eye), _half_move(state, eye)
    out = -eye.nasal_sign
    inner, outer = out * made.dbl / 2, out * (made.dbl / 2 + made.a)
    middle, high = (inner + outer) / 2, made.b / 2
    lens = turn(Motion.TURN_Z, side.lens_turn, (middle, 0.0, 0.0))
    low, edge = PAD_UP * made.b, high - PLATE_MARGIN
    corners = [move((x, y, 0.0)) for y in (edge, -edge) for x in (inner, outer)]
    pad = (inner - out * PAD_IN * made.dbl, low / 2 + side.pad_up, -PAD_BACK - side.pad_back)
    hinge, bend, tip, folded = (move(place) for place in _temple(state, eye))
    return HalfPoints(
        eye=eye,
        nasal=move((inner, 0.0, 0.0)),
        temporal=move((outer, 0.0, 0.0)),
        top=move((middle, high, 0.0)),
        bottom=move((middle, -high, 0.0)),
        low_nasal=move((inner, low, 0.0)),
        low_temporal=move((outer, low, 0.0)),
        plate=(corners[0], corners[1], corners[2], corners[3]),
        high_reading=move((middle, edge, 0.0)),
        low_reading=move((middle, -edge, 0.0)),
        nasal_mark=move(lens((middle - out * MARKS_APART / 2, 0.0, 0.0))),
        temporal_mark=move(lens((middle + out * MARKS_APART / 2, 0.0, 0.0))),
        pad=move(pad),
        hinge=hinge,
        bend=bend,
        tip=tip,
        folded=folded,
    )


def _half_move(state: FrameState, eye: Eye) -> Move:
    """From a half that is flat and level to where its bridge has put it."""
    bridge, out = state.bridge, -eye.nasal_sign
    form = bridge.form_right if eye is Eye.RIGHT else bridge.form_left
    middle: Place = (0.0, BRIDGE_UP * state.made.b, 0.0)
    swing = turn(Motion.TURN_Y, out * form, middle)
    lean = turn(Motion.TURN_X, out * bridge.x_ing / 2, middle)
    slope = turn(Motion.TURN_Z, out * bridge.skew_slope / 2, middle)
    lift = shift(0.0, out * bridge.skew_step / 2, out * bridge.plane_step / 2)
    return lambda place: lift(slope(lean(swing(place))))


def _temple(state: FrameState, eye: Eye) -> tuple[Place, Place, Place, Place]:
    """Hinge, bend, tip and folded shaft on a half that is flat and level.

    A straight temple square to the lens is bent at its end, then the shaft is twisted, then
    the whole is pointed down and opened at the endpiece.
    """
    made, side, out = state.made, state.side(eye), -eye.nasal_sign
    hinge: Place = (
        out * (made.dbl / 2 + made.a + usual.ENDPIECE_OUT),
        HINGE_UP * made.b,
        -ENDPIECE_BACK,
    )
    end = made.temple_length - side.bend_start
    bend: Place = (hinge[0], hinge[1], hinge[2] - side.bend_start)
    tip: Place = (bend[0], bend[1], bend[2] - end)
    down = turn(Motion.TURN_X, -side.drop, bend)
    inward = turn(Motion.TURN_Y, out * side.inward, bend)
    twist = turn(Motion.TURN_Z, -out * side.twist, bend)
    tip = twist(inward(down(tip)))
    point = turn(Motion.TURN_X, -side.pantoscopic, hinge)
    spread = side.open_angle - 90.0 + made.face_form
    let_out = turn(Motion.TURN_Y, -out * spread, hinge)
    across: Place = (hinge[0] - out, hinge[1], hinge[2])
    folded = turn(Motion.TURN_Z, -out * side.fold, hinge)(across)
    return hinge, let_out(point(bend)), let_out(point(tip)), folded
