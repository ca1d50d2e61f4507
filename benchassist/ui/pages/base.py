"""What the pages of a job share: they show where it stands and propose changes."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Prompt
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.number import NumberInput


def settled(widget: QWidget) -> bool:
    """Takes what stands in every field of a widget; whether all of it was taken."""
    fields: list[NumberInput | Line] = [
        *widget.findChildren(NumberInput),
        *widget.findChildren(Line),
    ]
    refused = [field for field in fields if not field.take()]
    return not refused


class Page(QWidget):
    """A page shows a standing and proposes jobs; it changes nothing itself.

    Signals:
        proposed: a changed Job, to be written to the journal.
        next_asked: the person is done here: go to the next open prompt.
        back_asked: go to the prompt before.
        prompt_asked: the id of a prompt that the person pointed at.
    """

    proposed = Signal(object)
    next_asked = Signal()
    back_asked = Signal()
    prompt_asked = Signal(str)

    def show_standing(self, standing: Standing, prompt: Prompt) -> None:
        """Shows the job at this prompt, without emitting."""
        raise NotImplementedError

    def take_focus(self) -> None:
        """Puts the cursor where the person types next."""
        self.setFocus()

    def another(self) -> None:
        """Begins a further reading, where the page takes readings."""

    def settle(self) -> bool:
        """Takes whatever is still being typed; False when a field cannot be read or taken."""
        return settled(self)

    def press(self, letter: str) -> bool:
        """Answers by a letter where the page offers answers; whether it did."""
        del letter
        return False
