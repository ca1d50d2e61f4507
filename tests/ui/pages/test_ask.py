"""The ask page: which surface and why, prism in words, and where the slips are."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.ui.actions import Command
from tests.ui.workplace import Workplace, press, said

ASKED = "What may have happened: F1"


def begin(full: Workplace, design: Design) -> None:
    """Opens a job of this design with an addition of 2.00 D."""
    full.hands.type("FH-2611-060")
    order = full.job.order
    lenses = {eye.value: order.eye(eye).with_(add=Decimal(2)) for eye in Eye}
    changed = full.job.with_(order=order.with_(design=design, **lenses))
    assert full.desk.session.propose(changed)


def test_why_a_surface_belongs_on_the_stop_is_said(full: Workplace) -> None:
    full.hands.type("FH-2611-041")
    full.shell.go_to("right.near")
    assert "the back is usual: take both readings with the back surface" in said(full)
    assert "The front would show" in said(full)
    full.shell.go_to("right.distance")
    assert "The front would show" not in said(full)


def test_read_first_tells_the_surface_and_nothing_of_the_order(full: Workplace) -> None:
    begin(full, Design.BIFOCAL)
    full.shell.go_to("right.near")
    assert "would show" in said(full)
    full.shell.do(Command.READ_FIRST)
    assert "Take both readings with the front surface on the stop." in said(full)
    assert "would show" not in said(full)


@pytest.mark.parametrize(("prompt", "word"), [("right.prism", "in"), ("left.prism", "out")])
def test_prism_read_as_a_direction_is_told_for_its_eye(
    full: Workplace, prompt: str, word: str
) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to(prompt)
    press(full.shell, "Ring and direction")
    full.hands.type("2", "0")
    assert f"Read  2.00 Δ base 0° (= 2.00 {word})" in said(full)
    full.shell.do(Command.ANOTHER)
    assert f"Reading 2, after 2.00 Δ base 0° (= 2.00 {word})" in said(full)


def test_with_the_hint_closed_a_key_leads_to_the_slips(full: Workplace, qtbot: QtBot) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("right.distance")
    qtbot.waitUntil(lambda: "Lens turned in its rim" in said(full))
    assert ASKED not in said(full)
    full.hands.press(Qt.Key.Key_F1)
    assert ASKED in said(full)
    assert "Lens turned in its rim" not in said(full)
    full.shell.go_to("left.distance")
    assert ASKED not in said(full)


def test_an_engraving_of_another_lens_gets_its_question(full: Workplace, qtbot: QtBot) -> None:
    begin(full, Design.PROGRESSIVE)
    full.shell.go_to("right.engraved-add")
    full.hands.letters("2.50")
    full.hands.press(Qt.Key.Key_Return)
    assert [one.key for one in full.standing.outside] == ["right.engraved-add"]
    qtbot.waitUntil(lambda: "What may have happened" in said(full))


def test_a_fault_seen_by_eye_gets_no_question(full: Workplace, qtbot: QtBot) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("surface.scratches")
    full.hands.letters("f")
    qtbot.wait(80)
    assert full.standing.outside
    assert "What may have happened" not in said(full)
