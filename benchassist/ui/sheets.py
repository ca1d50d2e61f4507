"""The sheets that open above the window: who, with which meter, for whom, by which rules."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QDialog, QWidget

from benchassist.guide.load import load_meter_check
from benchassist.guide.symptoms import load_symptoms
from benchassist.job.instrument import Instrument
from benchassist.job.order import Order
from benchassist.limits.load import tightenable
from benchassist.people.roles import may_set_house_rules
from benchassist.ui.desk import Desk
from benchassist.ui.house_rules import HouseRulesSheet
from benchassist.ui.keys import KeysSheet
from benchassist.ui.meter_check import CheckSheet
from benchassist.ui.meters import MetersSheet
from benchassist.ui.people import PeopleSheet
from benchassist.ui.symptoms import SymptomsSheet
from benchassist.ui.workshop import WorkshopSheet
from benchassist.wrong import BenchError


class Sheets(QObject):
    """Opens one sheet at a time; what it is told goes to the desk."""

    def __init__(self, desk: Desk, tell: Callable[[str], None], window: QWidget) -> None:
        """Makes no sheet yet.

        Args:
            desk: what the sheets change.
            tell: takes the sentence about what could not be done.
            window: what the sheets lie on.
        """
        super().__init__(window)
        self._desk = desk
        self._tell = tell
        self._window = window

    def show_keys(self) -> None:
        """Every key, as a list."""
        self._show(KeysSheet(self._window))

    def show_symptoms(self, prompt_id: str) -> None:
        """What is seen on the face and what to bend for it, reckoned for the open job."""
        self._try(lambda: self._show_symptoms(prompt_id))

    def _show_symptoms(self, prompt_id: str) -> None:
        standing = self._desk.session.standing
        order = standing.job.order if standing else Order()
        symptoms = load_symptoms(self._desk.guide.language)
        notes = self._desk.guide.frame_notes_for(order) if standing else ()
        cautions = tuple(note.words for note in notes)
        self._show(SymptomsSheet(symptoms, order, prompt_id, cautions, self._window))

    def show_people(self) -> None:
        """Who is at the bench."""
        sheet = PeopleSheet(self._desk.settings.persons, self._window)
        sheet.chosen.connect(lambda person: self._try(lambda: self._desk.take_over(person)))
        self._show(sheet)

    def show_workshop(self) -> None:
        """Whose name stands on the papers."""
        settings = self._desk.settings
        sheet = WorkshopSheet(settings.workshop, settings.cylinder_form, self._window)
        sheet.changed.connect(
            lambda workshop, form: self._try(
                lambda: self._desk.change_settings(workshop=workshop, cylinder_form=form)
            )
        )
        self._show(sheet)

    def show_meters(self) -> None:
        """The lens meters, and from there their daily check."""
        self._try(self._show_meters)

    def _show_meters(self) -> None:
        sheet = MetersSheet(self._desk.meters(), self._desk.settings.meter, self._window)
        sheet.chosen.connect(lambda name: self._try(lambda: self._desk.use_meter(name)))
        sheet.check_asked.connect(self._check_meter)
        self._show(sheet)

    def _check_meter(self, meter: Instrument) -> None:
        who = (self._desk.session.person, self._desk.session.now)
        sheet = CheckSheet(meter, load_meter_check(), who, self._window)
        sheet.checked.connect(lambda check: self._try(lambda: self._desk.keep_check(check)))
        self._show(sheet)

    def show_house_rules(self) -> None:
        """Which limits this workshop tightens or does not judge."""
        self._try(self._show_house_rules)

    def _show_house_rules(self) -> None:
        refusal = may_set_house_rules(self._desk.session.person)
        house = self._desk.house_rules()
        sheet = HouseRulesSheet(house, tightenable(), refusal, self._window)
        sheet.changed.connect(
            lambda rules: self._try(lambda: self._desk.keep_house_rules(rules))
        )
        self._show(sheet)

    def _show(self, sheet: QDialog) -> None:
        sheet.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        sheet.open()

    def _try(self, doing: Callable[[], None]) -> None:
        try:
            doing()
        except BenchError as error:
            self._tell(error.sentence)
