"""The sheet of house rules: a supervisor tightens, nobody loosens, and the open job follows."""

from decimal import Decimal

import pytest
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QListWidget

from benchassist.job.signoff import Person, Role
from benchassist.limits.house import HouseRule
from benchassist.limits.house_file import HOUSE_FILE
from benchassist.ui.actions import Command
from benchassist.ui.house_rules import HouseRulesSheet
from benchassist.ui.inputs.number import NumberInput
from benchassist.verdicts.finding import State
from tests.ui.workplace import Workplace, press

SUPERVISOR = Person(name="Priya Nandakumar", role=Role.SUPERVISOR)
BY_US = "house rule of Fernhollow Spectacle Workshop"


@pytest.fixture
def sheet(full: Workplace) -> HouseRulesSheet:
    full.desk.take_over(SUPERVISOR)
    full.hands.type("FH-2611-060")
    full.shell.do(Command.HOUSE_RULES)
    found = full.shell.findChild(HouseRulesSheet)
    assert found is not None
    return found


def choose(sheet: HouseRulesSheet, name: str, words: str) -> None:
    box = next(one for one in sheet.findChildren(QComboBox) if one.accessibleName() == name)
    box.setCurrentIndex(next(at for at in range(box.count()) if words in box.itemText(at)))


def fill(sheet: HouseRulesSheet, figure: str, reason: str) -> None:
    field = next(one for one in sheet.findChildren(NumberInput) if one.isVisibleTo(sheet))
    field.edit().setText(figure)
    field.edit().setModified(True)
    line = next(
        one for one in sheet.findChildren(QLineEdit) if one.accessibleName() == "Reason"
    )
    line.setText(reason)
    press(sheet, "Keep this rule")


def told(sheet: HouseRulesSheet) -> str:
    labels = sheet.findChildren(QLabel)
    return " ".join(label.text() for label in labels if label.isVisibleTo(sheet))


def rules(full: Workplace) -> tuple[HouseRule, ...]:
    return full.desk.house_rules().rules


def test_a_tightened_limit_judges_the_open_job_at_once(
    full: Workplace, sheet: HouseRulesSheet
) -> None:
    choose(sheet, "Rule set", "ISO")
    choose(sheet, "Limit", "I1-A")
    choose(sheet, "For which lenses", "Power up to 3.00 D")
    fill(sheet, "0.01", "we can")
    (rule,) = rules(full)
    assert (rule.row, rule.limit, rule.unit, rule.reason) == (
        "I1-A", Decimal("0.01"), "D", "we can",
    )  # fmt: skip
    assert full.desk.session.limits is not None
    assert BY_US in full.desk.session.limits.rule_set.title
    assert "I1-A" in sheet.findChildren(QListWidget)[0].item(0).text()
    press(sheet, "Take this rule away")
    assert not rules(full)
    assert BY_US not in full.desk.session.limits.rule_set.title
    sheet.close()


def test_a_switched_off_check_is_told_with_its_reason(
    full: Workplace, sheet: HouseRulesSheet
) -> None:
    choose(sheet, "Rule set", "ISO")
    choose(sheet, "Limit", "I1-A")
    press(sheet, "Not judged")
    press(sheet, "Keep this rule")
    assert "Say why" in told(sheet)
    reason = next(
        one for one in sheet.findChildren(QLineEdit) if one.accessibleName() == "Reason"
    )
    reason.setText("measured at the lab")
    press(sheet, "Keep this rule")
    assert rules(full)[0].is_off
    high = [one for one in full.standing.findings if "meridian-high" in one.key]
    assert high
    assert all(one.state is State.NONE for one in high)
    sheet.close()


def test_a_share_is_kept_as_a_share(full: Workplace, sheet: HouseRulesSheet) -> None:
    choose(sheet, "Rule set", "ISO")
    choose(sheet, "Limit", "I5-v")
    press(sheet, "A share of it")
    fill(sheet, "80", "strong lenses")
    assert rules(full)[0].percent == Decimal(80)
    sheet.close()


def test_a_loosened_limit_is_refused_and_what_was_typed_stays(
    full: Workplace, sheet: HouseRulesSheet
) -> None:
    choose(sheet, "Rule set", "ISO")
    choose(sheet, "Limit", "I1-A")
    fill(sheet, "0.50", "too strict for us")
    assert "This rule would loosen row I1-A" in told(sheet)
    assert any(one.text() == "too strict for us" for one in sheet.findChildren(QLineEdit))
    assert not rules(full)
    assert not (full.desk.store.folder / HOUSE_FILE).exists()
    sheet.close()


def test_without_a_figure_nothing_is_kept(full: Workplace, sheet: HouseRulesSheet) -> None:
    fill(sheet, "", "why not")
    assert "Type the figure" in told(sheet)
    assert not rules(full)
    sheet.close()


def test_who_is_no_supervisor_may_only_read(full: Workplace) -> None:
    full.shell.do(Command.HOUSE_RULES)
    sheet = full.shell.findChild(HouseRulesSheet)
    assert sheet is not None
    assert "Only a supervisor" in told(sheet)
    assert not any(one.isVisibleTo(sheet) for one in sheet.findChildren(QComboBox))
    sheet.close()


def test_a_damaged_file_is_told_and_not_written_over(full: Workplace) -> None:
    path = full.desk.store.folder / HOUSE_FILE
    path.write_text("workshop = ", encoding="utf-8")
    full.shell.do(Command.HOUSE_RULES)
    assert full.shell.findChild(HouseRulesSheet) is None
    assert "cannot be read" in full.shell.statusBar().currentMessage()
    assert path.read_text(encoding="utf-8") == "workshop = "
