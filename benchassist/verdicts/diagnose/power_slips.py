"""Slips in the power of one lens: signs, transposing, axis, digits.

Each is tried on the order in both cylinder forms, since whoever slipped may have copied either.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import permutations

from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Prediction, Slip, on_each_lens
from benchassist.verdicts.exact import ZERO, MinusForm, minus_form, turned
from benchassist.verdicts.words import signed

_QUARTER_TURN = Decimal(90)
_HALF_TURN = Decimal(180)
_QUARTER_DIOPTRE = Decimal("0.25")
_TEN = Decimal(10)


@dataclass(frozen=True, slots=True)
class Written:
    """A power as somebody wrote it: sphere and cylinder in D, axis in degrees."""

    sphere: Decimal
    cylinder: Decimal
    axis: Decimal | None

    @property
    def across(self) -> "Written":
        """The same figures with the axis 90 degrees away."""
        return replace(self, axis=self.axis and turned(self.axis + _QUARTER_TURN))

    def exact(self) -> MinusForm:
        """The power that this is, in minus form."""
        return minus_form(self.sphere, self.cylinder, self.axis)


Change = Callable[[Written], Iterable[tuple[Written, str]]]
"""What a slip makes of a written power: each way it may go, and its detail in words."""


def forms_of(power: MinusForm) -> tuple[tuple[Written, str], ...]:
    """A power in minus form and in plus form, each with its name."""
    as_minus = Written(power.sphere, power.cylinder, power.axis)
    as_plus = Written(power.across, -power.cylinder, power.across_axis)
    return (as_minus, "minus form"), (as_plus, "plus form")


def written_slip(change: Change) -> Callable[[Sight], Iterable[Prediction]]:
    """A slip made in the written power of one lens, in whichever form it was written."""

    def changed(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
        wanted = sight.wanted.eye(eye)
        if wanted.power is None:
            return
        ways: dict[tuple[MinusForm, str], list[str]] = {}
        for written, form in forms_of(wanted.power):
            for slipped, detail in change(written):
                if slipped.axis is not None or not slipped.cylinder:
                    ways.setdefault((slipped.exact(), detail), []).append(form)
        for (power, detail), forms in ways.items():
            only = forms[0] if len(forms) == 1 and wanted.power.cylinder else ""
            yield replace(wanted, power=power), ", ".join(filter(None, (detail, only)))

    return on_each_lens(changed)


def _one(change: Callable[[Written], Written]) -> Change:
    return lambda written: ((change(written), ""),)


def _mirrored(written: Written) -> Written:
    return replace(written, axis=written.axis and turned(_HALF_TURN - written.axis))


def _axis_kept(written: Written) -> Written:
    return Written(written.sphere + written.cylinder, -written.cylinder, written.axis)


def _digits(written: Written) -> Iterable[tuple[Written, str]]:
    axis = written.axis
    if axis is None or axis != axis.to_integral_value():
        return
    shown = f"{int(axis):03}"
    others = sorted({"".join(digits) for digits in permutations(shown)} - {shown})
    for other in others:
        if 0 < int(other) <= _HALF_TURN:
            yield replace(written, axis=Decimal(other)), f"{other} for {shown}"


def _whole_dioptre(written: Written) -> Iterable[tuple[Written, str]]:
    for step in (Decimal(-1), Decimal(1)):
        yield replace(written, sphere=written.sphere + step), f"{signed(step)} D"


def _decimal_point(written: Written) -> Iterable[tuple[Written, str]]:
    ways = (
        (written.sphere * _TEN, "ten times too strong"),
        (written.sphere / _TEN, "ten times too weak"),
    )
    for sphere, detail in ways:
        if sphere % _QUARTER_DIOPTRE == 0:
            yield replace(written, sphere=sphere), detail


_FORM = "In which cylinder form was the order written, and in which was it copied on?"
_COPY = "Does every copy of the order, from the prescription to the laboratory, say the same?"

WRITTEN_SLIPS = (
    Slip(
        "cylinder-sign",
        "sign of the cylinder reversed",
        "eye",
        _FORM,
        written_slip(_one(lambda power: replace(power, cylinder=-power.cylinder))),
    ),
    Slip(
        "sphere-sign",
        "sign of the sphere reversed",
        "eye",
        _COPY,
        written_slip(_one(lambda power: replace(power, sphere=-power.sphere))),
    ),
    Slip(
        "axis-90",
        "axis 90° off",
        "eye",
        "Was the lens blocked, or the axis wheel read, along the other meridian?",
        written_slip(_one(lambda power: power.across)),
    ),
    Slip(
        "transposed-axis-kept",
        "transposed without changing the axis",
        "eye",
        _FORM,
        written_slip(_one(_axis_kept)),
    ),
    Slip(
        "transposed-sphere-kept",
        "transposed without changing the sphere",
        "eye",
        _FORM,
        written_slip(_one(lambda power: replace(power.across, cylinder=-power.cylinder))),
    ),
    Slip(
        "transposed-sign-kept",
        "transposed without changing the sign of the cylinder",
        "eye",
        _FORM,
        written_slip(
            _one(lambda power: replace(power.across, sphere=power.sphere + power.cylinder))
        ),
    ),
    Slip(
        "axis-mirrored",
        "axis mirrored, 180° minus the axis",
        "eye",
        "Was the axis counted from the other side, as seen by the wearer?",
        written_slip(_one(_mirrored)),
    ),
    Slip(
        "both-signs",
        "signs of sphere and cylinder reversed",
        "eye",
        _COPY,
        written_slip(_one(lambda power: Written(-power.sphere, -power.cylinder, power.axis))),
    ),
    Slip(
        "axis-digits",
        "digits of the axis in another order",
        "eye",
        _COPY,
        written_slip(_digits),
    ),
    Slip(
        "sphere-for-cylinder",
        "sphere and cylinder entered in each other's place",
        "eye",
        _COPY,
        written_slip(_one(lambda power: Written(power.cylinder, power.sphere, power.axis))),
    ),
    Slip(
        "cylinder-left-out",
        "cylinder left out",
        "eye",
        _COPY,
        written_slip(_one(lambda power: Written(power.sphere, ZERO, None))),
    ),
    Slip(
        "whole-dioptre",
        "sphere one whole dioptre out",
        "eye",
        _COPY,
        written_slip(_whole_dioptre),
    ),
    Slip(
        "decimal-point",
        "decimal point of the sphere moved",
        "eye",
        _COPY,
        written_slip(_decimal_point),
    ),
)
"""Slips of the pen or the keyboard in the power of one lens."""
