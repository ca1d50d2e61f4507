"""A slip's pair as jobs that can be judged: read against it, and itself read."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from benchassist.job.checks import HandWork
from benchassist.job.document import Attempt, Job
from benchassist.job.order import (
    ComponentPrism,
    EyeOrder,
    Order,
    Verification,
    WrittenPower,
)
from benchassist.job.readings import (
    AddReading,
    DisplayAdd,
    DisplayReading,
    EyeLayout,
    LensReadings,
    PairReadings,
    PrismReading,
)
from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens, Pair, Quantity, to_thousandth
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.exact import ExactPrism, MinusForm
from benchassist.verdicts.near import counted, proposal

Change = tuple[Eye, Quantity, MinusForm | ExactPrism | Decimal]
"""One value that a slip changes and that was read."""

_PLACES: tuple[Quantity, ...] = ("pd", "near_pd", "height")


def as_read(sight: Sight, pair: Pair, changes: Iterable[Change]) -> Job:
    """The readings on an order for the predicted pair, as far as the slip speaks of them.

    What no order states is corrected in the reading instead: the engraving, and the place of
    the fitting cross before the pupil.
    """
    job, now = sight.case.job, sight.case.now
    touched = _touched(changes)
    lenses: dict[str, EyeOrder] = {}
    parts: dict[str, LensReadings] = {}
    heights: dict[str, Decimal | None] = {}
    for eye in Eye:
        found, predicted = sight.found.eye(eye), pair.eye(eye)
        wanted, read = sight.wanted.eye(eye), now.eye(eye)
        lenses[eye] = _ordered(sight.case.ordered(eye), predicted)
        parts[eye] = LensReadings(
            distance=read.distance if (eye, "power") in touched else (),
            near=_counted_adds(job.order, eye, read.near) if (eye, "add") in touched else (),
            prism=read.prism if _speaks_of(touched, "prism") else (),
            engraved_add=_without(found.engraved, predicted.engraved, wanted.engraved),
        )
        heights[eye] = _without(found.cross_up, predicted.cross_up, wanted.cross_up)
    attempt = Attempt(
        **parts,
        pair=now.pair if _speaks_of(touched, *_PLACES) else PairReadings(),
        fit=_seat(now, heights),
        instruments=now.instruments,
    )
    return job.with_(order=job.order.with_(**lenses), attempts=(attempt,))


def as_predicted(sight: Sight, pair: Pair, changes: Iterable[Change]) -> Job:
    """The predicted pair as it would be read, on the order as it is."""
    job, now, touched = sight.case.job, sight.case.now, _touched(changes)
    parts: dict[str, LensReadings] = {}
    layouts: dict[str, EyeLayout] = {}
    heights: dict[str, Decimal | None] = {}
    for eye in Eye:
        found, lens = sight.found.eye(eye), pair.eye(eye)
        shows_prism = found.prism is not None and _speaks_of(touched, "prism")
        parts[eye] = LensReadings(
            distance=_display(lens.power) if (eye, "power") in touched else (),
            near=_shown_add(job.order, eye, lens.add) if (eye, "add") in touched else (),
            prism=_shown_prism(lens.prism) if shows_prism else (),
            engraved_add=lens.engraved if (eye, "engraved") in touched else None,
        )
        layouts[eye] = EyeLayout(
            distance_pd=_once(lens.pd) if found.pd is not None else (),
            near_pd=_once(lens.near_pd) if found.near_pd is not None else (),
            height=_once(lens.height) if found.height is not None else (),
        )
        heights[eye] = lens.cross_up
    attempt = Attempt(
        **parts,
        pair=PairReadings(**layouts) if _speaks_of(touched, *_PLACES) else PairReadings(),
        fit=_seat(now, heights),
    )
    return job.with_(attempts=(attempt,))


def _touched(changes: Iterable[Change]) -> frozenset[tuple[Eye, Quantity]]:
    return frozenset((eye, quantity) for eye, quantity, _ in changes)


def _speaks_of(touched: frozenset[tuple[Eye, Quantity]], *quantities: Quantity) -> bool:
    return any(quantity in quantities for _, quantity in touched)


def _ordered(order: EyeOrder, lens: Lens) -> EyeOrder:
    """The order of one eye for another lens, which is what its meter must show."""
    power = lens.power
    shown = Verification(
        power=WrittenPower(sphere=power.sphere, cylinder=power.cylinder, axis=power.axis)
        if power
        else WrittenPower(),
        add=lens.add,
        prism=_components(lens.prism) if lens.prism else None,
    )
    return order.with_(
        verification=shown, distance_pd=lens.pd, near_pd=lens.near_pd, height=lens.height
    )


def _without(
    found: Decimal | None, predicted: Decimal | None, wanted: Decimal | None
) -> Decimal | None:
    """A value found, less what a slip did to it."""
    if found is None or predicted is None or wanted is None:
        return found
    return found - predicted + wanted


def _seat(now: Attempt, heights: Mapping[str, Decimal | None]) -> HandWork:
    """The answer on the fitting crosses with other heights; none where none was given."""
    cross = now.fit.answers.get("cross")
    if cross is None or None in heights.values():
        return HandWork()
    higher = {f"{eye}_up": height for eye, height in heights.items()}
    measured = {**cross.measured, **higher}
    return HandWork.model_validate({"answers": {"cross": {"measured": measured}}})


def _once(value: Decimal | None) -> tuple[Decimal, ...]:
    return () if value is None else (value,)


def _components(prism: ExactPrism) -> ComponentPrism:
    base_in, base_up = to_thousandth(prism.base_in), to_thousandth(prism.base_up)
    return ComponentPrism(base_in=base_in, base_up=base_up)


def _display(power: MinusForm | None) -> tuple[DisplayReading, ...]:
    if power is None:
        return ()
    return (DisplayReading(sphere=power.sphere, cylinder=power.cylinder, axis=power.axis),)


def _counted_adds(
    order: Order, eye: Eye, readings: tuple[AddReading, ...]
) -> tuple[AddReading, ...]:
    """The readings that are judged, as if taken on the surface that is proposed.

    Whether the lens must be turned first was asked of the readings themselves.
    """
    proposed = proposal(order, eye)
    judged = counted(readings, proposed)
    return tuple(reading.with_(surface=proposed.surface) for reading in judged)


def _shown_add(order: Order, eye: Eye, add: Decimal | None) -> tuple[DisplayAdd, ...]:
    if add is None:
        return ()
    return (DisplayAdd(surface=proposal(order, eye).surface, shown=add),)


def _shown_prism(prism: ExactPrism | None) -> tuple[PrismReading, ...]:
    return () if prism is None else (PrismReading(prism=_components(prism)),)
