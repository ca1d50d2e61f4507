"""The window: the tray and the bench, and what its keys and menus do."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QCloseEvent, QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QLabel, QMainWindow, QMenu, QStackedWidget
from typing_extensions import override

from benchassist.guide.prompts import StepId
from benchassist.job.journal import Entry
from benchassist.people.roles import Act
from benchassist.store.files import write_whole
from benchassist.ui.actions import ACTIONS, Command, bare_letter
from benchassist.ui.ask_person import AskPerson
from benchassist.ui.bench import Bench
from benchassist.ui.desk import NO_JOB, Desk
from benchassist.ui.extent import SMALLEST
from benchassist.ui.labels import text_label
from benchassist.ui.pages.tray import TrayPage
from benchassist.ui.papers import PAPERS, Paper
from benchassist.ui.scan import BETWEEN_KEYS_MS, ScanWatch
from benchassist.ui.sheets import Sheets
from benchassist.ui.theme import Scheme, Theme
from benchassist.wrong import BenchError

_SECONDS_TOLD = 8
_TITLE_BAR = 40
"""What the desktop takes of a small screen for its own bars, px."""


_LEAVING = frozenset(
    {Command.TRAY, Command.NEW, Command.QUIT, Command.PERSON, Command.BACKUP, *PAPERS}
)
"""Commands before which everything typed must be on disk."""


class Shell(QMainWindow):
    """One window; what it shows comes from the desk, what a person wants goes to it."""

    def __init__(
        self, desk: Desk, theme: Theme, ask: AskPerson, patience_ms: int = BETWEEN_KEYS_MS
    ) -> None:
        """Makes the window.

        Args:
            desk: what it works with.
            theme: how it looks.
            ask: who answers what blocks the window.
            patience_ms: how long a bare letter waits for more of a scan, ms.
        """
        super().__init__()
        self._desk = desk
        self._theme = theme
        self._ask = ask
        self._tray = TrayPage(desk.session.now)
        self._bench = Bench(theme, desk)
        self._stack = QStackedWidget()
        self._stack.addWidget(self._tray)
        self._stack.addWidget(self._bench)
        self._sheets = Sheets(desk, self.tell, self)
        self._scan = ScanWatch(patience_ms, self)
        self._scan.letter.connect(self._on_letter)
        self._scan.scanned.connect(self._on_scan)
        self.setCentralWidget(self._stack)
        self.setWindowTitle("Benchassist")
        self.setMinimumSize(SMALLEST.width(), SMALLEST.height() - _TITLE_BAR)
        self.statusBar().setSizeGripEnabled(False)
        self.statusBar().addPermanentWidget(_keys_in_short())
        self._doings = self._make_doings()
        self._make_menus()
        self._connect()
        self.to_tray()

    def _make_doings(self) -> dict[Command, Callable[[], object]]:
        settings = self._change_settings
        return {
            Command.NEXT: self._bench.go_next,
            Command.BACK: self._bench.go_back,
            Command.ANOTHER: self._bench.another,
            Command.SKIP: self._skip,
            Command.GOOD: lambda: self._bench.press("G") or self._bench.press("D"),
            Command.FAULT: lambda: self._bench.press("F"),
            Command.CORRECT: self._bench.take_correction,
            Command.UNDO: self._undo,
            Command.HINT: lambda: settings(hint_open=not self._desk.settings.hint_open),
            Command.READ_FIRST: lambda: settings(read_first=not self._desk.settings.read_first),
            Command.GUARD: self._change_guard,
            Command.SCHEME: self._change_scheme,
            Command.TRAY: self.to_tray,
            Command.NEW: self._begin,
            **{one: partial(self._write, paper) for one, paper in PAPERS.items()},
            Command.BACKUP: self._back_up,
            Command.PERSON: self._sheets.show_people,
            Command.METERS: self._sheets.show_meters,
            Command.WORKSHOP: self._sheets.show_workshop,
            Command.HOUSE_RULES: self._sheets.show_house_rules,
            Command.SYMPTOMS: self._show_symptoms,
            Command.KEYS: self._sheets.show_keys,
            Command.QUIT: self.close,
        }

    def _make_menus(self) -> None:
        menus: dict[str, QMenu] = {}
        for entry in ACTIONS:
            if not entry.menu:
                continue
            menu = menus.setdefault(entry.menu, QMenu(entry.menu, self))
            action = QAction(entry.title, self)
            if len(entry.keys) > 1:
                action.setShortcut(QKeySequence(entry.keys))
            action.triggered.connect(lambda _=False, command=entry.command: self.do(command))
            menu.addAction(action)
        for menu in menus.values():
            self.menuBar().addMenu(menu)
        for position, step in enumerate(StepId, start=1):
            shortcut = QShortcut(QKeySequence(f"Ctrl+{position}"), self)
            shortcut.activated.connect(lambda step=step: self._bench.open_step(step))

    def _connect(self) -> None:
        self._tray.searched.connect(self.search)
        self._tray.opened.connect(self.open_job)
        self._tray.begun.connect(self.begin_job)
        self._tray.entered.connect(self.find_job)
        self._desk.session.refused.connect(self.tell)
        self._desk.session.stored.connect(self._on_stored)
        self._bench.told.connect(self.tell)
        self._bench.form_chosen.connect(self._remember_form)
        self._bench.signed.connect(self._sign)
        self._bench.command_asked.connect(self.do)

    def do(self, command: Command) -> None:
        """Carries out a command; what is still being typed is taken before it leaves it."""
        if command not in _LEAVING or self._settle():
            self._doings[command]()

    def _settle(self) -> bool:
        """Whether nothing typed on the bench would be lost."""
        return self._stack.currentWidget() is not self._bench or self._bench.settle()

    def tell(self, sentence: str) -> None:
        """Shows a sentence in the status line for a while."""
        self.statusBar().showMessage(sentence, _SECONDS_TOLD * 1000)

    def to_tray(self, searched: str = "") -> None:
        """Puts the job back and shows the tray, searching for a text."""
        self._desk.session.close()
        self._tray.set_text(searched)
        self._stack.setCurrentWidget(self._tray)
        self.search()
        self._tray.take_focus()

    def search(self) -> None:
        """Shows the jobs that fit what is typed and chosen in the tray."""
        self._tray.show_problem("")
        try:
            rows = self._desk.store.search(
                self._tray.text(), state=self._tray.state(), since=self._tray.since()
            )
        except BenchError as error:
            self._tray.show_problem(error.sentence)
            return
        self._tray.show_rows(rows)

    def open_job(self, number: str) -> None:
        """Opens a job on the bench."""
        self._enter_bench(lambda: self._desk.session.open(number))

    def find_job(self, typed: str) -> None:
        """Opens the job of this number; else the only one found; else leaves the choice."""
        try:
            number = self._desk.store.number_like(typed)
        except BenchError as error:
            self._tray.show_problem(error.sentence)
            return
        found = self._tray.rows()
        if number is not None:
            self.open_job(number)
        elif len(found) == 1:
            self.open_job(found[0].number)
        elif found:
            self._tray.choose_row()
        else:
            self._tray.take_focus()
            self._tray.show_problem(
                f"No job is found for {typed}. To begin it as a new job, press Ctrl+N."
            )

    def begin_job(self, number: str) -> None:
        """Begins a new job and opens it."""
        if number:
            self._enter_bench(lambda: self._desk.session.begin(number))
            return
        self._tray.show_problem("Type or scan the number of the new job first.")
        self._tray.take_focus()

    def show_step(self, row: int, step: StepId) -> None:
        """Opens the job in a row of the tray at one of its steps."""
        self.to_tray()
        rows = self._desk.store.search()
        if row < len(rows):
            self.open_job(rows[row].number)
            self._bench.open_step(step)

    def go_to(self, prompt_id: str) -> None:
        """Shows a prompt of the open job."""
        self._bench.go_to(prompt_id)

    def _enter_bench(self, opening: Callable[[], None]) -> None:
        try:
            opening()
        except BenchError as error:
            self._tray.show_problem(error.sentence)
            return
        self._stack.setCurrentWidget(self._bench)
        self._bench.open_first()

    def _begin(self) -> None:
        if self._stack.currentWidget() is self._tray:
            self.begin_job(self._tray.text())
        else:
            self.to_tray()
            self._tray.show_problem("Type or scan the number of the new job, then Ctrl+N.")

    def _undo(self) -> None:
        """Takes back the last entry, and says where it was."""
        if self._desk.session.undo():
            self._bench.take_focus()
            self.tell(f"Taken back: {self._desk.session.last_part()}.")

    def _show_symptoms(self) -> None:
        prompt = self._bench.current()
        self._sheets.show_symptoms(prompt.id if prompt else "")

    def _skip(self) -> None:
        prompt = self._bench.current()
        if prompt is None:
            return
        question = f"Why does “{prompt.title}” not apply to this job?"
        reason = self._ask.reason(self, "Not applicable", question)
        if reason and self._desk.session.skip(prompt.id, reason):
            self._bench.go_next()

    def _sign(self, act: Act) -> None:
        if not self._settle():
            return
        remark = ""
        if act is Act.SEND_BACK:
            remark = (
                self._ask.reason(self, "Send back", "What should be looked at again?") or ""
            )
            if not remark:
                return
        refusal = self._desk.session.sign(act, remark)
        self._bench.show_problem(refusal)
        if act is Act.NEW_ATTEMPT and not refusal:
            self._bench.open_first()

    def _write(self, paper: Paper) -> None:
        """Writes a paper of the open job as PDF, where the person says."""
        standing = self._desk.session.standing
        refusal = NO_JOB if standing is None else paper.refusal(standing.job)
        if standing is None or refusal:
            self.tell(refusal)
            return
        proposed = Path.home() / paper.name(standing.job)
        target = self._ask.where_to_save(self, f"Write {paper.title}", proposed)
        if target is None:
            return
        try:
            write_whole(target, paper.content(self._desk))
        except BenchError as error:
            self.tell(error.sentence)
            return
        self.tell(f"{paper.title.capitalize()} is in {target}.")

    def _back_up(self) -> None:
        """Writes a whole copy of the database while the window stays open."""
        name = f"benchassist-jobs-{self._desk.session.now():%Y-%m-%d}.sqlite3"
        target = self._ask.where_to_save(self, "Back up all jobs", Path.home() / name)
        if target is None:
            return
        try:
            self._desk.store.backup(target)
        except BenchError as error:
            self.tell(error.sentence)
            return
        self.tell(f"All jobs are backed up in {target}.")

    def _change_settings(self, **changes: object) -> None:
        try:
            self._desk.change_settings(**changes)
        except BenchError as error:
            self.tell(error.sentence)

    def _remember_form(self, kind: str, form: str) -> None:
        self._change_settings(forms={**self._desk.settings.forms, kind: form})

    def _change_scheme(self) -> None:
        is_light = self._theme.scheme is Scheme.LIGHT
        scheme = Scheme.DARK if is_light else Scheme.LIGHT
        self._theme.set_scheme(scheme)
        self._change_settings(scheme=scheme.value)

    def _change_guard(self) -> None:
        self._change_settings(guarded=not self._desk.settings.guarded)
        self.tell(f"Judged by {self._desk.session.decision.title}.")

    def _on_stored(self, entry: Entry) -> None:
        self.tell(f"On disk: entry {entry.sequence}, {entry.at.astimezone():%H:%M:%S}")

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self._stack.currentWidget() is not self._bench:
            super().keyPressEvent(event)
            return
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            is_back = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self.do(Command.BACK if is_back else Command.NEXT)
            return
        text = "" if _has_modifier(event) else event.text()
        if text.isalnum() or bare_letter(text) is not None:
            self._scan.begin(text)
        else:
            super().keyPressEvent(event)

    def _on_letter(self, letter: str) -> None:
        command = bare_letter(letter)
        if command is None:
            self.tell(f"Nothing here takes '{letter}'. Press ? for all keys.")
        else:
            self.do(command)

    def _on_scan(self, number: str) -> None:
        """Opens the job that was scanned; an unknown number leaves the bench as it is."""
        if not self._desk.store.search(number, limit=1):
            self.tell(f"No job is found for {number}; a new one is begun in the tray.")
        elif self._settle():
            self.to_tray(number)
            self.find_job(number)

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        if not self._settle():
            event.ignore()
            return
        self._desk.session.close()
        super().closeEvent(event)


def _keys_in_short() -> QLabel:
    """The keys used most, for the right end of the status line."""
    words = "Enter next     R read again     N not applicable     ? all keys"
    label = text_label("caption", words, wraps=False)
    label.setContentsMargins(0, 0, 12, 0)
    return label


def _has_modifier(event: QKeyEvent) -> bool:
    """Whether a key is pressed with Ctrl, Alt or the like, so that it is no bare letter."""
    held = event.modifiers() & ~(
        Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
    )
    return bool(held)
