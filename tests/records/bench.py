"""A small invented bench for the tests of the record: a guide, a job, findings."""

from datetime import UTC, datetime
from decimal import Decimal

from benchassist.guide.guide import Guide, MaterialNote
from benchassist.guide.prompts import Kind, Measurement, Prompt, Step, StepId
from benchassist.job.checks import Answer, Checks, Correction, HandWork, Seen
from benchassist.job.document import Attempt, Job
from benchassist.job.order import (
    ComponentPrism,
    Design,
    EyeOrder,
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Order,
    Rim,
    WrittenPower,
)
from benchassist.job.readings import (
    DisplayReading,
    DrumReading,
    EyeLayout,
    LensReadings,
    PairReadings,
    PrismReading,
)
from benchassist.job.signoff import Outcome, Person, Role, Signature, SignOff
from benchassist.limits.load import Limits, RuleSet
from benchassist.limits.rule import Evidence, Rule, Source
from benchassist.limits.table import Table
from benchassist.optics.eye import Eye
from benchassist.records.making import make_record
from benchassist.records.record import Imprint, Record
from benchassist.store.settings import Workshop
from benchassist.verdicts.finding import Finding, State

MADE_AT = datetime(2026, 11, 24, 12, 30, tzinfo=UTC)
WORKSHOP = Workshop(name="Fernhollow Spectacle Workshop", address=("3 Alder Lane",))
IMPRINT = Imprint(workshop=WORKSHOP, made_at=MADE_AT, digest="5a" * 32, digest_of="job file")
OPTICIAN = Person(name="Ilse Varga", role=Role.OPTICIAN)
RULE_SET = RuleSet(
    id="house",
    title="House rules",
    edition="House rules, first edition",
    caution="These limits are for a test.",
    evidence="1 row from memory",
    notes=(),
)

LIMITS = Limits(RULE_SET, Table(()), Table(()), Table(()))
AXIS_RULE = Rule(
    rule_set="house",
    row="axis",
    title="Cylinder axis",
    edition="House rules, first edition",
    clause="table 1",
    evidence=Evidence.MEMORY,
    sources=(Source("A remembered table"), Source("A page", "https://example.org/axis")),
    note="Only for this test.",
)


def prompt(step: StepId, name: str, kind: Kind, title: str, **more: object) -> Prompt:
    known = {"id": f"{step}.{name}", "step": step, "kind": kind, "title": title, "ask": title}
    return Prompt(**(known | more))  # type: ignore[arg-type]


def guide() -> Guide:
    """A guide with one or two prompts a step."""

    def lens(step: StepId, eye: Eye) -> tuple[Prompt, ...]:
        place = {"reading": "distance", "eye": eye, "spot": f"{eye}.distance"}
        prism = {"reading": "prism", "eye": eye, "spot": f"{eye}.prism"}
        return (
            prompt(step, "distance", Kind.POWER, "Distance power", **place),
            prompt(step, "prism", Kind.PRISM, "Prism", **prism),
        )

    gap = Measurement("right_gap", "right gap", "mm", Decimal(0), Decimal(30), Decimal("0.5"))
    prompts = {
        StepId.ORDER: (prompt(StepId.ORDER, "frame", Kind.FORM, "Frame"),),
        StepId.RIGHT: lens(StepId.RIGHT, Eye.RIGHT),
        StepId.LEFT: lens(StepId.LEFT, Eye.LEFT),
        StepId.PAIR: (prompt(StepId.PAIR, "height", Kind.LAYOUT, "Height", reading="height"),),
        StepId.SURFACE: (prompt(StepId.SURFACE, "scratches", Kind.CHECK, "Scratches"),),
        StepId.BENCH: (
            prompt(StepId.BENCH, "screws", Kind.CHECK, "Screws"),
            prompt(StepId.BENCH, "table", Kind.CHECK, "Table touch", inputs=(gap,)),
        ),
        StepId.FIT: (prompt(StepId.FIT, "level", Kind.CHECK, "Level"),),
        StepId.HANDOVER: (
            prompt(StepId.HANDOVER, "care", Kind.CONFIRM, "Care"),
            prompt(
                StepId.HANDOVER, "leaves", Kind.CHOICE, "Leaves with", options=("worn", "case")
            ),
        ),
        StepId.RECORD: (
            prompt(StepId.RECORD, "outcome", Kind.SIGN, "Outcome", reading="dispensed"),
        ),
    }
    steps = tuple(Step(step, step.value.capitalize(), prompts[step]) for step in StepId)
    note = MaterialNote("acetate", "Warm it before bending.", "Bend it cold.", "own")
    return Guide("en", "test", steps, (note,))


