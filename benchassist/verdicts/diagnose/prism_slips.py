"""Slips of ordered prism: base, direction, eye."""

from collections.abc import Callable
from dataclasses import replace

from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens, Pair
from benchassist.verdicts.diagnose.pair_slips import exchanged
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Prediction, Slip, on_either_or_both
from benchassist.verdicts.exact import ExactPrism


def _prism_slip(
    change: Callable[[ExactPrism], ExactPrism],
) -> Callable[[Sight, Eye], Lens | None]:
    def changed(sight: Sight, eye: Eye) -> Lens | None:
        lens = sight.wanted.eye(eye)
        return replace(lens, prism=change(lens.prism)) if lens.prism else None

    return changed


def _vertical_in_wrong_eye(sight: Sight) -> tuple[Prediction, ...]:
    right, left = sight.wanted.right, sight.wanted.left
    if right.prism is None or left.prism is None:
        return ()
    pair = Pair(
        replace(right, prism=replace(right.prism, base_up=left.prism.base_up)),
        replace(left, prism=replace(left.prism, base_up=right.prism.base_up)),
    )
    return (Prediction(pair),)


_BASES = "Which base directions does the prescription give, and how were they copied?"

PRISM_PAIR_SLIPS = (
    Slip(
        "prisms-changed-over",
        "prisms of right and left changed over",
        "pair",
        "Which lens lies on which side, and to which eye does each prism belong?",
        exchanged("prism"),
    ),
    Slip(
        "vertical-in-wrong-eye",
        "vertical prism in the wrong eye, its base kept",
        "pair",
        "To which eye does the vertical prism belong?",
        _vertical_in_wrong_eye,
    ),
)
"""Slips between the prisms of both lenses."""

PRISM_SLIPS = (
    Slip(
        "horizontal-reversed",
        "base of the horizontal prism reversed",
        "eye",
        _BASES,
        on_either_or_both(
            _prism_slip(lambda prism: replace(prism, base_in=-prism.base_in)),
        ),
    ),
    Slip(
        "vertical-reversed",
        "base of the vertical prism reversed",
        "eye",
        _BASES,
        on_either_or_both(
            _prism_slip(lambda prism: replace(prism, base_up=-prism.base_up)),
        ),
    ),
    Slip(
        "upside-down",
        "lens upside down, turned by half a turn",
        "eye",
        "Do the engravings, the segment or the shape stand on their head?",
        on_either_or_both(
            _prism_slip(lambda prism: ExactPrism(-prism.base_in, -prism.base_up)),
        ),
    ),
    Slip(
        "directions-exchanged",
        "horizontal and vertical prism entered in each other's place",
        "eye",
        _BASES,
        on_either_or_both(
            _prism_slip(lambda prism: ExactPrism(prism.base_up, prism.base_in)),
        ),
    ),
    Slip(
        "prism-left-out",
        "ordered prism left out",
        "eye",
        "Does the laboratory's paper state the prism?",
        on_either_or_both(_prism_slip(lambda _: ExactPrism())),
    ),
)
"""Slips of the prism of one lens or both alike."""
