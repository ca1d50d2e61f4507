"""The measured faults of a frame: what they are, where they show, how much larger drawn."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from benchassist.optics.eye import Eye

_FACTORS = (2, 3, 5, 8, 10, 15, 20)
"""How many times larger a drawing may be; where none fits it is true to size."""

_SMALL = 0.3
"""A fault within its limit is drawn up to this share of what a fault is enlarged to. Own."""

_MOST_WITHIN = 5
"""And never more times larger than this. Own."""

_LEAST = 0.05
"""What is nothing to a tenth is not drawn, mm or degrees."""


class Motion(StrEnum):
    """A turn about an axis: x to the right facing the wearer, y up, z out of the front."""

    TURN_X = "turn x"
    TURN_Y = "turn y"
    TURN_Z = "turn z"


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault as measured.

    Attributes:
        kind: the name of its `Kind`.
        value: mm or degrees. Where it compares the sides it is left minus right: positive is
            the left half higher (skew), further forward (plane-step) or leaning forward at the
            top (x-ing); the left pad higher or further from its lens; the left temple more
            open, pointing lower, its bend further back or steeper. Of 'face-form' it is what
            both sides together have too much; of 'rotation' the lens turned counter-clockwise
            facing the wearer; of 'fold' how much the folded temple climbs; of a table touch
            the gap, positive where the left tip lifts upright or the right shaft upside down.
        eye: the side to draw it on, whole; None shares it between the sides.
        is_within: whether it is within its limit.
    """

    kind: str
    value: float
    eye: Eye | None = None
    is_within: bool = False


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of fault that can be drawn.

    Attributes:
        name: its name.
        checks: names of the checks that look for it.
        views: where it shows.
        words: what it is called.
        shown: the size up to which it is enlarged, mm or degrees.
        unit: 'mm' or '°'.
    """

    name: str
    checks: tuple[str, ...]
    views: tuple[str, ...]
    words: str
    shown: float
    unit: str

    def size(self, value: float) -> str:
        """A size of this kind without its sign: '1.5 mm'."""
        return f"{abs(value):.1f}{'' if self.unit == '°' else ' '}{self.unit}"


_STANDING = ("side", "table")

KINDS = (
    Kind("rotation", ("rotation",), ("front",), "lens turned", 12.0, "°"),
    Kind("skew", ("skew",), ("front", "table"), "skew step", 8.0, "mm"),
    Kind("x-ing", ("x-ing",), _STANDING, "X-ing", 24.0, "°"),
    Kind("plane-step", ("planes", "four-point"), ("top",), "plane step", 10.0, "mm"),
    Kind("face-form", ("face-form", "four-point"), ("top",), "face form off", 24.0, "°"),
    Kind("pads", ("pads",), ("front",), "pads apart in height", 5.0, "mm"),
    Kind("pad-stand", ("pads",), ("top",), "pads apart in distance", 5.0, "mm"),
    Kind("open-angle", ("open-angle",), ("top",), "open angles apart", 16.0, "°"),
    Kind("pantoscopic", ("pantoscopic",), _STANDING, "pantoscopic angles apart", 12.0, "°"),
    Kind("table-inverted", ("table-inverted",), ("table",), "a shaft lifts", 16.0, "mm"),
    Kind("table-upright", ("table-upright",), ("table",), "a tip lifts", 16.0, "mm"),
    Kind("bend-start", ("temple-bend",), _STANDING, "bends start apart", 20.0, "mm"),
    Kind("bend-drop", ("temple-bend",), _STANDING, "drops apart", 24.0, "°"),
    Kind("fold", ("fold",), ("behind",), "a folded temple climbs", 20.0, "°"),
)
"""The faults that can be drawn, in the order of the bench."""

_BY_NAME = {kind.name: kind for kind in KINDS}


@dataclass(frozen=True, slots=True)
class Faults:
    """What is drawn into one picture of a frame.

    Attributes:
        found: the faults that are there.
        about: name of the check that is asked; its faults are pointed out.
        before: what its check found before a correction, drawn beside what there is now; None
            where nothing was measured before.
    """

    found: tuple[Fault, ...] = ()
    about: str = ""
    before: tuple[Fault, ...] | None = None

    @property
    def is_inverted(self) -> bool:
        """Whether the frame stands upside down on the table."""
        return self.about == "table-inverted"

    def once(self) -> "Faults":
        """The faults as they were before the correction."""
        others = (fault for fault in self.found if not self._is_about(fault))
        return Faults((*others, *(self.before or ())), self.about)

    def _is_about(self, fault: Fault) -> bool:
        kind = _BY_NAME.get(fault.kind)
        return kind is not None and self.about in kind.checks


@dataclass(frozen=True, slots=True)
class Part:
    """One fault as a view draws it; `value` is as drawn, mm or degrees."""

    kind: Kind
    fault: Fault
    value: float
    is_pointed_out: bool


@dataclass(frozen=True, slots=True)
class Drawn:
    """The faults that show in a view, all of them so many times larger than measured."""

    parts: tuple[Part, ...] = ()
    factor: int = 1
    is_inverted: bool = False

    @property
    def lead(self) -> Part | None:
        """The largest fault that is pointed out, against what can be shown of its kind."""
        out = [part for part in self.parts if part.is_pointed_out]
        return max(out, key=lambda part: abs(part.value) / part.kind.shown, default=None)

    @property
    def words(self) -> str:
        """The fault that leads, its size, and how many more are drawn; empty without any."""
        if not self.parts:
            return ""
        first = self.lead or self.parts[0]
        within = ", within its limit" if first.fault.is_within else ""
        more = f", and {len(self.parts) - 1} more measured" if len(self.parts) > 1 else ""
        return f"{first.kind.words} {first.kind.size(first.fault.value)}{within}{more}"

    @property
    def scale(self) -> str:
        """How much larger than measured it is drawn."""
        return f"drawn {self.factor} times larger" if self.factor > 1 else "true to size"


def drawn(faults: Faults, view: str) -> Drawn:
    """The faults as a view draws them, by one factor for all.

    The factor is a round number by which no fault of the view grows beyond what still looks
    like a frame, and none that is within its limit looks like a wreck. A drawing that shows
    before and after takes one that fits both.
    """
    now = tuple(_showing(faults, view))
    both = now if faults.before is None else (*now, *_showing(faults.once(), view))
    fitting = (f for f in _FACTORS if all(f <= _most(kind, fault) for kind, fault in both))
    factor = max(fitting, default=1) if both else 1
    parts = tuple(
        Part(kind, fault, fault.value * factor, faults.about in kind.checks)
        for kind, fault in now
    )
    return Drawn(parts, factor, faults.is_inverted)


def drawn_before(faults: Faults, view: str) -> Drawn:
    """The faults before the correction, by the factor of those there are now."""
    factor = drawn(faults, view).factor
    parts = tuple(
        Part(kind, fault, fault.value * factor, faults.about in kind.checks)
        for kind, fault in _showing(faults.once(), view)
    )
    return Drawn(parts, factor, faults.is_inverted)


def _most(kind: Kind, fault: Fault) -> float:
    most = kind.shown / abs(fault.value)
    return min(most * _SMALL, _MOST_WITHIN) if fault.is_within else most


def _showing(faults: Faults, view: str) -> Iterable[tuple[Kind, Fault]]:
    """The faults that show in the view, each kind once on each side, the check asked first."""
    other = "table-upright" if faults.is_inverted else "table-inverted"
    seen: set[tuple[str, Eye | None]] = set()
    for fault in faults.found:
        kind = _BY_NAME.get(fault.kind)
        if kind is None or view not in kind.views or kind.name == other:
            continue
        if abs(fault.value) >= _LEAST and (kind.name, fault.eye) not in seen:
            seen.add((kind.name, fault.eye))
            yield kind, fault


def caption(faults: Faults, view: str) -> str:
    """What a view draws of the faults and how many times larger; empty where it draws none."""
    now = drawn(faults, view)
    if faults.before is None:
        return f"{now.words}; {now.scale}" if now.parts else ""
    before = drawn_before(faults, view)
    if not before.parts and not now.parts:
        return ""
    lead = before.lead or now.lead
    named = f"{lead.kind.words} " if lead else ""
    words = f"{named}before {_led(before)}, now {_led(now)}; both {now.scale}"
    others = sum(not part.is_pointed_out for part in now.parts)
    return f"{words}, {others} more measured" if others else words


def _led(made: Drawn) -> str:
    lead = made.lead
    return lead.kind.size(lead.fault.value) if lead else "good"
