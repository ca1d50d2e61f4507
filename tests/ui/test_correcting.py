"""The correction loop at the bench, by key events alone."""

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from benchassist.guide.prompts import StepId
from benchassist.job.checks import Answer, Correction, Seen
from benchassist.job.order import FrameMaterial
from benchassist.optics.eye import Eye
from tests.ui.bent import OPEN_WIDE, looked_at
from tests.ui.hands import CTRL, ENTER, SHIFT
from tests.ui.workplace import Workplace, said

FAULT = Answer(seen=Seen.FAULT)
CHECK = "bench.open-angle"


def on_the_bench(
    full: Workplace,
    *left_open: str,
    material: FrameMaterial | None = FrameMaterial.ACETATE,
    **found: Answer,
) -> None:
    """Opens a job whose frame was looked at, at its first open prompt of the bench."""
    full.hands.type("FH-2611-060")
    order = full.job.order
    made_of = order.with_(frame=order.frame.with_(material=material))
    job = looked_at(full.job.with_(order=made_of), full.desk.guide, *left_open, **found)
    assert full.desk.session.propose(job)
    full.hands.press(Qt.Key.Key_6, CTRL)


def measure(full: Workplace) -> None:
    """Types the open angle of temples that stand apart."""
    full.hands.type(*map(str, OPEN_WIDE))


def corrections(full: Workplace) -> tuple[Correction, ...]:
    return full.job.now.bench.corrections


def test_a_correction_is_accepted_by_keys_alone(full: Workplace) -> None:
    on_the_bench(full, "open-angle")
    measure(full)
    assert "Bring the right temple in by about" in said(full)
    full.hands.letters("c")
    assert not corrections(full), "C alone logs nothing"
    full.hands.press(ENTER)
    (logged,) = corrections(full)
    assert (logged.check, logged.side, logged.unit) == (CHECK, Eye.RIGHT, "°")
    assert logged.amount == Decimal("5.7")
    assert logged.tool
    assert set(logged.measured.values()) == {Decimal(size) for size in OPEN_WIDE}

    assert "Look again: it was corrected since." in said(full)
    assert "Open again too:" in said(full)
    again = [one for one in full.standing.step(StepId.BENCH).prompts if one.again_because]
    assert len(again) > 1
    assert f"Enter goes to '{again[0].prompt.title}'." in said(full)
    full.hands.type("")
    current = full.standing.prompt(again[0].prompt.id)
    assert current is not None
    assert current.prompt.ask in said(full)


def test_what_was_done_otherwise_is_logged_as_it_was_done(full: Workplace) -> None:
    on_the_bench(full, "open-angle")
    measure(full)
    full.hands.letters("c")
    full.hands.press(ENTER, SHIFT)
    full.hands.press(Qt.Key.Key_A, CTRL)
    full.hands.letters("hot sand")
    for _ in ("unit", "amount"):
        full.hands.press(ENTER, SHIFT)
    full.hands.letters("2,5")
    full.hands.press(ENTER, SHIFT)
    full.hands.press(Qt.Key.Key_Down)
    for _ in ("side", "amount", "unit", "tool", "log"):
        full.hands.press(ENTER)
    (logged,) = corrections(full)
    assert (logged.side, logged.amount, logged.tool) == (Eye.LEFT, Decimal("2.5"), "hot sand")


def test_an_amount_that_cannot_be_read_is_not_logged(full: Workplace) -> None:
    on_the_bench(full, "open-angle")
    measure(full)
    full.hands.letters("c")
    for _ in ("tool", "unit", "amount"):
        full.hands.press(ENTER, SHIFT)
    full.hands.letters("3.333")
    full.hands.press(ENTER)
    full.hands.choose(Qt.Key.Key_C)
    assert not corrections(full)


def test_what_comes_first_is_said_and_one_key_leads_there(full: Workplace) -> None:
    on_the_bench(full, "open-angle", skew=FAULT)
    measure(full)
    assert "First 'Skewed bridge': " in said(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    assert not corrections(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    (logged,) = corrections(full)
    assert (logged.check, logged.side) == ("bench.skew", None)


def test_it_is_said_how_often_and_when_to_stop(full: Workplace) -> None:
    on_the_bench(full, "open-angle")
    for often in ("", "Corrected once so far.", "Corrected twice so far."):
        measure(full)
        assert often in said(full)
        full.hands.letters("c")
        full.hands.press(ENTER)
        again = looked_at(full.job, full.desk.guide, "open-angle")
        assert full.desk.session.propose(again)
        full.shell.go_to(CHECK)
    measure(full)
    assert "Corrected three times so far." in said(full)
    assert "Stop bending here" in said(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    assert len(corrections(full)) == 3, "a fourth is asked about first"
    assert "log one more all the same?" in said(full)
    full.hands.press(ENTER)
    assert len(corrections(full)) == 4


def test_a_frame_that_cannot_be_bent_says_so(full: Workplace) -> None:
    on_the_bench(full, "open-angle", material=FrameMaterial.CARBON)
    measure(full)
    title = full.desk.guide.prompt(CHECK).title
    assert f"'{title}' cannot be set on a carbon fibre frame: send it back." in said(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    assert not corrections(full)


def test_a_frame_that_nobody_named_is_named_before_anything_is_logged(
    full: Workplace,
) -> None:
    on_the_bench(full, "open-angle", material=None)
    measure(full)
    assert "Enter what the frame is made of" in said(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    assert not corrections(full)


def test_a_correction_on_the_wearer_is_logged_with_the_fit(full: Workplace) -> None:
    on_the_bench(full)
    prompt = full.desk.guide.prompt("fit.temples")
    for before in prompt.after:
        full.shell.go_to(before)
        full.hands.letters("g")
    full.shell.go_to(prompt.id)
    full.hands.letters("f")
    assert "Say below which of these it is" in said(full)
    full.hands.letters("c")
    full.hands.press(ENTER)
    assert "Choose first what was done" in said(full)
    assert not full.job.now.fit.corrections
    full.hands.press(Qt.Key.Key_Down)
    for _ in ("side", "amount", "unit", "tool", "log"):
        full.hands.press(ENTER)
    full.hands.press(ENTER)
    (logged,) = full.job.now.fit.corrections
    assert (logged.check, logged.amount, logged.unit) == ("fit.temples", None, "")


def test_what_must_not_be_done_to_a_material_is_told_as_forbidden(full: Workplace) -> None:
    on_the_bench(full)
    full.shell.go_to(CHECK)
    assert "Never: overheat it: bubbles" in said(full)


def test_nothing_is_offered_where_all_is_good(full: Workplace) -> None:
    on_the_bench(full)
    full.shell.go_to(CHECK)
    full.hands.letters("c")
    assert "Carried out" not in [
        one.text().replace("&", "")
        for one in full.shell.findChildren(QPushButton)
        if one.isVisible()
    ]
