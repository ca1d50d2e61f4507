"""The record made from a job and its findings."""

from decimal import Decimal

from benchassist.guide.answers import READINGS, answer_to
from benchassist.guide.flow import PromptStanding, Standing, StepStanding, standing
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.guide.reopening import HANDS
from benchassist.job.checks import Answer, Correction, HandWork, Seen
from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.limits.rule import Rule
from benchassist.optics.eye import Eye
from benchassist.records.cautions import cautions
from benchassist.records.defects import defect_lines
from benchassist.records.frame_faults import frame_lines
from benchassist.records.reading_words import typed
from benchassist.records.record import (
    AnswerLine,
    Centration,
    CorrectionLine,
    Count,
    Decision,
    EarlierAttempt,
    EyeCentration,
    FindingLine,
    Imprint,
    OpenLine,
    Part,
    ReadingLine,
    Record,
    RuleLine,
    RuleSetLine,
    SkippedLine,
    SlipLine,
    SourceLine,
)
from benchassist.records.spots import spots
from benchassist.records.words import amount, ended
from benchassist.verdicts.diagnose.telling import SlipQuestion, about_any, slip_questions
from benchassist.verdicts.exact import mean
from benchassist.verdicts.finding import WORST_FIRST, Finding
from benchassist.verdicts.near import proposal
from benchassist.verdicts.words import listed


def make_record(
    job: Job,
    findings: tuple[Finding, ...],
    guide: Guide,
    limits: Limits,
    imprint: Imprint,
) -> Record:
    """The record of the present attempt; everything it says comes from the arguments."""
    stands = standing(job, findings, guide)
    rule_set = limits.rule_set
    ordered = _in_reading_order(stands)
    rules = tuple(dict.fromkeys(finding.rule for finding in ordered if finding.rule))
    judged_by = RuleSetLine(
        id=rule_set.id,
        title=rule_set.title,
        edition=rule_set.edition,
        caution=rule_set.caution,
        evidence=rule_set.evidence,
        acceptance=limits.decision.title,
    )
    return Record(
        job_number=job.number,
        job_created=job.created,
        attempt=len(job.attempts),
        imprint=imprint,
        order=job.order,
        centration=_centration(job),
        spots=spots(stands),
        rule_set=judged_by,
        decision=Decision(**dict(job.now.signoff), state=job.state),
        counts=_counts(findings),
        parts=_with_slips(
            _parts(stands, ordered, rules, guide),
            slip_questions(job, limits, stands.findings),
        ),
        rules=tuple(_rule_line(number, rule) for number, rule in enumerate(rules, start=1)),
        cautions=cautions(job, findings, guide, rule_set),
        earlier=_earlier(job),
        defects=defect_lines(job, findings),
        frame=frame_lines(stands),
    )


def _counts(findings: tuple[Finding, ...]) -> tuple[Count, ...]:
    states = [finding.state for finding in findings]
    return tuple(
        Count(state=state, number=states.count(state))
        for state in WORST_FIRST
        if state in states
    )


def _rule_line(number: int, rule: Rule) -> RuleLine:
    return RuleLine(
        number=number,
        title=rule.title,
        edition=rule.edition,
        clause=rule.clause,
        evidence=rule.evidence,
        note=rule.note,
        sources=tuple(
            SourceLine(title=source.title, address=source.address) for source in rule.sources
        ),
    )


def _earlier(job: Job) -> tuple[EarlierAttempt, ...]:
    return tuple(
        EarlierAttempt(
            number=number,
            outcome=attempt.signoff.outcome,
            reason=attempt.signoff.reason,
            dispensed=attempt.signoff.dispensed,
            countersigned=attempt.signoff.countersigned,
        )
        for number, attempt in enumerate(job.attempts[:-1], start=1)
    )


def _centration(job: Job) -> Centration:
    return Centration(right=_eye(job, Eye.RIGHT), left=_eye(job, Eye.LEFT))


