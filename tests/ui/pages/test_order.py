"""The order page: in which language the wearer reads, and how the limits are known."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox

from benchassist.limits.load import load_limits
from benchassist.records.advice import languages, load_teaching
from benchassist.ui.pages.order import OrderPage
from tests.ui.workplace import Workplace, said


def choice(full: Workplace, name: str) -> QComboBox:
    (page,) = full.shell.findChildren(OrderPage)
    return next(one for one in page.findChildren(QComboBox) if one.accessibleName() == name)


def test_the_language_of_the_wearer_is_chosen_by_its_own_name(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("order.wearer-and-lenses")
    box = choice(full, "Wearer reads")
    offered = [box.itemText(place) for place in range(box.count())]
    assert offered == ["not stated", *(load_teaching(tag).words.name for tag in languages())]
    assert {"Deutsch", "English"} <= set(offered)
    box.setFocus()
    full.hands.letters("D")
    assert full.job.order.language == "de"
    assert full.desk.sheet().language == "de"
    full.hands.press(Qt.Key.Key_Home)
    assert full.job.order.language == ""
    assert full.desk.sheet().language == "en"


def test_evidence_and_caution_of_the_rule_set_stand_below_it(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("order.wearer-and-lenses")
    for rule_set in ("iso-21987-2017", "ansi-z80.1-2020"):
        order = full.job.order.with_(rule_set=rule_set)
        assert full.desk.session.propose(full.job.with_(order=order))
        known = load_limits(rule_set).rule_set
        assert f"{known.evidence}. {known.caution}" in said(full)
