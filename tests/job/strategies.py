"""Jobs of every shape, for tests that must hold for all of them."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import TypeVar

from hypothesis import strategies as st

from benchassist.job.acuity import Acuity, LineRead
from benchassist.job.base import Frozen
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
    PolarPrism,
    Rim,
    Surface,
    Treatment,
    Verification,
    WrittenPower,
)
from benchassist.job.readings import (
    DisplayAdd,
    DisplayReading,
    DrumAdd,
    DrumReading,
    EyeLayout,
    LensReadings,
    PairReadings,
    PrismReading,
)
from benchassist.job.signoff import Ask, Outcome, Person, Role, Signature, SignOff
from benchassist.job.surface import Defect, DefectKind, DefectSurface, Inspection
from benchassist.optics.eye import Eye

Part = TypeVar("Part")


def decimals(low: str, high: str, places: int) -> st.SearchStrategy[Decimal]:
    """Exact decimals within [low, high], written with up to so many places."""
    return st.integers(0, places).flatmap(
        lambda number: st.decimals(Decimal(low), Decimal(high), places=number)
    )


def maybe(part: st.SearchStrategy[Part]) -> st.SearchStrategy[Part | None]:
    """The part, or nothing."""
    return st.none() | part


def few(part: st.SearchStrategy[Part]) -> st.SearchStrategy[tuple[Part, ...]]:
    """None, one, two or three of them."""
    return st.lists(part, max_size=3).map(tuple)


texts = st.text(max_size=8)
names = st.text("abc.\\-0 é", max_size=6)
"""Keys of maps, with what a path must write with care."""
dioptres = decimals("-40", "40", 3)
axes = decimals("0.1", "180", 1).filter(bool)
millimetres = decimals("0", "200", 2)
angles = decimals("-180", "180", 2)
additions = decimals("0", "10", 3)
surfaces = st.sampled_from(Surface)
moments = st.datetimes(
    datetime(2020, 1, 1),  # noqa: DTZ001 - hypothesis adds the zone itself
    datetime(2040, 1, 1),  # noqa: DTZ001 - hypothesis adds the zone itself
    timezones=st.just(UTC),
)

powers = st.builds(
    WrittenPower,
    sphere=maybe(dioptres),
    cylinder=maybe(decimals("-20", "20", 3)),
    axis=maybe(axes),
)
prisms = st.builds(ComponentPrism, base_in=dioptres, base_up=dioptres) | st.builds(
    PolarPrism, amount=decimals("0", "40", 3), base=decimals("0", "359.9", 1)
)
eye_orders = st.builds(
    EyeOrder,
    power=powers,
    add=maybe(additions),
    prism=maybe(prisms),
    distance_pd=maybe(millimetres),
    height=maybe(millimetres),
    verification=maybe(
        st.builds(Verification, power=powers, add=maybe(additions), prism=maybe(prisms))
    ),
)
frame_orders = st.builds(
    FrameOrder,
    name=texts,
    a=maybe(millimetres),
    dbl=maybe(millimetres),
    tilt=maybe(angles),
    material=maybe(st.sampled_from(FrameMaterial)),
    rim=maybe(st.sampled_from(Rim)),
)
orders = st.builds(
    Order,
    language=st.sampled_from(("", "de")),
    wearer=texts,
    design=maybe(st.sampled_from(Design)),
    material=maybe(st.sampled_from(LensMaterial)),
    index=maybe(decimals("1.3", "2.1", 4)),
    treatments=few(st.sampled_from(Treatment)),
    right=eye_orders,
    left=eye_orders,
    frame=frame_orders,
    remark=texts,
    confirmed=few(texts),
)
power_readings = st.builds(
    DrumReading,
    sphere_lines=maybe(dioptres),
    cylinder_lines=maybe(dioptres),
    axis_wheel=maybe(axes),
    meter=texts,
) | st.builds(DisplayReading, sphere=maybe(dioptres), axis=maybe(axes))
add_readings = st.builds(
    DrumAdd, surface=surfaces, distance_lines=maybe(dioptres), near_lines=maybe(dioptres)
) | st.builds(DisplayAdd, surface=surfaces, shown=maybe(decimals("-10", "10", 3)))
lines_read = st.builds(LineRead, read=texts, expected=texts)
acuities = st.builds(
    Acuity,
    card=texts,
    distance=maybe(decimals("5", "1000", 1)),
    right=lines_read,
    both=lines_read,
)
answers = st.builds(
    Answer,
    acuity=maybe(acuities),
    seen=maybe(st.sampled_from(Seen)),
    measured=st.dictionaries(names, decimals("-1000", "1000", 3), max_size=3),
    choice=texts,
    remark=texts,
    again_because=few(texts),
)
answer_maps = st.dictionaries(names, answers, max_size=3)
checks = st.builds(Checks, answers=answer_maps)
places = decimals("-40", "40", 1)
inspections = st.builds(
    Inspection,
    answers=answer_maps,
    defects=few(
        st.builds(
            Defect,
            check=st.sampled_from(("scratches", "edge")),
            eye=st.sampled_from(Eye),
            across=places,
            up=places,
            kind=st.sampled_from(DefectKind),
            surface=st.sampled_from(DefectSurface),
            size=maybe(millimetres),
            remark=texts,
        )
    ),
)
hand_work = st.builds(
    HandWork,
    answers=answer_maps,
    corrections=few(
        st.builds(
            Correction,
            check=texts,
            action=texts,
            tool=texts,
            side=maybe(st.sampled_from(Eye)),
            amount=maybe(decimals("0", "90", 1)),
            measured=st.dictionaries(names, decimals("-1000", "1000", 3), max_size=2),
            rereads=few(texts),
        )
    ),
)
lens_readings = st.builds(
    LensReadings,
    distance=few(power_readings),
    near=few(add_readings),
    prism=few(st.builds(PrismReading, prism=prisms, meter=texts)),
    engraved_add=maybe(decimals("-10", "10", 3)),
    answers=answer_maps,
)
layouts = st.builds(
    EyeLayout, distance_pd=few(millimetres), height=few(millimetres), tilt=few(angles)
)


def signatures(names: str, *roles: Role) -> st.SearchStrategy[Signature]:
    """Signatures of persons in these roles whose names are made of these letters."""
    persons = st.builds(
        Person, name=st.text(names, min_size=1, max_size=4), role=st.sampled_from(roles)
    )
    return st.builds(Signature, person=persons, at=moments, remark=texts)


def sign_offs_of(outcome: Outcome | None) -> st.SearchStrategy[SignOff]:
    """Attempts ended with this outcome, in every way that holds together."""
    unsigned = st.builds(
        SignOff,
        outcome=st.just(outcome),
        reason=texts,
        asks=few(st.sampled_from(Ask)).map(lambda asked: tuple(dict.fromkeys(asked))),
        prepared=maybe(signatures("aé", *Role)),
        sent_back=maybe(signatures("bö", Role.OPTICIAN, Role.SUPERVISOR)),
    )
    if outcome is None:
        return unsigned
    dispensed = signatures("cø", Role.OPTICIAN, Role.SUPERVISOR)
    countersigned = maybe(signatures("dé", Role.SUPERVISOR))
    if outcome is Outcome.HOLD:
        countersigned = st.none()
    signed = st.builds(
        lambda signoff, first, second: signoff.with_(
            reason=f"because {signoff.reason}", dispensed=first, countersigned=second
        ),
        unsigned,
        dispensed,
        countersigned,
    )
    return unsigned | signed


sign_offs = maybe(st.sampled_from(Outcome)).flatmap(sign_offs_of)


def attempts(
    signing: st.SearchStrategy[SignOff] = sign_offs,
) -> st.SearchStrategy[Attempt]:
    """Attempts with any readings, ended in one of these ways."""
    return st.builds(
        Attempt,
        right=lens_readings,
        left=lens_readings,
        pair=st.builds(PairReadings, right=layouts, left=layouts, distance_pd=few(millimetres)),
        surface=inspections,
        bench=hand_work,
        fit=hand_work,
        handover=checks,
        signoff=signing,
        skipped=st.dictionaries(names, texts, max_size=2),
    )


numbers = st.from_regex(r"[0-9A-Z][0-9A-Z/-]{0,9}", fullmatch=True)
jobs = st.builds(
    Job,
    number=numbers,
    created=moments,
    order=orders,
    attempts=st.lists(attempts(), min_size=1, max_size=2).map(tuple),
)
"""Jobs of every shape, signed or not, with one or two attempts."""

unsigned_jobs = st.builds(
    Job,
    number=st.just("A-17"),
    created=st.just(datetime(2026, 3, 2, 9, 0, tzinfo=UTC)),
    order=orders,
    attempts=attempts(st.just(SignOff())).map(lambda attempt: (attempt,)),
)
"""The same job in different stages of being filled in, never signed."""


def is_equal(one: Frozen, other: Frozen) -> bool:
    """Whether two parts are equal to the last digit as written: 1.5 is not 1.50."""
    return one == other and one.model_dump_json() == other.model_dump_json()