def _eye(job: Job, eye: Eye) -> EyeCentration:
    layout = job.now.pair.eye(eye)
    return EyeCentration(
        distance_pd=_mean(layout.distance_pd),
        near_pd=_mean(layout.near_pd),
        height=_mean(layout.height),
    )


def _mean(values: tuple[Decimal, ...]) -> Decimal | None:
    return mean(values) if values else None


def _in_reading_order(stands: Standing) -> tuple[Finding, ...]:
    """The findings step by step, within a step as its prompts come."""
    steps = tuple(StepId)
    asked = {item.prompt.id: place for place, item in enumerate(stands.prompts)}

    def place(finding: Finding) -> tuple[int, int]:
        return steps.index(_step_of(finding)), asked.get(finding.prompt, len(asked))

    return tuple(sorted(stands.findings, key=place))


def _parts(
    stands: Standing, findings: tuple[Finding, ...], rules: tuple[Rule, ...], guide: Guide
) -> tuple[Part, ...]:
    return tuple(
        _part(
            stands.job,
            step,
            tuple(
                _finding_line(stands.job, finding, rules)
                for finding in findings
                if _step_of(finding) is step.step.id
            ),
            guide,
        )
        for step in stands.steps
    )


def _with_slips(
    parts: tuple[Part, ...], questions: tuple[SlipQuestion, ...]
) -> tuple[Part, ...]:
    """The parts, each question in the first that has a finding which it is about."""
    made = []
    for part in parts:
        here = about_any(questions, (finding.key for finding in part.findings))
        questions = tuple(one for one in questions if one not in here)
        lines = tuple(
            SlipLine(keys=one.keys, about=one.about, sentence=one.sentence) for one in here
        )
        made.append(part.with_(slips=lines) if lines else part)
    return tuple(made)


def _step_of(finding: Finding) -> StepId:
    """The step under which a finding stands: that of its prompt; the pair for both lenses."""
    names = (finding.key.partition(".")[0], finding.prompt.partition(".")[0])
    return StepId.PAIR if StepId.PAIR in names else StepId(names[1])


def _finding_line(job: Job, finding: Finding, rules: tuple[Rule, ...]) -> FindingLine:
    return FindingLine(
        key=finding.key,
        prompt=finding.prompt,
        what=finding.what,
        eye=finding.eye,
        state=finding.state,
        sentence=finding.sentence,
        ordered=finding.ordered,
        found=finding.found,
        difference=finding.difference,
        limit=finding.limit,
        guard=finding.guard,
        good=_good(finding),
        unit=finding.unit,
        share=finding.share,
        rule=rules.index(finding.rule) + 1 if finding.rule else None,
        is_told=finding.is_told,
        method=_method(job, finding),
    )


def _method(job: Job, finding: Finding) -> str:
    """With which surface on the stop an addition that was read belongs read, and why.

    What the other surface would show is told where it matters, and why the surface was
    proposed once for the pair: with the right lens, where that is read too.
    """
    if finding.found is None or finding.key not in {f"{eye}.add" for eye in Eye}:
        return ""
    proposed = proposal(job.order, finding.eye or Eye.RIGHT)
    why, _, other = proposed.reason.partition(". ")
    is_told_before = finding.eye is Eye.LEFT and bool(job.now.right.near)
    told = ("" if is_told_before else ended(why), other if proposed.matters else "")
    return " ".join(text for text in told if text)


def _good(finding: Finding) -> Decimal | None:
    """Up to where it is good, where a zone before the limit was set and not reckoned."""
    is_set = finding.guard and finding.probability is None
    return finding.limit - finding.guard if finding.limit is not None and is_set else None