def order() -> Order:
    return Order(
        wearer="Marit Oduya",
        design=Design.SINGLE_VISION,
        material=LensMaterial.STANDARD_PLASTIC,
        index=Decimal("1.50"),
        right=EyeOrder(
            power=WrittenPower(
                sphere=Decimal("-1.50"), cylinder=Decimal("1.00"), axis=Decimal(90)
            ),
            distance_pd=Decimal("31.5"),
            height=Decimal("20.0"),
        ),
        left=EyeOrder(
            power=WrittenPower(sphere=Decimal("-2.00")),
            prism=ComponentPrism(base_in=Decimal("1.00")),
            distance_pd=Decimal("32.0"),
            height=Decimal("20.0"),
        ),
        frame=FrameOrder(
            name="oval",
            a=Decimal(52),
            b=Decimal(38),
            dbl=Decimal(18),
            material=FrameMaterial.ACETATE,
            rim=Rim.FULL,
        ),
        rule_set="house",
    )


def attempt() -> Attempt:
    return Attempt(
        right=LensReadings(
            distance=(
                DisplayReading(
                    sphere=Decimal("-0.50"), cylinder=Decimal("-1.00"), axis=Decimal(5)
                ),
            )
        ),
        left=LensReadings(
            distance=(
                DrumReading(
                    sphere_lines=Decimal("-2.00"),
                    cylinder_lines=Decimal("-2.00"),
                    meter="meter 1",
                ),
            ),
            prism=(PrismReading(prism=ComponentPrism(base_in=Decimal("1.25"))),),
        ),
        pair=PairReadings(
            right=EyeLayout(height=(Decimal("20.0"), Decimal("20.5"))),
            left=EyeLayout(height=(Decimal("20.0"),)),
        ),
        bench=HandWork(
            answers={
                "screws": Answer(seen=Seen.GOOD, remark="One was loose."),
                "table": Answer(
                    measured={"right_gap": Decimal("1.5")}, again_because=("bench.screws",)
                ),
            },
            corrections=(
                Correction(check="bench.screws", action="Tighten it.", tool="screwdriver"),
            ),
        ),
        handover=Checks(
            answers={"care": Answer(seen=Seen.GOOD), "leaves": Answer(choice="worn")}
        ),
        skipped={"surface.scratches": "demonstration lenses"},
        signoff=SignOff(
            outcome=Outcome.RETURN,
            reason="The right axis is turned.",
            dispensed=Signature(person=OPTICIAN, at=MADE_AT),
        ),
    )


def findings() -> tuple[Finding, ...]:
    return (
        Finding(
            key="right.axis",
            prompt="right.distance",
            what="Axis",
            state=State.OUTSIDE,
            sentence="Axis 95° found, 90° ordered: 5° off, limit ±4°.",
            eye=Eye.RIGHT,
            ordered=Decimal(90),
            found=Decimal(95),
            difference=Decimal(5),
            limit=Decimal(4),
            unit="°",
            guard=Decimal(1),
            rule=AXIS_RULE,
        ),
        Finding(
            key="left.axis",
            prompt="left.distance",
            what="Axis",
            state=State.NONE,
            sentence="No cylinder is ordered, so there is no axis.",
            eye=Eye.LEFT,
        ),
        Finding(
            key="right.prism",
            prompt="right.prism",
            what="Prism",
            state=State.MISSING,
            sentence="The prism of the right lens is still to be read.",
            eye=Eye.RIGHT,
        ),
        Finding(
            key="pair.height",
            prompt="pair.height",
            what="Height",
            state=State.CLOSE,
            sentence="Height 20.2 mm found, 20.0 mm ordered: 0.2 mm, read it again.",
            eye=Eye.RIGHT,
            ordered=Decimal("20.0"),
            found=Decimal("20.25"),
            difference=Decimal("0.25"),
            unit="mm",
        ),
        Finding(
            key="bench.screws",
            prompt="bench.screws",
            what="Screws",
            state=State.WITHIN,
            sentence="Good by eye.",
        ),
    )


def job() -> Job:
    created = datetime(2026, 11, 20, 9, 0, tzinfo=UTC)
    earlier = Attempt(
        signoff=SignOff(
            outcome=Outcome.RETURN,
            reason="Lenses exchanged.",
            dispensed=Signature(person=OPTICIAN, at=created),
        )
    )
    return Job(number="FH-1", created=created, order=order(), attempts=(earlier, attempt()))


def record() -> Record:
    return make_record(job(), findings(), guide(), LIMITS, IMPRINT)
