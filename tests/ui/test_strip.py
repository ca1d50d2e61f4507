"""The strip names the rules that a pair is judged by, and says where the house has its own."""

from decimal import Decimal

from PySide6.QtWidgets import QLabel

from benchassist.limits.house import HouseRule, HouseRules
from tests.ui.workplace import Workplace


def rules(full: Workplace) -> QLabel:
    labels = full.shell.findChildren(QLabel)
    return next(one for one in labels if one.text().startswith("limits: "))


def test_edition_title_evidence_and_caution_are_told(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    about = rules(full)
    assert about.text() == "limits: ISO 21987:2017"
    assert about.toolTip().startswith("ISO 21987:2017.\nRows: ")
    assert full.desk.session.limits is not None
    assert full.desk.session.limits.rule_set.caution in about.toolTip()
    assert about.accessibleDescription() == about.toolTip()


def test_house_rules_are_named(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    rule = HouseRule("iso-21987-2017", "I3", "ours", percent=Decimal(50))
    full.desk.keep_house_rules(HouseRules("Fernhollow", (rule,)))
    assert rules(full).text() == "limits: ISO 21987:2017, house rules"
    assert "with house rule of Fernhollow" in rules(full).toolTip()


def test_house_rules_of_the_bench_are_named_too(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.desk.keep_house_rules(HouseRules("Fernhollow", (HouseRule("bench", "skew", "no"),)))
    assert rules(full).text() == "limits: ISO 21987:2017, house rules"
