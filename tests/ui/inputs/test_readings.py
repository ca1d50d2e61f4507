"""Readings of one point: forms, repeats, and what they emit."""

from decimal import Decimal
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from benchassist.guide.prompts import Kind, Measurement, Prompt, StepId
from benchassist.job.checks import Answer, Seen
from benchassist.job.order import ComponentPrism, PolarPrism, Surface
from benchassist.job.readings import (
    Datum,
    DisplayAdd,
    DisplayReading,
    DrumAdd,
    DrumReading,
    PrismReading,
)
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.addition import AdditionInput
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.distance import DistanceInput
from benchassist.ui.inputs.forms import POWER_FORMS, PRISM_FORMS, kind_of, prism_form_of
from benchassist.ui.inputs.layout import LayoutInput
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.repeated import RepeatedInput
from benchassist.ui.inputs.row import NumberRow
from benchassist.ui.inputs.several import SeveralInput
from benchassist.ui.inputs.single import SingleInput
from benchassist.ui.theme import Theme
from tests.ui.hands import Hands

DRUM = DrumReading(
    sphere_lines=Decimal("-2.25"), cylinder_lines=Decimal(-3), axis_wheel=Decimal(165)
)
DISPLAY = DisplayReading(sphere=Decimal("-2.23"), cylinder=Decimal("-0.78"), axis=Decimal(164))


def type_row(qtbot: QtBot, row: NumberRow, *texts: str) -> None:
    """Types each text and Enter, field by field."""
    for field, text in zip(row.fields(), texts, strict=True):
        field.edit().selectAll()
        QTest.keyClicks(field.edit(), text)
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)


@pytest.fixture
def power(qtbot: QtBot, light: Theme) -> RepeatedInput:
    made = RepeatedInput(POWER_FORMS, kind_of)
    qtbot.addWidget(made)
    return made


def test_a_manual_reading_grows_with_each_field(qtbot: QtBot, power: RepeatedInput) -> None:
    seen: list[tuple[Any, ...]] = []
    power.value_changed.connect(seen.append)
    with qtbot.waitSignal(power.finished):
        type_row(qtbot, power.fields(), "-225", "-3", "165")
    assert [len(one) for one in seen] == [1, 1, 1]
    assert seen[0] == (DrumReading(sphere_lines=Decimal("-2.25")),)
    assert power.value() == (DRUM,)


@pytest.mark.parametrize(
    "readings", [(), (DRUM,), (DISPLAY,), (DRUM, DISPLAY), (DISPLAY, DRUM)]
)
def test_what_is_set_is_the_value(power: RepeatedInput, readings: tuple[Any, ...]) -> None:
    power.set_value(readings)
    assert power.value() == readings


def test_another_reading_is_added_and_the_first_is_kept(
    qtbot: QtBot, power: RepeatedInput
) -> None:
    power.set_value((DRUM,))
    power.another()
    power.set_value((DRUM,))
    assert power.fields().values() == (None, None, None)
    type_row(qtbot, power.fields(), "-2.25", "-3.12", "164")
    assert power.value()[0] == DRUM
    assert power.value()[1].cylinder_lines == Decimal("-3.125")


def test_clearing_the_last_reading_takes_it_out(qtbot: QtBot, power: RepeatedInput) -> None:
    power.set_value((DISPLAY, DRUM))
    for field in power.fields().fields():
        field.edit().selectAll()
        QTest.keyClick(field.edit(), Qt.Key.Key_Delete)
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert power.value() == (DISPLAY,)


def test_the_form_is_chosen_for_a_fresh_reading_only(power: RepeatedInput) -> None:
    power.set_form("display")
    assert len(power.fields().fields()) == len(DISPLAY.model_fields_set)
    power.set_value((DRUM,))
    power.set_form("display")
    assert power.fields().values() == (Decimal("-2.25"), Decimal(-3), Decimal(165))


@pytest.mark.parametrize(
    "reading",
    [
        PrismReading(prism=ComponentPrism(base_in=Decimal("1.5"), base_up=Decimal(-2))),
        PrismReading(prism=PolarPrism(amount=Decimal("2.5"), base=Decimal(37))),
    ],
)
def test_prism_in_both_forms(qtbot: QtBot, light: Theme, reading: PrismReading) -> None:
    made = RepeatedInput(PRISM_FORMS, prism_form_of)
    qtbot.addWidget(made)
    made.set_value((reading,))
    assert made.value() == (reading,)


def test_prism_typed_with_its_base(qtbot: QtBot, light: Theme) -> None:
    made = RepeatedInput(PRISM_FORMS, prism_form_of)
    qtbot.addWidget(made)
    type_row(qtbot, made.fields(), "150 out", "2u")
    expected = ComponentPrism(base_in=Decimal("-1.50"), base_up=Decimal(2))
    assert made.value() == (PrismReading(prism=expected),)


