"""Lenses right in themselves and compared with another power: vertex, as worn, other side."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from decimal import Decimal

from benchassist.geometry import usual
from benchassist.optics.eye import Eye
from benchassist.optics.vertex import replaced_at
from benchassist.verdicts.as_worn import as_worn_power
from benchassist.verdicts.case import BY_MAKER
from benchassist.verdicts.diagnose.lens import Lens, power_of, to_thousandth
from benchassist.verdicts.diagnose.pair_slips import mirrored, with_sphere
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Slip, on_each_lens
from benchassist.verdicts.exact import ZERO, written_prism
from benchassist.verdicts.form import lens_form
from benchassist.verdicts.words import millimetres

_SEEN = Decimal("0.06")
"""From so many dioptres a lens from the front shows another power; half a step of 0.12 D."""


def _near_power(sign: int) -> Callable[[Sight, Eye], Iterable[tuple[Lens, str]]]:
    def change(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
        wanted = sight.wanted.eye(eye)
        if wanted.add:
            yield with_sphere(wanted, sign * wanted.add), ""

    return change


def _moved(sight: Sight, eye: Eye, *, back: bool) -> Iterable[tuple[Lens, str]]:
    """The lens moved from the vertex distance of the refraction to that worn, or back."""
    wanted, refracted = sight.wanted.eye(eye), sight.case.order.vertex_distance
    if wanted.power is None or refracted is None:
        return
    answer = sight.case.now.fit.answers.get("vertex")
    measured = answer.measured.get(eye) if answer else None
    worn = Decimal(usual.VERTEX) if measured is None else measured
    ends = (float(worn), float(refracted)) if back else (float(refracted), float(worn))
    try:
        moved = power_of(replaced_at(wanted.power.power(), *ends))
    except ValueError:
        return
    known = "as measured" if measured is not None else "as is usual"
    places = f"{millimetres(refracted)} refracted, {millimetres(worn)} worn {known}"
    yield replace(wanted, power=moved), places


def _vertex_kept(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    return _moved(sight, eye, back=True)


def _vertex_twice(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    return _moved(sight, eye, back=False)


def _as_ordered(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    case, wanted = sight.case, sight.wanted.eye(eye)
    if case.power_to_find(eye)[1] != BY_MAKER:
        return
    ordered = case.ordered(eye)
    prism = written_prism(ordered.prism, eye)
    yield (
        replace(wanted, power=case.ordered_power(eye), add=ordered.add, prism=prism),
        "",
    )


def _as_worn(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    wanted = sight.wanted.eye(eye)
    worn = as_worn_power(sight.case, eye)
    if worn is not None and sight.case.power_to_find(eye)[1] != BY_MAKER:
        yield replace(wanted, power=power_of(worn)), ""


def _from_front(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    wanted, form = sight.wanted.eye(eye), lens_form(sight.case.order, eye)
    if wanted.power is None or form is None:
        return
    shown = form.lens.front_vertex_power - form.lens.back_vertex_power
    change = to_thousandth(Decimal(shown))
    matters = abs(change) >= _SEEN
    turned_over = replace(wanted, power=mirrored(wanted.power))
    detail = f"reckoned for {form.words}" if matters else ""
    yield with_sphere(turned_over, change if matters else ZERO), detail


WORN_SLIPS = (
    Slip(
        "from-front",
        "lens read from the front, or mounted inside out",
        "eye",
        "Does the convex side look away from the wearer, and lay the back surface on the stop?",
        on_each_lens(_from_front),
    ),
    Slip(
        "near-for-distance",
        "near power made for distance: the addition added",
        "eye",
        "Is the pair for distance or for near, and which did the laboratory understand?",
        on_each_lens(_near_power(1)),
    ),
    Slip(
        "distance-for-near",
        "distance power made for near: the addition taken off",
        "eye",
        "Is the pair for distance or for near, and which did the laboratory understand?",
        on_each_lens(_near_power(-1)),
    ),
    Slip(
        "as-ordered",
        "made to the order, without the compensation that the maker states",
        "eye",
        "Is the maker's verification power the one for this lens, and was it made to it?",
        on_each_lens(_as_ordered),
    ),
    Slip(
        "as-worn",
        "compensated as worn, and the maker's verification power not entered",
        "eye",
        "Does the laboratory's paper state another power to be found at the meter?",
        on_each_lens(_as_worn),
    ),
    Slip(
        "vertex-kept",
        "vertex distance not compensated",
        "eye",
        "For which vertex distance is the ordered power meant?",
        on_each_lens(_vertex_kept),
    ),
    Slip(
        "vertex-twice",
        "vertex distance compensated once too often",
        "eye",
        "For which vertex distance is the ordered power meant?",
        on_each_lens(_vertex_twice),
    ),
)
"""Powers that belong to another comparison."""