def _part(
    job: Job, step: StepStanding, findings: tuple[FindingLine, ...], guide: Guide
) -> Part:
    work = getattr(job.now, step.step.id) if step.step.id in HANDS else HandWork()
    return Part(
        step=step.step.id,
        title=step.step.title,
        readings=tuple(line for item in step.prompts for line in _readings(job, item.prompt)),
        findings=findings,
        answers=tuple(
            line for item in step.prompts if (line := _answer(job, item.prompt, guide))
        ),
        corrections=tuple(
            CorrectionLine(
                check=_title(guide, correction.check),
                did=_did(correction),
                tool=correction.tool,
                remark=correction.remark,
            )
            for correction in work.corrections
        ),
        skipped=tuple(
            SkippedLine(title=item.prompt.title, reason=job.now.skipped[item.prompt.id])
            for item in step.prompts
            if item.is_skipped
        ),
        open=tuple(_open(item) for item in step.prompts if _waits(item)),
    )


def _did(correction: Correction) -> str:
    """What was done, on which side and by how much."""
    side = f"{correction.side} side" if correction.side else ""
    by = "" if correction.amount is None else f"by {amount(correction.amount, correction.unit)}"
    more = " ".join(part for part in (side, by) if part)
    return f"{correction.action.rstrip('.')}, {more}." if more else correction.action


def _waits(item: PromptStanding) -> bool:
    return not item.is_done and item.prompt.kind not in {Kind.FORM, Kind.SIGN}


def _open(item: PromptStanding) -> OpenLine:
    return OpenLine(prompt=item.prompt.id, title=item.prompt.title)


def _title(guide: Guide, prompt_id: str) -> str:
    titles = [prompt.title for prompt in guide.prompts if prompt.id == prompt_id]
    return titles[0] if titles else prompt_id


def _readings(job: Job, prompt: Prompt) -> tuple[ReadingLine, ...]:
    """What was read for a prompt, where the findings alone do not say it."""
    if prompt.kind in READINGS - {Kind.ENGRAVED} and prompt.eye:
        taken = answer_to(job, prompt)
        if not taken:
            return ()
        meters = tuple(dict.fromkeys(reading.meter for reading in taken if reading.meter))
        values = tuple(typed(reading, prompt.eye) for reading in taken)
        return (_reading_line(prompt, prompt.eye, values, meters),)
    if prompt.kind is Kind.LAYOUT:
        unit = {"tilt": "°", "base_curve": "D"}.get(prompt.reading, "mm")
        return tuple(
            _reading_line(prompt, eye, tuple(amount(value, unit) for value in values))
            for eye, values in zip((*Eye, None), answer_to(job, prompt), strict=False)
            if len(values) > 1
        )
    return ()


def _reading_line(
    prompt: Prompt, eye: Eye | None, values: tuple[str, ...], meters: tuple[str, ...] = ()
) -> ReadingLine:
    side = eye.value if eye else "both together"
    title = prompt.title if prompt.eye else f"{prompt.title}, {side}"
    return ReadingLine(prompt=prompt.id, title=title, eye=eye, values=values, meters=meters)


def _answer(job: Job, prompt: Prompt, guide: Guide) -> AnswerLine | None:
    answer = answer_to(job, prompt)
    if not isinstance(answer, Answer) or answer == Answer():
        return None
    again = listed(tuple(_title(guide, cause) for cause in answer.again_because))
    return AnswerLine(
        prompt=prompt.id,
        title=prompt.title,
        seen=_seen(prompt, answer.seen),
        measured=_measured(prompt, answer),
        choice=answer.choice,
        remark=answer.remark,
        again=again,
    )


def _seen(prompt: Prompt, seen: Seen | None) -> str:
    if seen is None:
        return ""
    return "done" if prompt.kind is Kind.CONFIRM and seen is Seen.GOOD else seen.value


def _measured(prompt: Prompt, answer: Answer) -> tuple[str, ...]:
    """The measurements in the order and words of the prompt."""
    return tuple(
        f"{each.label[:1].lower()}{each.label[1:]} "
        f"{amount(answer.measured[each.name], each.unit)}"
        for each in prompt.inputs
        if each.name in answer.measured
    )
