"""Slips of the addition: how it was typed, where and on which surface it was read."""

from collections.abc import Iterable
from dataclasses import replace

from benchassist.job.order import Design, Surface
from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens, to_thousandth
from benchassist.verdicts.diagnose.pair_slips import with_sphere
from benchassist.verdicts.diagnose.power_slips import forms_of
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Slip, on_each_lens
from benchassist.verdicts.near import counted, proposal
from benchassist.verdicts.words import dioptres

_OTHER = {Surface.BACK: Surface.FRONT, Surface.FRONT: Surface.BACK}


def _near_total(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    wanted = sight.wanted.eye(eye)
    if wanted.power is None or wanted.add is None:
        return
    for written, form in forms_of(wanted.power):
        total = written.sphere + wanted.add
        if total >= 0:
            yield replace(wanted, add=total), form if wanted.power.cylinder else ""


def _wrong_surface(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    """The addition as it shows when the other surface carries it than lay on the stop."""
    order, wanted = sight.case.order, sight.wanted.eye(eye)
    readings = counted(sight.case.now.eye(eye).near, proposal(order, eye))
    if not readings or wanted.add is None:
        return
    on_stop = readings[0].surface
    if order.addition_surface is on_stop:
        return
    carried = order.with_(addition_surface=_OTHER[on_stop])
    shown = proposal(carried, eye).difference
    if shown is not None:
        detail = f"{on_stop.value} on the stop, worth {dioptres(shown)}"
        yield replace(wanted, add=wanted.add + shown), detail


def _low_in_corridor(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    wanted, found = sight.wanted.eye(eye), sight.found.eye(eye)
    if sight.case.design is not Design.PROGRESSIVE:
        return
    if wanted.power is None or found.power is None or wanted.add is None or found.add is None:
        return
    gained = (found.power.along + found.power.across) / 2
    gained = to_thousandth(gained - (wanted.power.along + wanted.power.across) / 2)
    if 0 < gained <= wanted.add:
        low = with_sphere(wanted, gained)
        yield replace(low, add=wanted.add - gained), f"by about {dioptres(gained)}"


def _beside_near_zone(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    wanted, found = sight.wanted.eye(eye), sight.found.eye(eye)
    if sight.case.design is not Design.PROGRESSIVE or not sight.is_sound("power", eye):
        return
    if wanted.add is not None and found.add is not None and 0 < found.add < wanted.add:
        yield replace(wanted, add=to_thousandth(found.add)), ""


def _other_lens(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    engraved = sight.found.eye(eye).engraved
    if engraved is not None and engraved >= 0:
        yield replace(sight.wanted.eye(eye), add=engraved, engraved=engraved), ""


def _engraving(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    engraved = sight.found.eye(eye).engraved
    if engraved is not None and sight.is_sound("add", eye):
        yield replace(sight.wanted.eye(eye), engraved=engraved), ""


NEAR_SLIPS = (
    Slip(
        "near-total",
        "near total entered as the addition",
        "eye",
        "Does the prescription give the addition or the whole near power?",
        on_each_lens(_near_total),
    ),
    Slip(
        "wrong-surface",
        "addition read on the surface that does not carry it",
        "eye",
        "What does the other surface show, with both readings taken on it?",
        on_each_lens(_wrong_surface),
    ),
    Slip(
        "low-in-corridor",
        "distance read too low, in the corridor",
        "eye",
        "What shows at the marked distance reference point?",
        on_each_lens(_low_in_corridor),
    ),
    Slip(
        "beside-near-zone",
        "near read too high or beside the near zone",
        "eye",
        "What shows at the marked near reference point, with the same surface on the stop?",
        on_each_lens(_beside_near_zone),
    ),
    Slip(
        "other-lens",
        "a lens of the addition that its engraving names",
        "eye",
        "Which lens do the engraving and the laboratory's envelope name?",
        on_each_lens(_other_lens),
    ),
    Slip(
        "engraving",
        "wrong engraving, or its code misread",
        "eye",
        "What does this code stand for? The laboratory knows whether it is rounded.",
        on_each_lens(_engraving),
    ),
)
"""Slips of the addition and its engraving."""