def test_an_addition_knows_its_surface(qtbot: QtBot, light: Theme) -> None:
    made = AdditionInput()
    qtbot.addWidget(made)
    made.propose_surface(Surface.FRONT)
    type_row(qtbot, made.fields(), "1.00", "3.00")
    expected = DrumAdd(
        surface=Surface.FRONT, distance_lines=Decimal("1.00"), near_lines=Decimal("3.00")
    )
    assert made.value() == (expected,)
    made.propose_surface(Surface.BACK)
    assert made.value() == (expected,)
    made.set_value((DisplayAdd(shown=Decimal(2)),))
    assert made.value()[0].addition == Decimal(2)


def test_both_lenses_are_measured_and_repeats_are_kept(qtbot: QtBot, light: Theme) -> None:
    made = LayoutInput(specs.millimetre("Distance"))
    qtbot.addWidget(made)
    row = made.findChild(NumberRow)
    assert row is not None
    type_row(qtbot, row, "31.5", "32")
    assert made.value() == ((Decimal("31.5"),), (Decimal(32),))
    made.another()
    made.set_value(made.value())
    type_row(qtbot, row, "31", "32.5")
    assert made.value() == (
        (Decimal("31.5"), Decimal(31)),
        (Decimal(32), Decimal("32.5")),
    )


def test_a_single_number(qtbot: QtBot, light: Theme) -> None:
    made = SingleInput(specs.addition("Engraved addition"))
    qtbot.addWidget(made)
    with qtbot.waitSignal(made.value_changed) as caught:
        type_row(qtbot, made, "200")
    assert caught.args == [Decimal("2.00")]


CHECK = Prompt(
    id="bench.skew",
    step=StepId.BENCH,
    kind=Kind.CHECK,
    title="Skewed bridge",
    ask="Is one lens higher than the other?",
    inputs=tuple(
        Measurement(name, name, "mm", Decimal(0), Decimal(80), Decimal("0.5"))
        for name in ("right", "left")
    ),
)


@pytest.fixture
def check(qtbot: QtBot, light: Theme) -> CheckInput:
    made = CheckInput(CHECK)
    qtbot.addWidget(made)
    return made


def test_a_check_is_answered_by_a_letter(qtbot: QtBot, check: CheckInput) -> None:
    with qtbot.waitSignal(check.value_changed):
        assert check.press("F")
    assert check.value() == Answer(seen=Seen.FAULT)
    assert not check.press("X")


def test_a_check_is_answered_by_measurement(qtbot: QtBot, check: CheckInput) -> None:
    first, second = check.findChildren(NumberInput)
    for field, text in ((first, "30"), (second, "31,5")):
        QTest.keyClicks(field.edit(), text)
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert check.value().measured == {"right": Decimal(30), "left": Decimal("31.5")}


def test_a_check_to_be_repeated_starts_blank(check: CheckInput) -> None:
    old = Answer(
        seen=Seen.FAULT, measured={"right": Decimal(30)}, again_because=("bench.x-ing",)
    )
    check.set_value(old)
    check.press("G")
    assert check.value() == Answer(seen=Seen.GOOD)


def test_distances_from_the_lens_edge_are_kept_from_the_nose_line(
    qtbot: QtBot, light: Theme
) -> None:
    made = DistanceInput(specs.millimetre("Distance"))
    qtbot.addWidget(made)
    made.set_datum(Datum.LENS_EDGE, Decimal(18))
    row = made.findChild(NumberRow)
    assert row is not None
    type_row(qtbot, row, "22.5", "23")
    assert made.value() == ((Decimal("31.5"),), (Decimal(32),))
    made.set_datum(Datum.NOSE_LINE, Decimal(18))
    assert row.values() == (Decimal("31.5"), Decimal(32))
    assert made.value() == ((Decimal("31.5"),), (Decimal(32),))


def test_without_dbl_only_the_nose_line_is_offered(qtbot: QtBot, light: Theme) -> None:
    made = DistanceInput(specs.millimetre("Distance"))
    qtbot.addWidget(made)
    made.set_datum(Datum.LENS_EDGE, None)
    row = made.findChild(NumberRow)
    assert row is not None
    type_row(qtbot, row, "31.5", "32")
    assert made.value() == ((Decimal("31.5"),), (Decimal(32),))


def test_several_words_are_ticked_by_space_and_reached_by_arrows(
    qtbot: QtBot, light: Theme
) -> None:
    made = SeveralInput(("hard coat", "tinted"))
    qtbot.addWidget(made)
    made.show()
    made.setFocus()
    seen: list[tuple[str, ...]] = []
    made.value_changed.connect(seen.append)
    hands = Hands(made)
    hands.press(Qt.Key.Key_Space)
    hands.press(Qt.Key.Key_Right)
    hands.press(Qt.Key.Key_Space)
    assert seen == [("hard coat",), ("hard coat", "tinted")]
    with qtbot.waitSignal(made.finished):
        hands.press(Qt.Key.Key_Return)
    made.set_value(())
    assert made.value() == ()
    assert len(seen) == 2
