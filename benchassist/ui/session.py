"""The job on the bench: takes proposals, writes the journal, says where the job stands."""

from collections.abc import Callable
from datetime import datetime

from pydantic import ValidationError
from PySide6.QtCore import QObject, Signal

from benchassist.guide.ending import not_ready
from benchassist.guide.flow import Standing, standing
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind
from benchassist.guide.reopening import Done, reopen
from benchassist.job.document import Job
from benchassist.job.instrument import Instrument
from benchassist.job.journal import Entry, Journal
from benchassist.job.parts import part_words
from benchassist.job.signoff import Person
from benchassist.limits.house_file import HOUSE_FILE
from benchassist.limits.load import Decision, Limits, load_limits
from benchassist.people.acts import carried_out
from benchassist.people.roles import Act, may
from benchassist.store.jobs import JobStore
from benchassist.verdicts.finding import worst
from benchassist.verdicts.judge import judge
from benchassist.wrong import BenchError

_NO_JOB = "Open a job first."


class Session(QObject):
    """One job at a time, from the store and back to it.

    Every accepted change is on disk before `changed` is emitted.

    Signals:
        changed: the new Standing.
        stored: the last Entry that is on disk now.
        refused: a sentence that says why a change was not taken.
    """

    changed = Signal(object)
    stored = Signal(object)
    refused = Signal(str)

    def __init__(
        self,
        store: JobStore,
        guide: Guide,
        person: Person,
        clock: Callable[[], datetime],
        parent: QObject | None = None,
    ) -> None:
        """Makes a session with no job open.

        Args:
            store: the jobs on disk; the rules of the house lie beside them.
            guide: the texts.
            person: who is at the bench.
            clock: the time.
            parent: what owns the session.
        """
        super().__init__(parent)
        self._store = store
        self._guide = guide
        self._person = person
        self._clock = clock
        self._journal: Journal | None = None
        self._standing: Standing | None = None
        self._limits: Limits | None = None
        self._decision = Decision()
        self._meter: Instrument | None = None
        self._damage = ""

    @property
    def guide(self) -> Guide:
        """The texts in use."""
        return self._guide

    @property
    def person(self) -> Person:
        """Who is at the bench."""
        return self._person

    def set_person(self, person: Person) -> None:
        """Another person takes over."""
        self._person = person
        if self._standing is not None:
            self.changed.emit(self._standing)

    @property
    def standing(self) -> Standing | None:
        """Where the open job stands; None with no job open."""
        return self._standing

    @property
    def journal(self) -> Journal | None:
        """The open job's journal."""
        return self._journal

    @property
    def limits(self) -> Limits | None:
        """The limits by which the open job is judged."""
        return self._limits

    @property
    def decision(self) -> Decision:
        """How a reading's uncertainty enters a verdict."""
        return self._decision

    @property
    def meter(self) -> Instrument | None:
        """The lens meter that is read now."""
        return self._meter

    @property
    def meter_key(self) -> str:
        """What readings name as their meter: the meter and its check; empty without one."""
        if self._meter is None:
            return ""
        checked = self._meter.checked
        when = f"checked {checked:%Y-%m-%d %H:%M}" if checked else "not checked"
        return f"{self._meter.name}, {when}"

    def set_meter(self, meter: Instrument | None) -> None:
        """Another lens meter, or another check of it, is read from now on."""
        self._meter = meter
        if self._standing is not None:
            self.changed.emit(self._standing)

    def set_decision(self, decision: Decision) -> None:
        """Chooses how a reading's uncertainty enters, and judges the open job anew."""
        if decision == self._decision:
            return
        self._decision = decision
        self.judge_anew()

    def judge_anew(self) -> None:
        """Reads the limits again and judges the open job by them.

        Raises:
            BenchError: the limits or the house rules cannot be used.
        """
        self._limits = None
        if self._standing is not None:
            self._settle(self._standing.job)

    def now(self) -> datetime:
        """The time, as it is written to the journal."""
        return self._clock()

    def begin(self, number: str) -> None:
        """Starts a new job and opens it.

        Raises:
            BenchError: the number cannot be one, there is such a job already, or the disk
                refuses.
        """
        known = self._store.number_like(number)
        if known is not None:
            raise BenchError(
                f"There is a job {known} already. Open it, or give this one another number."
            )
        try:
            job = Job(number=number, created=self._clock())
        except ValidationError as error:
            raise BenchError(
                f"{number} cannot be a job number: it begins with a letter or a digit and has "
                "at most 40 letters, digits, spaces and the signs . / _ -"
            ) from error
        journal = Journal.start(job, self._person, self._clock())
        self._store.append(journal.entries, job)
        self._open(journal, job)

    def open(self, number: str) -> None:
        """Opens a job from the store.

        Raises:
            BenchError: there is no such job, or it cannot be read.
        """
        opened = self._store.open_job(number)
        self._open(opened.journal, opened.job, opened.damage)
        if opened.mended:
            self.refused.emit(opened.mended)

    def _open(self, journal: Journal, job: Job, damage: str = "") -> None:
        self._journal = journal
        self._damage = damage
        self._settle(job)
        if damage:
            self.refused.emit(damage)

    @property
    def damage(self) -> str:
        """Why nothing more can be written to the open job; empty for a sound one."""
        return self._damage

    def close(self) -> None:
        """Puts the job back; nothing is lost, for everything is on disk."""
        self._journal = None
        self._standing = None

    def propose(self, job: Job) -> bool:
        """Takes a changed job: journal, disk, standing; whether it was taken."""
        if self._standing is None:
            return False
        before = self._standing.job
        if job == before:
            return True
        metered = self._with_meter(job)
        refusal = may(self._person, Act.EDIT, before.now.signoff) or self._write(metered)
        return not refusal or self._refuse(refusal)

    def _with_meter(self, job: Job) -> Job:
        """The job with the lens meter that its readings name, as it is now."""
        known, key = job.now.instruments, self.meter_key
        if self._meter is None or key in known or not _names(job, key):
            return job
        with_it = {**known, key: self._meter}
        return job.with_now(job.now.with_(instruments=with_it))

    def _write(self, job: Job) -> str:
        """Writes a job whose author has been checked already; why not, or nothing."""
        if self._standing is None or self._journal is None:
            return _NO_JOB
        before, at = self._standing.job, self._clock()
        return self._store_entries(self._journal.record(before, job, self._person, at), job)

    def _store_entries(self, entries: tuple[Entry, ...], job: Job) -> str:
        """Puts entries on disk, and only then shows the job that they make; or why not."""
        if self._journal is None:
            return _NO_JOB
        if self._damage:
            return self._damage
        limits, settled = self._judged(job)
        worst_word = worst([one.state for one in settled.findings]).word
        try:
            self._store.append(entries, job, worst_word)
        except BenchError as error:
            return error.sentence
        self._journal = self._journal.extended(entries)
        self._limits, self._standing = limits, settled
        self.changed.emit(settled)
        self.stored.emit(self._journal.entries[-1])
        return ""

    def correct(self, done: Done) -> bool:
        """Logs a correction and opens again the checks that it can disturb."""
        if self._standing is None:
            return False
        return self.propose(reopen(self._standing.job, self._guide, done))

    def skip(self, prompt_id: str, reason: str) -> bool:
        """Marks a prompt as not applicable, with the reason."""
        if self._standing is None:
            return False
        if self._guide.prompt(prompt_id).kind in {Kind.FORM, Kind.SIGN}:
            return self._refuse("An order and a name are not marked not applicable.")
        now = self._standing.job.now
        skipped = {**now.skipped, prompt_id: reason}
        return self.propose(self._standing.job.with_now(now.with_(skipped=skipped)))

    def sign(self, act: Act, remark: str = "") -> str:
        """Puts the person's name to the job; why not, or nothing when it is done."""
        if self._standing is None:
            return _NO_JOB
        refusal = self.refusal(act)
        if refusal:
            return refusal
        job, at = self._standing.job, self._clock()
        return self._write(carried_out(job, act, self._person, at, remark))

    def confirm(self, question: str) -> bool:
        """Notes that a person has looked at a question about the order."""
        if self._standing is None:
            return False
        order = self._standing.job.order
        confirmed = (*order.confirmed, question)
        return self.propose(self._standing.job.with_(order=order.with_(confirmed=confirmed)))

    def refusal(self, act: Act) -> str:
        """Why the person at the bench may not do this now; empty when nothing is in the way."""
        if self._standing is None:
            return _NO_JOB
        refusal = may(self._person, act, self._standing.job.now.signoff)
        if not refusal and act is Act.DISPENSE:
            refusal = not_ready(self._standing)
        return refusal or ""

    def undo(self) -> bool:
        """Takes back the last edit by a new entry; whether there was one."""
        if self._journal is None:
            return False
        entries = self._journal.undo(self._person, self._clock())
        if not entries:
            return self._refuse("There is nothing that can be taken back.")
        refusal = self._store_entries(entries, self._journal.extended(entries).fold())
        return not refusal or self._refuse(refusal)

    def last_part(self) -> str:
        """Which part of the job the last entry is about, in words."""
        if self._journal is None:
            return ""
        return part_words(self._journal.entries[-1].path)

    def _refuse(self, sentence: str) -> bool:
        if self._standing is not None:
            self.changed.emit(self._standing)
        self.refused.emit(sentence)
        return False

    def _settle(self, job: Job) -> None:
        self._limits, self._standing = self._judged(job)
        self.changed.emit(self._standing)

    def _judged(self, job: Job) -> tuple[Limits, Standing]:
        """Where a job stands, and by which limits."""
        limits = self._limits
        if limits is None or limits.rule_set.id != job.order.rule_set:
            house = self._store.folder / HOUSE_FILE
            limits = load_limits(job.order.rule_set, self._decision, house=house)
        return limits, standing(job, judge(job, limits), self._guide)


def _names(job: Job, key: str) -> bool:
    """Whether a reading of the present attempt names this meter."""
    lenses = (job.now.right, job.now.left)
    readings = (
        reading
        for lens in lenses
        for several in (lens.distance, lens.near, lens.intermediate, lens.prism)
        for reading in several
    )
    return any(reading.meter == key for reading in readings)
