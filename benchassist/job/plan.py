"""The order as the drawing of the spectacles needs it."""

from decimal import Decimal

from benchassist.geometry.plan import Centration, FrontPlan, Layout, Mount
from benchassist.job.order import Design, EyeOrder, FrameMaterial, Order, Rim

_LAYOUTS = {
    Design.SINGLE_VISION: Layout.PLAIN,
    Design.BIFOCAL: Layout.SEGMENT,
    Design.TRIFOCAL: Layout.DOUBLE_SEGMENT,
    Design.PROGRESSIVE: Layout.CORRIDOR,
    Design.DEGRESSIVE: Layout.CORRIDOR,
}
_MOUNTS = {Rim.FULL: Mount.FULL, Rim.HALF: Mount.HALF, Rim.RIMLESS: Mount.RIMLESS}
_SLIM = {FrameMaterial.METAL, FrameMaterial.TITANIUM, FrameMaterial.MEMORY_ALLOY}


def front_plan(order: Order) -> FrontPlan:
    """What can be drawn of the order: binary floats, good for a drawing and no verdict."""
    frame = order.frame
    return FrontPlan(
        a=_drawn(frame.a),
        b=_drawn(frame.b),
        dbl=_drawn(frame.dbl),
        ed=_drawn(frame.ed),
        mount=_MOUNTS[frame.rim] if frame.rim else Mount.FULL,
        rim_width=1.5 if frame.material in _SLIM else 2.8,
        layout=_LAYOUTS[order.design] if order.design else Layout.PLAIN,
        segment_width=_drawn(order.segment_width),
        segment_depth=_drawn(order.segment_depth),
        temple_length=_drawn(frame.temple_length),
        tilt=_drawn(frame.tilt),
        face_form=_drawn(frame.face_form),
        right=_centration(order.right),
        left=_centration(order.left),
    )


def _centration(eye: EyeOrder) -> Centration:
    return Centration(_drawn(eye.distance_pd), _drawn(eye.near_pd), _drawn(eye.height))


def _drawn(value: Decimal | None) -> float | None:
    return None if value is None else float(value)
