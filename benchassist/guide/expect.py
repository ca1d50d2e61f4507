"""What to expect to see at the lens meter, in the words of the meter that is used."""

from decimal import Decimal

from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.instrument import Speech
from benchassist.job.order import Design, Order, Surface, WrittenPower
from benchassist.optics.eye import Eye
from benchassist.optics.meter import reticle_target
from benchassist.optics.prism import Prism
from benchassist.verdicts.exact import MinusForm, written_power, written_prism
from benchassist.verdicts.near import proposal
from benchassist.verdicts.words import degrees, plain, power, prism, signed, signed_dioptres

_BY_MAKER = " (the maker's verification power)"
_QUARTERS = {25: "¼", 50: "½", 75: "¾"}
_TENTH = Decimal("0.1")


def expect(order: Order, prompt: Prompt, speech: Speech) -> str:
    """What the meter should show at this prompt and what to do next, in a sentence or two.

    The maker's verification values stand before the ordered ones. Empty where nothing is
    ordered that could be expected, and for a prompt that takes no reading of a lens.

    Args:
        order: what was ordered.
        prompt: one of a lens.
        speech: how the meter gives a power.
    """
    if prompt.eye is None:
        return ""
    match prompt.kind:
        case Kind.POWER:
            return _power(order, prompt.eye, speech)
        case Kind.ADDITION if prompt.reading == "intermediate":
            return _addition(order, prompt.eye, speech, *_intermediate(order, prompt.eye))
        case Kind.ADDITION:
            return _addition(order, prompt.eye, speech, *_near(order, prompt.eye))
        case Kind.PRISM:
            return _prism(order, prompt.eye, speech)
        case Kind.ENGRAVED:
            return _engraved(order, prompt.eye)
        case _:
            return ""


def _to_find(order: Order, eye: Eye) -> tuple[WrittenPower, MinusForm | None, str]:
    """The power that the meter must show as written and in minus form, and whose word it is."""
    verification = order.eye(eye).verification
    by_maker = written_power(verification.power) if verification else None
    if verification and by_maker:
        return verification.power, by_maker, _BY_MAKER
    ordered = order.eye(eye).power
    return ordered, written_power(ordered), ""


def _power(order: Order, eye: Eye, speech: Speech) -> str:
    written, minus, origin = _to_find(order, eye)
    if minus is None or written.sphere is None:
        return ""
    if speech is Speech.DISPLAY:
        shown = power(written.sphere, written.cylinder, written.axis)
        return f"The display should settle near {shown}{origin}."
    first, then = signed(minus.along), signed(minus.across)
    if minus.axis is None:
        return f"Coming from plus, all lines get sharp together near {first}{origin}."
    axis = degrees(minus.axis).removesuffix("°")
    return (
        f"Coming from plus, the sphere lines get sharp near {first} with the axis wheel at "
        f"{axis}; then go on to the cylinder lines near {then}{origin}."
    )


def _near(order: Order, eye: Eye) -> tuple[Decimal | None, str]:
    """The near addition to be found, and whose word it is."""
    verification = order.eye(eye).verification
    if verification and verification.add is not None:
        return verification.add, " (the maker's verification value)"
    return order.eye(eye).add, ""


def _intermediate(order: Order, eye: Eye) -> tuple[Decimal | None, str]:
    """The intermediate addition to be found: the one ordered, else the usual half."""
    lens = order.eye(eye)
    if lens.intermediate is not None or lens.add is None:
        return lens.intermediate, ""
    return lens.add / 2, " (half of the near addition; none is ordered)"


def _addition(order: Order, eye: Eye, speech: Speech, add: Decimal | None, origin: str) -> str:
    if add is None:
        return ""
    surface = proposal(order, eye).surface
    side = f"{surface.value.capitalize()} surface on the stop"
    if speech is Speech.DISPLAY:
        return f"{side}: the display should give about {signed_dioptres(add)}{origin}."
    _, minus, _ = _to_find(order, eye)
    if minus is None or surface is Surface.FRONT:
        more = f"{plain(add)} D more plus than the distance lines"
        return f"{side}: the near lines get sharp about {more}{origin}."
    near, far = signed(minus.along + add), signed(minus.along)
    return (
        f"{side}: the near sphere lines get sharp near {near} where the distance ones did near "
        f"{far}{origin}."
    )


def _prism(order: Order, eye: Eye, speech: Speech) -> str:
    lens = order.eye(eye)
    verification = lens.verification
    by_maker = verification.prism if verification else None
    if lens.prism is None and by_maker is None and lens.power.sphere is None:
        return ""
    wanted = written_prism(by_maker or lens.prism, eye)
    origin = " (by the maker)" if by_maker else ""
    if not (wanted.base_in or wanted.base_up):
        thinned = ""
        if order.design is Design.PROGRESSIVE:
            thinned = ", or below it by the same amount in both lenses if they were thinned"
        centre = "middle of the rings" if speech is Speech.DRUM else "zero of the display"
        return f"No prism is ordered: expect the {centre}{thinned}."
    if speech is Speech.DISPLAY:
        return f"The display should show about {prism(wanted.base_in, wanted.base_up)}{origin}."
    right, _ = reticle_target(Prism(float(wanted.base_in), float(wanted.base_up)), eye)
    side = "right" if right > 0 else "left"
    nose = "nose" if wanted.base_in > 0 else "temple"
    parts = (
        _rings(wanted.base_in, f"to the {side}, towards the {nose}"),
        _rings(wanted.base_up, "up" if wanted.base_up > 0 else "down"),
    )
    return f"The target should stand {' and '.join(part for part in parts if part)}{origin}."


def _rings(amount: Decimal, where: str) -> str:
    """A number of rings as one says it: '1½ rings up'; empty for none."""
    size = abs(amount).quantize(Decimal("0.01"))
    if not size:
        return ""
    whole, part = divmod(int(size * 100), 100)
    if part in _QUARTERS:
        number = f"{whole or ''}{_QUARTERS[part]}"
    else:
        number = str(whole) if not part else f"{size.normalize():f}"
    return f"{number} {'ring' if size <= 1 else 'rings'} {where}"


def _engraved(order: Order, eye: Eye) -> str:
    add = order.eye(eye).add
    if not add:
        return ""
    tenths = f"{add // _TENTH:f}"
    hundredths = f"{add * 100 // 1:f}"
    codes = tenths if add % _TENTH == 0 else f"{hundredths} or {tenths}"
    return f"The engraving should read {plain(add)}, often written {codes}."
