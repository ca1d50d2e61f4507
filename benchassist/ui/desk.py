"""What stands behind the window: store, guide, settings, session, and the papers."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime

from PySide6.QtCore import QObject, Signal

from benchassist.guide.flow import Standing
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind
from benchassist.job.instrument import Instrument
from benchassist.job.signoff import Person
from benchassist.limits.house import HouseRules
from benchassist.limits.house_file import HOUSE_FILE, house_file_text, read_house_rules
from benchassist.limits.load import PLAIN_ACCEPTANCE, Decision, Limits, rule_sets
from benchassist.records.advice import language_name, languages
from benchassist.records.imprint import imprint_of_journal
from benchassist.records.making import make_record
from benchassist.records.record import Imprint, Record
from benchassist.records.return_slip import ReturnSlip, make_slip
from benchassist.records.wearer_sheet import WearerSheet, make_sheet
from benchassist.store.files import write_whole
from benchassist.store.instruments import (
    MeterCheck,
    append_check,
    instruments,
    load_checks,
)
from benchassist.store.jobs import JobStore
from benchassist.store.settings import Settings, save_settings
from benchassist.ui.session import Session
from benchassist.verdicts.diagnose.telling import SlipQuestion, slip_questions
from benchassist.verdicts.plausible import CylinderForm, Question, questions
from benchassist.wrong import BenchError

Clock = Callable[[], datetime]

NO_JOB = "Open a job first: a paper is of one job."


@dataclass(frozen=True, slots=True)
class Furniture:
    """What the composition root hands to the window."""

    store: JobStore
    guide: Guide
    settings: Settings
    clock: Clock


class Desk(QObject):
    """Everything the window works with, and the settings that it remembers.

    Signals:
        settings_changed: the new Settings, already on disk.
    """

    settings_changed = Signal(object)

    def __init__(self, furniture: Furniture, person: Person) -> None:
        super().__init__()
        self._furniture = furniture
        self._settings = furniture.settings
        self.session = Session(
            furniture.store, furniture.guide, person, furniture.clock, parent=self
        )
        self.session.set_decision(_decision(self._settings))
        self._asked: tuple[Standing, tuple[SlipQuestion, ...]] | None = None
        self._restore_meter()

    def _restore_meter(self) -> None:
        """Takes up the meter used last; a log that cannot be read is told when it is opened."""
        with suppress(BenchError):
            self.use_meter(self._settings.meter)

    @property
    def store(self) -> JobStore:
        """The jobs on disk."""
        return self._furniture.store

    @property
    def guide(self) -> Guide:
        """The texts."""
        return self._furniture.guide

    @property
    def settings(self) -> Settings:
        """The settings in use."""
        return self._settings

    def change_settings(self, **changes: object) -> None:
        """Replaces some settings and remembers them.

        Raises:
            BenchError: they could not be written; they hold until the window closes.
        """
        self._settings = self._settings.with_(**changes)
        self.session.set_decision(_decision(self._settings))
        self.settings_changed.emit(self._settings)
        save_settings(self.store.folder, self._settings)

    def meters(self) -> tuple[Instrument, ...]:
        """The lens meters of the workshop as they stand now.

        Raises:
            BenchError: their log cannot be read.
        """
        return instruments(load_checks(self.store.folder), self.session.now().astimezone())

    def use_meter(self, name: str) -> None:
        """Reads this lens meter from now on.

        Raises:
            BenchError: the log of the meters cannot be read, or the settings not be written.
        """
        found = next((one for one in self.meters() if one.name == name), None)
        self.session.set_meter(found)
        if found is not None and name != self._settings.meter:
            spoken = {Kind.POWER.value: found.speech, Kind.ADDITION.value: found.speech}
            self.change_settings(meter=name, forms={**self._settings.forms, **spoken})

    def keep_check(self, check: MeterCheck) -> None:
        """Adds a check to the log, and reads that meter from now on when it was accepted.

        Raises:
            BenchError: the log cannot be written.
        """
        append_check(self.store.folder, check)
        self.use_meter(check.instrument if check.accepted else self._settings.meter)

    def house_rules(self) -> HouseRules:
        """The rules of this workshop, as they lie beside its jobs.

        Raises:
            BenchError: their file cannot be read.
        """
        found = read_house_rules(self.store.folder / HOUSE_FILE)
        name = found.workshop or self._settings.workshop.name or "this workshop"
        return replace(found, workshop=name)

    def keep_house_rules(self, house: HouseRules) -> None:
        """Writes the rules of this workshop, and judges the open job by them.

        Raises:
            BenchError: they could not be written; those before still hold.
        """
        text = house_file_text(house)
        write_whole(self.store.folder / HOUSE_FILE, text.encode())
        self.session.judge_anew()

    def slip_questions(self) -> tuple[SlipQuestion, ...]:
        """What may have happened where something is outside in the open job.

        Looked for once a standing: the search takes longer than a picture may.
        """
        standing, limits = self.session.standing, self.session.limits
        if standing is None or limits is None or not standing.outside:
            return ()
        if self._asked is None or self._asked[0] is not standing:
            found = slip_questions(standing.job, limits, standing.findings)
            self._asked = (standing, found)
        return self._asked[1]

    def take_over(self, person: Person) -> None:
        """Another person works at the bench from now on."""
        self.session.set_person(person)
        known = self._settings.persons
        persons = known if person in known else (*known, person)
        self.change_settings(at_bench=person, persons=persons)

    def rule_set_choices(self) -> tuple[tuple[str, str], ...]:
        """The rule sets on offer, as (id, title)."""
        return tuple((one.id, one.title) for one in rule_sets())

    def language_choices(self) -> tuple[tuple[str, str], ...]:
        """The languages of the wearer's sheet, as (tag, its own name)."""
        return tuple((tag, language_name(tag)) for tag in languages())

    def questions(self) -> tuple[Question, ...]:
        """What looks odd in the open job's order."""
        standing = self.session.standing
        form = self._settings.cylinder_form
        usual = CylinderForm(form) if form else None
        return questions(standing.job.order, usual) if standing else ()

    def record(self) -> Record:
        """The record of the open job.

        Raises:
            BenchError: no job is open.
        """
        settled, limits = self._open_job()
        return make_record(settled.job, settled.findings, self.guide, limits, self._imprint())

    def sheet(self) -> WearerSheet:
        """The wearer's sheet of the open job.

        Raises:
            BenchError: no job is open.
        """
        settled, _ = self._open_job()
        return make_sheet(settled.job, self._settings.workshop, self.session.now())

    def slip(self) -> ReturnSlip:
        """The return slip of the open job.

        Raises:
            BenchError: no job is open, or the pair does not go back.
        """
        settled, limits = self._open_job()
        return make_slip(settled.job, settled.findings, self.guide, limits, self._imprint())

    def _open_job(self) -> tuple[Standing, Limits]:
        settled, limits = self.session.standing, self.session.limits
        if settled is None or limits is None:
            raise BenchError(NO_JOB)
        return settled, limits

    def _imprint(self) -> Imprint:
        journal = self.session.journal
        if journal is None:
            raise BenchError(NO_JOB)
        session, workshop = self.session, self._settings.workshop
        return imprint_of_journal(journal, workshop, session.now(), session.damage)


def _decision(settings: Settings) -> Decision:
    """How a reading's uncertainty enters a verdict in this workshop."""
    return Decision() if settings.guarded else PLAIN_ACCEPTANCE
