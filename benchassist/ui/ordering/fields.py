"""The fields of the order form, as data: where each lives in the order and what it takes."""

from dataclasses import dataclass

from benchassist.job.order import Design, FrameMaterial, LensMaterial, Rim, Surface, Treatment
from benchassist.optics.eye import Eye
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.text import words_of

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class FormField:
    """One field of the order.

    Attributes:
        path: dotted path in the Order; below 'both' what stands with each eye in halves.
        label: what the person sees.
        takes: a number, choices, or None for a line of text.
        is_several: whether several of the choices may hold.
        span: columns of the form that it fills.
        nothing: what the order holds where the empty choice is taken.
    """

    path: str
    label: str
    takes: NumberSpec | Choices | None = None
    span: int = 1
    is_several: bool = False
    nothing: str | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the form, shown for the order prompt of the same name.

    Attributes:
        name: name of the prompt in the order step.
        title: its heading.
        fields: its fields, in the order in which they are typed.
    """

    name: str
    title: str
    fields: tuple[FormField, ...]


def _number(path: str, spec: NumberSpec) -> FormField:
    return FormField(path, spec.label, spec)


def _eye_fields(eye: Eye) -> tuple[FormField, ...]:
    named = (
        ("power.sphere", specs.dioptre("Sphere", in_eighths=True)),
        ("power.cylinder", specs.dioptre("Cylinder", in_eighths=True, limit=20)),
        ("power.axis", specs.axis("Axis")),
        ("add", specs.addition("Addition", in_eighths=True)),
        ("intermediate", specs.addition("Intermediate", in_eighths=True)),
        ("prism.base_in", specs.horizontal_prism("Prism in or out")),
        ("prism.base_up", specs.vertical_prism("Prism up or down")),
        ("distance_pd", specs.millimetre("Distance, one eye", "10", "60")),
        ("near_pd", specs.millimetre("Near, one eye", "10", "60")),
        ("height", specs.millimetre("Height", "0", "80")),
        ("centre_thickness", specs.millimetre("Centre thickness", "0", "30")),
        ("base_curve", specs.dioptre("Base curve", limit=25)),
        ("verification.power.sphere", specs.dioptre("Meter sphere", in_eighths=True)),
        (
            "verification.power.cylinder",
            specs.dioptre("Meter cylinder", in_eighths=True, limit=20),
        ),
        ("verification.power.axis", specs.axis("Meter axis")),
        ("verification.add", specs.addition("Meter addition", in_eighths=True)),
        ("verification.prism.base_in", specs.horizontal_prism("Meter prism in or out")),
        ("verification.prism.base_up", specs.vertical_prism("Meter prism up or down")),
    )
    return tuple(_number(f"{eye}.{path}", spec) for path, spec in named)


def sections(rule_sets: Choices, languages: Choices = ()) -> tuple[Section, ...]:
    """The whole form.

    Args:
        rule_sets: the rule sets on offer, as (id, title).
        languages: the languages in which a wearer may read, as (tag, its own name).
    """
    pair = (
        FormField("wearer", "Wearer", span=2),
        FormField("design", "Lens design", words_of(Design)),
        FormField("material", "Lens material", words_of(LensMaterial)),
        _number("index", specs.index("Index")),
        FormField("tint", "Tint"),
        FormField("addition_surface", "Addition is on the", words_of(Surface)),
        _number("minimum_height", specs.millimetre("Shortest height", "0", "80")),
        _number("segment_width", specs.millimetre("Segment width", "0", "80")),
        _number("segment_depth", specs.millimetre("Segment depth", "0", "80")),
        _number("vertex_distance", specs.millimetre("Vertex distance", "0", "40")),
        _number("both.distance_pd", specs.millimetre("Distance, both eyes", "20", "120")),
        _number("both.near_pd", specs.millimetre("Near, both eyes", "20", "120")),
        FormField("rule_set", "Judged by", rule_sets, span=2),
        FormField("language", "Wearer reads", (("", "not stated"), *languages), nothing=""),
        FormField("remark", "Remark", span=4),
        FormField("treatments", "Treatments", words_of(Treatment), span=5, is_several=True),
    )
    frame = (
        FormField("frame.name", "Frame", span=2),
        FormField("frame.material", "Frame material", words_of(FrameMaterial)),
        FormField("frame.rim", "Mounting", words_of(Rim)),
        _number("frame.a", specs.millimetre("A, boxed width", "20", "90")),
        _number("frame.b", specs.millimetre("B, boxed height", "10", "80")),
        _number("frame.dbl", specs.millimetre("DBL", "5", "40")),
        _number("frame.ed", specs.millimetre("ED", "20", "100")),
        _number("frame.temple_length", specs.millimetre("Temple length", "80", "190")),
        _number("frame.tilt", specs.degrees("Pantoscopic tilt", "-10", "30")),
        _number("frame.face_form", specs.degrees("Face form", "-10", "40")),
    )
    return (
        Section("wearer-and-lenses", "Wearer and lenses", pair),
        Section("right", "Right eye", _eye_fields(Eye.RIGHT)),
        Section("left", "Left eye", _eye_fields(Eye.LEFT)),
        Section("frame", "Frame", frame),
    )
