"""The few questions that block the window; tests hand in somebody who answers at once."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QInputDialog, QMessageBox, QWidget

from benchassist.job.base import LONGEST_REMARK


class AskPerson:
    """Asks by the dialogs of the system."""

    def where_to_save(self, parent: QWidget, title: str, proposed: Path) -> Path | None:
        """The file chosen; None when the person thought better of it."""
        kind = f"{proposed.suffix[1:].upper()} (*{proposed.suffix})"
        name, _ = QFileDialog.getSaveFileName(parent, title, str(proposed), kind)
        return Path(name) if name else None

    def reason(self, parent: QWidget, title: str, question: str) -> str | None:
        """A line of text; None when the person thought better of it."""
        text, is_given = QInputDialog.getText(parent, title, question)
        return text.strip()[:LONGEST_REMARK] if is_given and text.strip() else None

    def tell(self, parent: QWidget, title: str, sentence: str) -> None:
        """Shows a sentence until it is read."""
        QMessageBox.information(parent, title, sentence)
