"""For which jobs a prompt is asked, in which words and with which remedies."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from benchassist.guide.prompts import Prompt, Remedy, Variant
from benchassist.job.document import Job
from benchassist.job.order import (
    Design,
    EyeOrder,
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Rim,
    Treatment,
)
from benchassist.job.signoff import Outcome


@dataclass(frozen=True, slots=True)
class Condition:
    """A named condition on a job; `otherwise` says why a prompt is not asked without it."""

    name: str
    holds: Callable[[Job], bool]
    otherwise: str


def _either(job: Job, holds: Callable[[EyeOrder], bool]) -> bool:
    return holds(job.order.right) or holds(job.order.left)


def has_pads(frame: FrameOrder) -> bool:
    """Whether a frame has pads on arms and no moulded bridge, as far as its order tells."""
    moulded = {
        FrameMaterial.ACETATE,
        FrameMaterial.PROPIONATE,
        FrameMaterial.NYLON,
        FrameMaterial.EPOXY,
        FrameMaterial.CARBON,
    }
    return frame.rim is Rim.RIMLESS or frame.material not in moulded


def _is_darkened(job: Job) -> bool:
    dark = {Treatment.TINTED, Treatment.PHOTOCHROMIC, Treatment.POLARISED}
    return bool(job.order.tint) or not dark.isdisjoint(job.order.treatments)


def _is_coated(job: Job) -> bool:
    coats = {Treatment.HARD, Treatment.ANTI_REFLECTION}
    return not coats.isdisjoint(job.order.treatments)


def _has_height(job: Job) -> bool:
    design = job.order.design
    by_design = design is not None and (design.has_segment or design.varies)
    return by_design or _either(job, lambda eye: eye.height is not None)


def _has_near_pd(job: Job) -> bool:
    design = job.order.design
    by_design = design is not None and (design.has_segment or design is Design.DEGRESSIVE)
    return by_design or _either(job, lambda eye: eye.near_pd is not None)


def _is_for_near(job: Job) -> bool:
    design = job.order.design
    return design is Design.DEGRESSIVE or (design is not None and design.has_addition)


CONDITIONS = (
    Condition(
        "thickness",
        lambda job: _either(job, lambda eye: eye.centre_thickness is not None),
        "No centre thickness is ordered.",
    ),
    Condition(
        "base-curve",
        lambda job: _either(job, lambda eye: eye.base_curve is not None),
        "No base curve is ordered.",
    ),
    Condition("height", _has_height, "No height is ordered."),
    Condition("near-pd", _has_near_pd, "No near centration distance is ordered."),
    Condition(
        "segment-width",
        lambda job: job.order.segment_width is not None,
        "No segment width is ordered.",
    ),
    Condition(
        "segment-depth",
        lambda job: job.order.segment_depth is not None,
        "No segment depth is ordered.",
    ),
    Condition(
        "near-vision",
        _is_for_near,
        "The lenses have no near portion to be tried separately.",
    ),
    Condition(
        "pads", lambda job: has_pads(job.order.frame), "A moulded bridge has no pads on arms."
    ),
    Condition("dark", _is_darkened, "The lenses are clear."),
    Condition("coated", _is_coated, "No coating is ordered."),
    Condition(
        "shatters",
        lambda job: job.order.material is LensMaterial.GLASS,
        "The lenses are not of glass.",
    ),
    Condition(
        "to-countersign",
        lambda job: job.now.signoff.outcome is not Outcome.HOLD,
        "A pair on hold is not countersigned.",
    ),
)
"""Every condition that an entry of the guide may name."""


def condition(name: str) -> Condition:
    """The condition of that name.

    Raises:
        KeyError: no such condition.
    """
    for known in CONDITIONS:
        if known.name == name:
            return known
    raise KeyError(name)


def why_not(prompt: Prompt, job: Job) -> str | None:
    """Why this prompt is not asked for this job, in one sentence; None when it is asked.

    While the design is unknown, prompts that only some designs need are not asked; while the
    mounting is unknown, those for every mounting are.
    """
    applies, order = prompt.applies, job.order
    if applies.designs and order.design is None:
        return "The lens design is not known yet."
    if applies.designs and order.design not in applies.designs:
        return applies.otherwise
    if applies.rims and order.frame.rim is not None and order.frame.rim not in applies.rims:
        return applies.otherwise
    for need in map(condition, applies.needs):
        if not need.holds(job):
            return applies.otherwise or need.otherwise
    return None


def for_job(prompt: Prompt, job: Job) -> Prompt:
    """The prompt as this job asks it: in the words for its lenses, with remedies for its frame.

    While the frame material or the mounting is unknown, the remedies for all of them stay.
    """
    worded = _in_words_for(prompt, job)
    remedies = tuple(remedy for remedy in prompt.remedies if _suits(remedy, job.order.frame))
    return replace(worded, remedies=remedies)


def _in_words_for(prompt: Prompt, job: Job) -> Prompt:
    for variant in prompt.variants:
        if _fits(variant, job):
            return replace(
                prompt,
                title=variant.title or prompt.title,
                ask=variant.ask or prompt.ask,
                how=variant.how or prompt.how,
                why=variant.why or prompt.why,
                fault=variant.fault or prompt.fault,
                caution=variant.caution or prompt.caution,
            )
    return prompt


def _fits(variant: Variant, job: Job) -> bool:
    order = job.order
    return (not variant.designs or order.design in variant.designs) and (
        not variant.rims or order.frame.rim in variant.rims
    )


def _suits(remedy: Remedy, frame: FrameOrder) -> bool:
    by_material = (
        not remedy.materials or frame.material is None or frame.material in remedy.materials
    )
    by_rim = not remedy.rims or frame.rim is None or frame.rim in remedy.rims
    return by_material and by_rim
