"""Jobs for the tests of the guide."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from benchassist.job.document import Job
from benchassist.job.order import (
    Design,
    EyeOrder,
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Order,
    Rim,
    WrittenPower,
)

FRAME = FrameOrder(
    a=Decimal(52),
    b=Decimal(38),
    dbl=Decimal(18),
    material=FrameMaterial.METAL,
    rim=Rim.FULL,
)


def eye_order(**changes: Any) -> EyeOrder:
    """A whole order for one eye."""
    whole = EyeOrder(
        power=WrittenPower(sphere=Decimal("-2.25")),
        add=Decimal("2.00"),
        distance_pd=Decimal("31.5"),
        height=Decimal(18),
    )
    return whole.with_(**changes)


def job_for(design: Design | None, **order: Any) -> Job:
    """A job with nothing done yet: its lens design, and whatever else of the order is given."""
    given = {
        "wearer": "Marit Oduya",
        "design": design,
        "material": LensMaterial.URETHANE,
        "right": eye_order(),
        "left": eye_order(),
        "frame": FRAME,
    }
    return Job(
        number="2611-048",
        created=datetime(2026, 11, 25, 9, 0, tzinfo=UTC),
        order=Order(**(given | order)),
    )
