"""Distances of both eyes in the window: ordered and measured, by keyboard."""

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from benchassist.guide.prompts import StepId
from benchassist.job.order import ComponentPrism, Design
from benchassist.ui.inputs.number import NumberInput
from benchassist.verdicts.finding import State
from tests.ui.workplace import Workplace, said


def field(workplace: Workplace, label: str) -> NumberInput:
    """The first visible field with this label."""
    return next(
        one
        for one in workplace.shell.findChildren(NumberInput)
        if one.isVisible() and one.edit().accessibleName() == label
    )


def type_into(workplace: Workplace, label: str, text: str) -> NumberInput:
    """Types a number and Enter into a field."""
    found = field(workplace, label)
    found.setFocus()
    workplace.hands.type(text)
    return found


def new_order(workplace: Workplace) -> None:
    workplace.desk.session.begin("T-1")
    workplace.shell.open_job("T-1")
    QApplication.processEvents()


def measured(full: Workplace, design: Design = Design.SINGLE_VISION) -> None:
    """Opens a job at its distances, with nothing measured yet."""
    full.hands.type("FH-2611-060")
    job = full.job
    full.desk.session.propose(job.with_(order=job.order.with_(design=design)))
    full.shell.go_to("pair.distance-pd")


def test_half_of_both_eyes_is_seen_at_once_and_may_be_changed(workplace: Workplace) -> None:
    new_order(workplace)
    type_into(workplace, "Distance, both eyes", "64")
    type_into(workplace, "Near, both eyes", "60")
    order = workplace.job.order
    assert (order.right.distance_pd, order.left.distance_pd) == (Decimal(32), Decimal(32))
    assert (order.right.near_pd, order.left.near_pd) == (Decimal(30), Decimal(30))
    one_eye = field(workplace, "Distance, one eye")
    assert one_eye.edit().text() == "32"
    type_into(workplace, "Distance, one eye", "31.5")
    assert workplace.job.order.right.distance_pd == Decimal("31.5")
    assert field(workplace, "Distance, both eyes").edit().text() == "63.5"


def test_what_stands_with_each_eye_is_not_overwritten(workplace: Workplace) -> None:
    new_order(workplace)
    type_into(workplace, "Distance, both eyes", "64")
    type_into(workplace, "Distance, one eye", "31")
    both = type_into(workplace, "Distance, both eyes", "70")
    assert "Each eye has its own" in both.problem()
    assert workplace.job.order.right.distance_pd == Decimal(31)
    workplace.hands.press(Qt.Key.Key_Escape)
    assert both.problem() == ""
    assert both.edit().text() == "63"


def test_the_laboratorys_addition_and_prism_are_typed(workplace: Workplace) -> None:
    new_order(workplace)
    for label, text in (
        ("Meter cylinder", "-.62"),
        ("Meter addition", "187"),
        ("Meter prism in or out", "1 in"),
        ("Meter prism up or down", ".5d"),
    ):
        type_into(workplace, label, text)
    shown = workplace.job.order.right.verification
    assert shown is not None
    assert shown.power.cylinder == Decimal("-0.625")
    assert shown.add == Decimal("1.875")
    assert shown.prism == ComponentPrism(base_in=Decimal(1), base_up=Decimal("-0.5"))


def test_both_together_are_measured_by_keyboard_alone(full: Workplace) -> None:
    measured(full)
    full.hands.type("", "", "68")
    assert full.job.now.pair.distance_pd == (Decimal(68),)
    prompt = full.standing.prompt("pair.distance-pd")
    assert prompt is not None
    assert prompt.is_done
    prism = next(one for one in prompt.findings if one.key == "pair.centration-horizontal")
    assert prism.state is State.OUTSIDE
    assert "shared equally between both lenses" in said(full)
    assert "both together 64 mm" in said(full)


def test_repeats_of_both_together_are_kept_and_printed(full: Workplace) -> None:
    measured(full)
    full.hands.type("", "", "64")
    full.hands.press(Qt.Key.Key_Backspace)
    full.shell.go_to("pair.distance-pd")
    full.hands.letters("r")
    full.hands.type("", "", "65")
    assert full.job.now.pair.distance_pd == (Decimal(64), Decimal(65))
    part = full.desk.record().part(StepId.PAIR)
    assert part is not None
    (line,) = part.readings
    assert line.title.endswith("both together")
    assert line.values == ("64.0 mm", "65.0 mm")
    total = next(one for one in part.findings if one.key == "pair.centration")
    assert total.found == Decimal("64.5")


def test_after_both_lenses_enter_goes_on(full: Workplace) -> None:
    measured(full)
    full.hands.type("32", "32")
    assert full.hands.focus is not field(full, "Both together").edit()
    assert full.job.now.pair.distance_pd == ()


def test_a_progressive_lens_is_measured_by_itself(full: Workplace) -> None:
    measured(full, Design.PROGRESSIVE)
    QApplication.processEvents()
    labels = [
        one.edit().accessibleName()
        for one in full.shell.findChildren(NumberInput)
        if one.isVisible()
    ]
    assert labels == ["Right lens", "Left lens"]
    assert "both together are not enough" in said(full)
