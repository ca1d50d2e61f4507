"""Which prompts a job asks: lists written by hand, and the reasons for the rest."""

from dataclasses import replace
from decimal import Decimal

import pytest

from benchassist.guide.conditions import condition, why_not
from benchassist.guide.flow import not_asked, steps_for
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Applies, StepId
from benchassist.job.document import Job
from benchassist.job.order import Design, FrameMaterial, Rim, Treatment
from benchassist.job.signoff import Outcome, SignOff
from tests.guide.jobs import FRAME, eye_order, job_for

LENS = {
    Design.SINGLE_VISION: "distance prism horizontal",
    Design.BIFOCAL: "distance near prism horizontal",
    Design.TRIFOCAL: "distance near intermediate prism horizontal",
    Design.PROGRESSIVE: "distance near prism engraved-add marks horizontal",
    Design.DEGRESSIVE: "distance prism marks horizontal",
    None: "distance prism horizontal",
}
PAIR = {
    Design.SINGLE_VISION: "distance-pd",
    Design.BIFOCAL: "distance-pd near-pd height tilt",
    Design.TRIFOCAL: "distance-pd near-pd height tilt",
    Design.PROGRESSIVE: "distance-pd height tilt",
    Design.DEGRESSIVE: "distance-pd near-pd height tilt",
    None: "distance-pd",
}
BENCH = (
    "identify screws seating rotation skew x-ing planes face-form four-point pads open-angle "
    "pantoscopic table-inverted shafts table-upright temple-bend fold last-look"
)
SURFACE = "scratches waves match thickness gaps edge strain impact"
FIT = (
    "bridge temples vertex level cross tilt face-form behind-ear slipping distance-vision "
    "near-vision comfort"
)
MOVING = "stairs driving adaptation care care-material red-flags to-prescriber follow-up worn"
HANDOVER = {
    Design.SINGLE_VISION: f"made-for zone-clear {MOVING}",
    Design.BIFOCAL: f"zone-far zone-near zone-line {MOVING}",
    Design.TRIFOCAL: f"zone-far zone-between zone-near zone-line {MOVING}",
    Design.PROGRESSIVE: f"zone-far zone-between zone-near zone-sideways {MOVING}",
    Design.DEGRESSIVE: f"zone-far zone-between zone-near zone-sideways {MOVING}",
    None: MOVING,
}


def names(job: Job, guide: Guide, step: StepId) -> str:
    steps = {item.id: item for item in steps_for(job, guide)}
    return " ".join(prompt.name for prompt in steps[step].prompts)


def plain(design: Design | None) -> Job:
    without = eye_order(height=None)
    return job_for(design, right=without, left=without)


@pytest.mark.parametrize("design", [*Design, None])
def test_prompts_by_design(guide: Guide, design: Design | None) -> None:
    job = plain(design)
    assert names(job, guide, StepId.ORDER) == "wearer-and-lenses right left frame"
    assert names(job, guide, StepId.RIGHT) == LENS[design]
    assert names(job, guide, StepId.LEFT) == LENS[design]
    assert names(job, guide, StepId.PAIR) == PAIR[design]
    assert names(job, guide, StepId.SURFACE) == SURFACE
    assert names(job, guide, StepId.BENCH) == BENCH
    assert names(job, guide, StepId.HANDOVER) == HANDOVER[design]
    assert names(job, guide, StepId.RECORD) == "outcome countersign"
    has_near = design not in {Design.SINGLE_VISION, None}
    assert names(job, guide, StepId.FIT) == (
        FIT if has_near else FIT.replace(" near-vision", "")
    )


@pytest.mark.parametrize(
    ("changes", "step", "added"),
    [
        ({"right": eye_order(height=None, near_pd=Decimal(29))}, StepId.PAIR, "near-pd"),
        ({"left": eye_order()}, StepId.PAIR, "height"),
        (
            {"left": eye_order(height=None, centre_thickness=Decimal(2))},
            StepId.PAIR,
            "thickness",
        ),
        ({"right": eye_order(height=None, base_curve=Decimal(4))}, StepId.PAIR, "base-curve"),
        ({"treatments": (Treatment.HARD,)}, StepId.SURFACE, "coating"),
        ({"treatments": (Treatment.HARD,)}, StepId.HANDOVER, "coatings"),
        ({"tint": "brown 75 %"}, StepId.HANDOVER, "tint"),
        ({"treatments": (Treatment.POLARISED,)}, StepId.HANDOVER, "tint"),
        ({"material": "glass"}, StepId.SURFACE, "glass"),
        ({"material": "glass"}, StepId.HANDOVER, "glass-care"),
    ],
)
def test_what_is_ordered_is_asked(
    guide: Guide, changes: dict[str, object], step: StepId, added: str
) -> None:
    bare = plain(Design.SINGLE_VISION)
    fuller = bare.with_(order=bare.order.with_(**changes))
    before = names(bare, guide, step).split()
    after = names(fuller, guide, step).split()
    assert set(after) - set(before) == {added}
    assert set(before) <= set(after)


def test_segment_size_is_asked_of_multifocals_only(guide: Guide) -> None:
    size = {"segment_width": Decimal(28), "segment_depth": Decimal(19)}
    bifocal = names(job_for(Design.BIFOCAL, **size), guide, StepId.PAIR)
    assert bifocal.endswith("segment-width segment-depth")
    assert "segment" not in names(job_for(Design.PROGRESSIVE, **size), guide, StepId.PAIR)


