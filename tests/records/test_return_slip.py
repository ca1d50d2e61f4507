"""The return slip: what is out and what is asked, without the wearer, on two pages at most."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from pypdfium2 import PdfDocument

from benchassist.cli import slip_of
from benchassist.guide.load import load_guide
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.order import PolarPrism
from benchassist.job.signoff import Ask, Outcome, SignOff
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.records.demo import demo_files, demo_workshop
from benchassist.records.imprint import imprint_of_file
from benchassist.records.ink import RIGHT
from benchassist.records.return_slip import ReturnSlip, make_slip, no_slip, order_digest
from benchassist.records.return_slip_pdf import slip_pdf
from benchassist.store.files import load_job_file
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.judge import judge
from benchassist.wrong import BenchError

AT = datetime(2026, 11, 25, 14, 5, tzinfo=UTC)
WORKSHOP = demo_workshop()
GUIDE = load_guide()


def rejected(name: str = "2-single", **changes: object) -> Job:
    """A demo job that goes back."""
    job = load_job_file(next(file for file in demo_files() if file.stem.startswith(name)))
    signoff = SignOff(outcome=Outcome.RETURN, reason="The right axis is turned.")
    return job.with_now(job.now.with_(signoff=signoff.with_(**changes)))


def slip(job: Job, findings: tuple[Finding, ...] | None = None) -> ReturnSlip:
    limits = load_limits(job.order.rule_set)
    judged = judge(job, limits) if findings is None else findings
    imprint = imprint_of_file(job, WORKSHOP, AT)
    return make_slip(job, judged, GUIDE, limits, imprint)


def pages(content: bytes) -> list[str]:
    return [
        " ".join(page.get_textpage().get_text_range().split()) for page in PdfDocument(content)
    ]


def text_of(one: ReturnSlip) -> str:
    return " ".join(pages(slip_pdf(one)))


def missing(one: ReturnSlip, *wanted: str) -> list[str]:
    said = "".join(text_of(one).split())
    return [words for words in wanted if "".join(words.split()) not in said]


def test_it_says_what_is_out_by_how_much_and_against_which_limit() -> None:
    one = slip(rejected())
    (line,) = one.lines
    assert (line.key, line.what, line.rule) == ("right.axis", "Right lens: axis", 1)
    assert (line.ordered, line.found, line.difference) == ("90°", "97°", "+7°")
    (rule,) = one.rules
    assert rule.row == "I3"
    wanted = ("97°", "+7°", "±4°", line.sentence, rule.text, rule.source, "ISO 21987:2017")
    assert missing(one, *wanted, "Job FH-2611-048", "attempt 1", one.order_digest) == []
    assert "row I3, read" in rule.text


def test_what_may_have_happened_is_asked_and_never_announced() -> None:
    one = slip(rejected())
    told = (*one.questions, one.unexplained)
    assert any("Right axis" in each for each in told)
    assert all("?" in question for question in one.questions)
    assert missing(one, *one.questions, one.unexplained) == []
    asked = one.with_(questions=("Right axis: turned in its rim? Look at the engravings.",))
    assert missing(asked, "Questions and not a finding", *asked.questions) == []
    bare = one.with_(questions=(), unexplained="")
    assert "What may have happened" not in text_of(bare)


@pytest.mark.parametrize("ask", Ask)
def test_what_is_asked_for_is_crossed(ask: Ask) -> None:
    asked, none = slip(rejected(asks=(ask,))), slip(rejected())
    assert asked.asks == (ask,)
    assert missing(asked, "We ask you to", *(one.value.capitalize() for one in Ask)) == []
    assert "nothing chosen" in text_of(none)
    assert "nothing chosen" not in text_of(asked)
    pictures = [
        PdfDocument(slip_pdf(each))[0].render(scale=1).to_pil().tobytes()
        for each in (asked, none)
    ]
    assert pictures[0] != pictures[1]


# Who need not know a name is not told it: data minimisation, GDPR article 5(1)(c),
# https://eur-lex.europa.eu/eli/reg/2016/679/oj (from memory).
def test_the_wearer_is_named_nowhere() -> None:
    job = rejected(
        reason="Amberfield came by; Henrik Amberfield sees the turn. Mr Henrik waits."
    )
    remark = Answer(seen=Seen.FAULT, remark="Henrik Amberfield saw the scratch")
    job = job.with_now(
        job.now.with_(surface=job.now.surface.with_(answers={"scratches": remark}))
    )
    job = job.with_(order=job.order.with_(wearer="Henrik Amberfield"))
    one = slip(job)
    assert len(one.lines) == 2
    for content in (text_of(one), one.model_dump_json()):
        assert "Henrik" not in content
        assert "Amberfield" not in content
    assert "the wearer came by; the wearer sees the turn." in one.remark
    assert b"Amberfield" not in slip_pdf(one)


def test_the_digest_is_of_the_order_without_the_wearer() -> None:
    job = rejected()
    other = job.with_(order=job.order.with_(wearer="Somebody Else", remark="Call first."))
    assert order_digest(job) == order_digest(other)
    right = job.order.right.with_(base_curve=Decimal(4))
    changed = job.with_(order=job.order.with_(right=right))
    assert order_digest(job) != order_digest(changed)


@pytest.mark.parametrize("outcome", [None, *(one for one in Outcome if one != Outcome.RETURN)])
def test_only_a_pair_that_goes_back_has_one(outcome: Outcome | None) -> None:
    job = rejected(outcome=outcome)
    assert no_slip(job).endswith("'return to lab'.")
    assert no_slip(rejected()) == ""
    with pytest.raises(BenchError, match="return to lab"):
        slip(job)


def test_the_handover_and_what_was_only_seen_on_the_wearer_are_not_for_the_lab() -> None:
    job = rejected()
    fault, failed = Answer(seen=Seen.FAULT), Answer(choice="could not do it")
    now = job.now.with_(
        fit=job.now.fit.with_(answers={"bridge": fault}),
        handover=job.now.handover.with_(answers={"zone-near": failed}),
    )
    judged = judge(job.with_now(now), load_limits(job.order.rule_set))
    outside = {one.key for one in judged if one.state is State.OUTSIDE}
    assert outside == {"right.axis", "fit.bridge", "handover.zone-near"}
    assert [line.key for line in slip(job.with_now(now)).lines] == ["right.axis"]


def test_prism_of_the_pair_is_told_with_its_base() -> None:
    finding = Finding(
        key="pair.prism-vertical",
        prompt="right.prism",
        what="Vertical prism",
        state=State.OUTSIDE,
        sentence="0.90 Δ base down right found, none ordered, limit 0.50 Δ.",
        ordered=Decimal(0),
        found=Decimal("-0.9"),
        difference=Decimal("-0.9"),
        limit=Decimal("0.5"),
        unit="Δ",
    )
    (line,) = slip(rejected(), (finding,)).lines
    assert (line.ordered, line.found) == ("none", "0.90 Δ down right")
    assert (line.difference, line.limit) == ("0.90 Δ", "0.50 Δ")


@pytest.mark.parametrize(
    ("direction", "found", "words"),
    [
        ("vertical", "0.9", "0.90 Δ up right"),
        ("vertical", "-0.9", "0.90 Δ down right"),
        ("horizontal", "0.9", "0.90 Δ in"),
        ("horizontal", "-0.9", "0.90 Δ out"),
    ],
)
def test_the_base_of_the_pair_is_that_of_its_sign(
    direction: str, found: str, words: str
) -> None:
    """Base in and the right base up are positive, see `optics.prism.Imbalance`."""
    finding = Finding(
        key=f"pair.prism-{direction}",
        prompt="right.prism",
        what="Prism",
        state=State.OUTSIDE,
        sentence="Prism.",
        ordered=Decimal(0),
        found=Decimal(found),
        difference=Decimal(found),
        limit=Decimal("0.5"),
        unit="Δ",
    )
    (line,) = slip(rejected(), (finding,)).lines
    assert line.found == words


@pytest.mark.parametrize(
    ("wearer", "reason", "remark"),
    [
        (
            "Ann Wu",
            "Ann waits; JoAnn and Annika do not.",
            "the wearer waits; JoAnn and Annika",
        ),
        ("Lee, Tom", "Tom Lee's pair.", "the wearer the wearer's pair."),
        ("Wu Li", "Wu Li asks. Li is no word of ours.", "the wearer asks. Li is no word"),
        ("", "Nobody is named.", "Nobody is named."),
    ],
)
def test_short_names_are_left_out_and_other_words_stay_whole(
    wearer: str, reason: str, remark: str
) -> None:
    job = rejected(reason=reason)
    job = job.with_(order=job.order.with_(wearer=wearer))
    assert slip(job).remark.startswith(remark)


def test_bench_faults_and_every_rule_are_told_by_their_numbers() -> None:
    skew = dict.fromkeys(("right_outer", "right_inner"), Decimal(20))
    skew |= dict.fromkeys(("left_inner", "left_outer"), Decimal(23))
    job = rejected()
    bench = job.now.bench.with_(answers={"skew": Answer(measured=skew)})
    one = slip(job.with_now(job.now.with_(bench=bench)))
    assert [line.key for line in one.lines] == ["right.axis", "bench.skew"]
    assert [line.rule for line in one.lines] == [1, 2]
    assert [rule.number for rule in one.rules] == [1, 2]
    second = job.with_new_attempt().with_now(job.now)
    assert (slip(job).attempt, slip(second).attempt) == (1, 2)


def test_what_is_written_beside_a_name_stays_in_the_workshop() -> None:
    job = load_job_file(demo_files()[2])
    signed = job.now.signoff.dispensed
    assert signed is not None
    signoff = job.now.signoff.with_(dispensed=signed.with_(remark="Henrik was angry"))
    one = slip_of(job.with_now(job.now.with_(signoff=signoff)), WORKSHOP, AT)
    assert one.dispensed is not None
    assert (one.dispensed.remark, one.dispensed.person) == ("", signed.person)


def test_the_language_of_the_sheet_is_no_part_of_the_order_at_the_lab() -> None:
    job = rejected()
    assert order_digest(job) == order_digest(job.with_(order=job.order.with_(language="de")))


def many(number: int) -> tuple[Finding, ...]:
    job = rejected()
    judged = judge(job, load_limits(job.order.rule_set))
    one = next(each for each in judged if each.state is State.OUTSIDE)
    long = "A long sentence about what was found and how far it is from the order. " * 3
    return tuple(
        replace(one, key=f"right.axis-{at}", what=f"Quantity {at}", sentence=long, eye=Eye.LEFT)
        for at in range(number)
    )


@pytest.mark.parametrize("number", [0, 1, 12, 60])
def test_all_that_is_out_is_on_it(number: int) -> None:
    """The lab has no record to look the rest up in."""
    job = rejected(reason="The pair goes back for many reasons. " * 40)
    one = slip(job, many(number))
    told = pages(slip_pdf(one))
    assert len(told) <= 2 or number > 12
    for at, page in enumerate(told, start=1):
        assert f"page {at} of {len(told)}" in page
        assert "Job FH-2611-048 · attempt 1" in page
    whole = " ".join(told)
    assert "Sent back by" in whole
    assert "Received at the lab" in whole
    assert len(re.findall(r"lens: quantity \d+", whole)) == number
    assert number or "Nothing was found outside its limit" in whole


def test_long_texts_stay_on_the_paper() -> None:
    job = rejected()
    prism = PolarPrism(amount=Decimal("2.06"), base=Decimal(194))
    right = job.order.right.with_(prism=prism)
    frame = job.order.frame.with_(name="Fernhollow" * 12)
    order = job.order.with_(right=right, frame=frame, tint="brown " * 20)
    for page in PdfDocument(slip_pdf(slip(job.with_(order=order)))):
        places = page.get_textpage()
        boxes = [places.get_rect(at) for at in range(places.count_rects())]
        assert all(right <= RIGHT + 1 and bottom > 20 for _, bottom, right, _ in boxes)


def test_unsigned_it_is_a_draft_and_signed_it_bears_the_names() -> None:
    assert "Draft: nobody has signed" in text_of(slip(rejected()))
    job = load_job_file(demo_files()[2])
    one = slip_of(job, WORKSHOP, AT)
    assert one.dispensed is not None
    assert missing(one, f"{one.dispensed.person.name}, 24 November 2026") == []
    assert "Draft" not in text_of(one)
    assert one.asks == (Ask.REMAKE, Ask.EXPLAIN)


def test_the_same_slip_gives_the_same_bytes() -> None:
    one = slip(rejected())
    assert slip_pdf(one) == slip_pdf(one)


def test_what_is_out_stands_in_the_order_of_the_walk() -> None:
    """The bridge before the folded temples, whatever their names begin with."""
    seen = {name: Answer(seen=Seen.FAULT) for name in ("fold", "skew", "screws")}
    job = rejected()
    job = job.with_now(job.now.with_(bench=job.now.bench.with_(answers=seen)))
    keys = [line.key for line in slip(job).lines]
    assert keys == ["right.axis", "bench.screws", "bench.skew", "bench.fold"]
