"""What is drawn of an order."""

from decimal import Decimal

import pytest

from benchassist.geometry.plan import Centration, FrontPlan, Layout, Mount
from benchassist.job.order import Design, EyeOrder, FrameMaterial, FrameOrder, Order, Rim
from benchassist.job.plan import front_plan


def test_an_empty_order_is_drawn_at_usual_sizes() -> None:
    plan = front_plan(Order())
    assert plan.assumed == ("a", "b", "dbl", "ed")
    assert (plan.layout, plan.mount) == (Layout.PLAIN, Mount.FULL)


def test_the_order_s_sizes_are_drawn() -> None:
    order = Order(
        design=Design.BIFOCAL,
        segment_width=Decimal(28),
        right=EyeOrder(distance_pd=Decimal("31.5"), near_pd=Decimal(29), height=Decimal(17)),
        frame=FrameOrder(
            a=Decimal(52), b=Decimal(38), dbl=Decimal(18), rim=Rim.HALF,
            material=FrameMaterial.TITANIUM, tilt=Decimal(9), temple_length=Decimal(140),
        ),
    )  # fmt: skip
    assert front_plan(order) == FrontPlan(
        a=52, b=38, dbl=18, mount=Mount.HALF, rim_width=1.5, layout=Layout.SEGMENT,
        segment_width=28, temple_length=140, tilt=9, right=Centration(31.5, 29, 17),
    )  # fmt: skip


@pytest.mark.parametrize("design", Design)
@pytest.mark.parametrize("rim", Rim)
def test_every_design_and_rim_can_be_drawn(design: Design, rim: Rim) -> None:
    order = Order(design=design, frame=FrameOrder(rim=rim, material=FrameMaterial.ACETATE))
    assert front_plan(order).rim_width == 2.8