@pytest.mark.parametrize(
    ("material", "rim", "has_pads"),
    [
        (FrameMaterial.METAL, Rim.FULL, True),
        (FrameMaterial.TITANIUM, Rim.HALF, True),
        (FrameMaterial.ACETATE, Rim.FULL, False),
        (FrameMaterial.CARBON, Rim.FULL, False),
        (FrameMaterial.ACETATE, Rim.RIMLESS, True),
        (None, None, True),
    ],
)
def test_pads_are_asked_where_there_may_be_some(
    guide: Guide, material: FrameMaterial | None, rim: Rim | None, *, has_pads: bool
) -> None:
    job = job_for(Design.BIFOCAL, frame=FRAME.with_(material=material, rim=rim))
    assert ("pads" in names(job, guide, StepId.BENCH).split()) == has_pads


def test_a_pair_on_hold_is_not_countersigned(guide: Guide) -> None:
    job = job_for(Design.BIFOCAL)
    held = job.with_now(job.now.with_(signoff=SignOff(outcome=Outcome.HOLD)))
    assert names(held, guide, StepId.RECORD) == "outcome"
    reasons = {prompt.id: reason for prompt, reason in not_asked(held, guide)}
    assert reasons["record.countersign"] == "A pair on hold is not countersigned."


@pytest.mark.parametrize("design", [*Design, None])
def test_each_prompt_is_asked_or_says_why_not(guide: Guide, design: Design | None) -> None:
    job = plain(design)
    asked = {prompt.id for step in steps_for(job, guide) for prompt in step.prompts}
    left_out = {prompt.id: reason for prompt, reason in not_asked(job, guide)}
    assert asked.isdisjoint(left_out)
    assert asked | left_out.keys() == {prompt.id for prompt in guide.prompts}
    assert all(reason.endswith(".") for reason in left_out.values())


def test_reasons_in_words(guide: Guide) -> None:
    single = {
        prompt.id: reason for prompt, reason in not_asked(plain(Design.SINGLE_VISION), guide)
    }
    assert single["right.near"] == "This lens has no near addition to read."
    assert single["pair.thickness"] == "No centre thickness is ordered."
    unknown = {prompt.id: reason for prompt, reason in not_asked(plain(None), guide)}
    assert unknown["left.near"] == "The lens design is not known yet."


@pytest.mark.parametrize(
    ("design", "prompt", "words"),
    [
        (Design.SINGLE_VISION, "pair.height", "optical centre"),
        (Design.BIFOCAL, "pair.height", "top of each segment"),
        (Design.TRIFOCAL, "fit.cross", "each segment"),
        (Design.PROGRESSIVE, "pair.height", "fitting cross"),
        (Design.DEGRESSIVE, "pair.distance-pd", "fitting cross"),
        (Design.BIFOCAL, "pair.near-pd", "middle of each segment"),
        (Design.PROGRESSIVE, "right.distance", "distance circle"),
        (Design.DEGRESSIVE, "left.distance", "left lens at its primary reference point"),
        (Design.DEGRESSIVE, "handover.driving", "not to drive"),
        (None, "pair.height", "ordered point"),
    ],
)
def test_words_follow_the_design(
    guide: Guide, design: Design | None, prompt: str, words: str
) -> None:
    job = job_for(design)
    asked = {item.id: item for step in steps_for(job, guide) for item in step.prompts}
    assert words in asked[prompt].ask


@pytest.mark.parametrize(
    ("rim", "seating", "gaps"),
    [
        (Rim.FULL, "turns or gives in its rim", "each rim"),
        (Rim.HALF, "shifts in its cord", "cord"),
        (Rim.RIMLESS, "whether the mounts move", "every mount"),
        (None, "turns or gives in its rim", "each rim"),
    ],
)
def test_words_follow_the_mounting(
    guide: Guide, rim: Rim | None, seating: str, gaps: str
) -> None:
    job = job_for(Design.BIFOCAL, frame=FRAME.with_(rim=rim))
    asked = {item.id: item for step in steps_for(job, guide) for item in step.prompts}
    assert seating in asked["bench.seating"].ask
    assert gaps in asked["surface.gaps"].ask


@pytest.mark.parametrize(
    ("material", "rim", "remedies"),
    [
        (FrameMaterial.METAL, Rim.FULL, "tighten-rim reform-rim"),
        (FrameMaterial.ACETATE, Rim.FULL, "warm-rim"),
        (FrameMaterial.TITANIUM, Rim.RIMLESS, "tighten-mount"),
        (FrameMaterial.CARBON, Rim.FULL, ""),
        (None, Rim.FULL, "tighten-rim reform-rim warm-rim"),
        (None, None, "tighten-rim reform-rim warm-rim tighten-mount"),
    ],
)
def test_remedies_follow_the_frame(
    guide: Guide, material: FrameMaterial | None, rim: Rim | None, remedies: str
) -> None:
    job = job_for(Design.BIFOCAL, frame=FRAME.with_(material=material, rim=rim))
    asked = {item.id: item for step in steps_for(job, guide) for item in step.prompts}
    assert " ".join(item.id for item in asked["bench.seating"].remedies) == remedies


@pytest.mark.parametrize(
    ("rim", "reason"),
    [(Rim.FULL, "Only a cord needs it."), (Rim.HALF, None), (None, None)],
)
def test_a_prompt_may_be_for_one_mounting(
    guide: Guide, rim: Rim | None, reason: str | None
) -> None:
    applies = Applies(rims=(Rim.HALF,), otherwise="Only a cord needs it.")
    prompt = replace(guide.prompt("bench.seating"), applies=applies)
    job = job_for(Design.BIFOCAL, frame=FRAME.with_(rim=rim))
    assert why_not(prompt, job) == reason


def test_an_unknown_condition_is_our_fault() -> None:
    assert condition("dark").name == "dark"
    with pytest.raises(KeyError, match="luck"):
        condition("luck")
