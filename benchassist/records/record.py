"""The record: all that the paper says, as frozen data."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from benchassist.guide.prompts import StepId
from benchassist.job.base import Deferred
from benchassist.job.document import JobNumber, JobState
from benchassist.job.order import Order
from benchassist.job.signoff import Ask, Outcome, Person, Signature
from benchassist.limits.rule import Evidence
from benchassist.optics.eye import Eye
from benchassist.store.settings import Workshop
from benchassist.verdicts.finding import State

Digest = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
"""A SHA-256 in lower-case hexadecimal."""


class Deed(Deferred):
    """What one person did on one day, as the journal has it."""

    person: Person
    first: AwareDatetime
    last: AwareDatetime
    edits: int
    parts: tuple[str, ...]


class Imprint(Deferred):
    """Who makes the record, when, and of which state of the job.

    Attributes:
        workshop: the place.
        made_at: when the record was made.
        digest: SHA-256 of what was recorded.
        digest_of: whether that is the last entry of the journal or a bare job file.
        deeds: who did what, from the journal; empty for a bare job file.
        clock_ran_back: whether an entry of the journal is earlier than the one before it.
        damage: why the history of the job cannot be relied on; empty when it is sound.
    """

    workshop: Workshop
    made_at: AwareDatetime
    digest: Digest
    digest_of: Literal["journal", "job file"]
    deeds: tuple[Deed, ...] = ()
    clock_ran_back: bool = False
    damage: str = ""


class SourceLine(Deferred):
    """A publication: its title and, where there is one, its address."""

    title: str
    address: str = ""


class RuleLine(Deferred):
    """A rule that was applied, with the number by which findings refer to it."""

    number: int
    title: str
    edition: str
    clause: str
    evidence: Evidence
    note: str
    sources: tuple[SourceLine, ...]


class RuleSetLine(Deferred):
    """The rule set that the pair was judged by."""

    id: str
    title: str
    edition: str
    caution: str
    evidence: str
    acceptance: str


class FindingLine(Deferred):
    """One quantity judged.

    Amounts are in `unit`; from `good` up to `limit` it is looked at again; `share` is the share
    of the limit used, `rule` the number of its `RuleLine`. A part that does not exist is None.
    `is_told` marks a sentence that holds a caution although the state asks for nothing, and
    `method` says why it was to be read as it was; it may be empty.
    """

    key: str
    prompt: str
    what: str
    eye: Eye | None
    state: State
    sentence: str
    ordered: Decimal | None = None
    found: Decimal | None = None
    difference: Decimal | None = None
    limit: Decimal | None = None
    guard: Decimal = Decimal(0)
    good: Decimal | None = None
    unit: str = ""
    share: Decimal | None = None
    rule: int | None = None
    is_told: bool = False
    method: str = ""


class SlipLine(Deferred):
    """What may have happened, asked of the findings outside with these keys: never a cause."""

    keys: tuple[str, ...]
    about: str
    sentence: str


class AnswerLine(Deferred):
    """The answer to one check: what was seen, measured, chosen and remarked."""

    prompt: str
    title: str
    seen: str = ""
    measured: tuple[str, ...] = ()
    choice: str = ""
    remark: str = ""
    again: str = ""


class CorrectionLine(Deferred):
    """One correction at the bench, in words."""

    check: str
    did: str
    tool: str
    remark: str


class ReadingLine(Deferred):
    """What was read of one quantity, every repeat as it was typed, and with which meter.

    `eye` is None for what was measured of both lenses together.
    """

    prompt: str
    title: str
    eye: Eye | None
    values: tuple[str, ...]
    meters: tuple[str, ...] = ()


class SkippedLine(Deferred):
    """A prompt marked not applicable at the bench, and the reason given."""

    title: str
    reason: str


class OpenLine(Deferred):
    """A prompt that waits for its answer."""

    prompt: str
    title: str


class Part(Deferred):
    """One step of the job: what was read, found, answered, corrected, and what is open.

    `slips` stand in the first step that has one of their findings.
    """

    step: StepId
    title: str
    readings: tuple[ReadingLine, ...] = ()
    findings: tuple[FindingLine, ...] = ()
    slips: tuple[SlipLine, ...] = ()
    answers: tuple[AnswerLine, ...] = ()
    corrections: tuple[CorrectionLine, ...] = ()
    skipped: tuple[SkippedLine, ...] = ()
    open: tuple[OpenLine, ...] = ()


class FaultLine(Deferred):
    """A fault of the frame as the drawing takes it; signs as in `geometry.fault.Fault`."""

    kind: str
    value: Decimal
    eye: Eye | None = None
    is_within: bool = False


class FrameLine(Deferred):
    """A bench check whose faults are drawn, seen one way: now, and before a correction."""

    prompt: str
    title: str
    view: str
    now: tuple[FaultLine, ...] = ()
    before: tuple[FaultLine, ...] = ()


class EyeCentration(Deferred):
    """Where one lens was found to sit, mm; repeats are averaged."""

    distance_pd: Decimal | None = None
    near_pd: Decimal | None = None
    height: Decimal | None = None


class SpotLine(Deferred):
    """What was found at one place of a lens, and how it stands; the text may be empty."""

    spot: str
    eye: Eye
    text: str
    state: State


class DefectLine(Deferred):
    """A defect of a surface or an edge at its place.

    `across` (towards the nose) and `up` are mm from the boxed centre; `number` is that of the
    finding 'Defect 1', which says the rest.
    """

    number: int
    eye: Eye
    across: Decimal
    up: Decimal
    zone: str
    state: State
    text: str


class Centration(Deferred):
    """The centration of both lenses as found, for the drawing."""

    right: EyeCentration = Field(default_factory=EyeCentration)
    left: EyeCentration = Field(default_factory=EyeCentration)

    def eye(self, eye: Eye) -> EyeCentration:
        """The centration of one lens."""
        return self.right if eye is Eye.RIGHT else self.left


class EarlierAttempt(Deferred):
    """How an earlier attempt at this pair ended."""

    number: int
    outcome: Outcome | None
    reason: str
    dispensed: Signature | None
    countersigned: Signature | None


class Decision(Deferred):
    """How this attempt ended, and the names put to it."""

    outcome: Outcome | None
    state: JobState
    reason: str
    prepared: Signature | None
    dispensed: Signature | None
    countersigned: Signature | None
    sent_back: Signature | None
    asks: tuple[Ask, ...] = ()


class Count(Deferred):
    """How many findings are in one state."""

    state: State
    number: int


class Record(Deferred):
    """The whole paper as data; the same job, findings and imprint give the same record.

    What is added to a version has a value to begin with, so that earlier records of the same
    version still load.
    """

    record_version: Literal[1] = 1
    job_number: JobNumber
    job_created: AwareDatetime
    attempt: int
    imprint: Imprint
    order: Order
    centration: Centration
    spots: tuple[SpotLine, ...]
    rule_set: RuleSetLine
    decision: Decision
    counts: tuple[Count, ...]
    parts: tuple[Part, ...]
    rules: tuple[RuleLine, ...]
    cautions: tuple[str, ...]
    earlier: tuple[EarlierAttempt, ...]
    defects: tuple[DefectLine, ...] = ()
    frame: tuple[FrameLine, ...] = ()

    @property
    def findings(self) -> tuple[FindingLine, ...]:
        """The findings of every step, in order."""
        return tuple(finding for part in self.parts for finding in part.findings)

    def part(self, step: StepId) -> Part | None:
        """What the record says of one step."""
        return next((part for part in self.parts if part.step is step), None)

    @property
    def people(self) -> tuple[Person, ...]:
        """Everybody named in the record, in the order in which they come up."""
        decision = self.decision
        signed = (decision.prepared, decision.dispensed, decision.countersigned)
        named = [deed.person for deed in self.imprint.deeds]
        named += [signature.person for signature in (*signed, decision.sent_back) if signature]
        return tuple(dict.fromkeys(named))
