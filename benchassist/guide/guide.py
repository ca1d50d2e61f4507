"""The whole guide: all nine steps with all their prompts, and the notes on materials."""

from dataclasses import dataclass

from benchassist.guide.prompts import Prompt, Step, StepId
from benchassist.job.order import Order

UNKNOWN_FRAME = "unknown frame"
"""Name of the note that stands in while the frame material is not known."""


@dataclass(frozen=True, slots=True)
class MaterialNote:
    """What to know about a material, a mounting or a treatment before touching it.

    Attributes:
        material: the value of a FrameMaterial, Rim, LensMaterial or Treatment, or
            `UNKNOWN_FRAME`.
        text: how it behaves and how it is worked, heat included.
        never: what must not be done to it.
        evidence: how we know.
    """

    material: str
    text: str
    never: str
    evidence: str

    @property
    def words(self) -> str:
        """The note in full, what is forbidden told as forbidden."""
        name = f"{self.material[:1].upper()}{self.material[1:]}"
        never = f" Never: {_lowered(self.never)}" if self.never else ""
        return f"{name}: {_lowered(self.text)}{never}"


def _lowered(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"


@dataclass(frozen=True, slots=True)
class Guide:
    """Everything the program can ask.

    Attributes:
        language: the language of the texts; what it lacks is in English.
        version: version of the texts, printed on the record.
        steps: the nine steps with every prompt there is, whatever the order.
        materials: the notes on materials, mountings and treatments.
    """

    language: str
    version: str
    steps: tuple[Step, ...]
    materials: tuple[MaterialNote, ...]

    @property
    def prompts(self) -> tuple[Prompt, ...]:
        """Every prompt there is, in the order of the trade."""
        return tuple(prompt for step in self.steps for prompt in step.prompts)

    def step(self, step_id: StepId) -> Step:
        """One of the nine steps."""
        return next(step for step in self.steps if step.id is step_id)

    def prompt(self, prompt_id: str) -> Prompt:
        """One prompt.

        Raises:
            KeyError: no prompt of that id.
        """
        for prompt in self.prompts:
            if prompt.id == prompt_id:
                return prompt
        raise KeyError(f"the guide has no prompt {prompt_id}")

    def notes_for(self, order: Order) -> tuple[MaterialNote, ...]:
        """The notes that concern this frame, its mounting, its lenses and their treatments."""
        return (*self.frame_notes_for(order), *self._notes((order.material, *order.treatments)))

    def frame_notes_for(self, order: Order) -> tuple[MaterialNote, ...]:
        """Those that concern this frame and its mounting."""
        return self._notes((order.frame.material or UNKNOWN_FRAME, order.frame.rim))

    def _notes(self, names: tuple[str | None, ...]) -> tuple[MaterialNote, ...]:
        return tuple(
            note for name in names for note in self.materials if name and note.material == name
        )
