"""Everything the window does on a key or from its menu, as one list."""

from dataclasses import dataclass
from enum import StrEnum


class Command(StrEnum):
    """What can be asked of the window."""

    NEXT = "next"
    BACK = "back"
    ANOTHER = "another"
    SKIP = "skip"
    GOOD = "good"
    FAULT = "fault"
    CORRECT = "correct"
    UNDO = "undo"
    HINT = "hint"
    READ_FIRST = "read first"
    GUARD = "guard"
    SCHEME = "scheme"
    TRAY = "tray"
    NEW = "new"
    EXPORT = "export"
    SHEET = "sheet"
    SLIP = "slip"
    BACKUP = "back up"
    PERSON = "person"
    WORKSHOP = "workshop"
    HOUSE_RULES = "house rules"
    METERS = "meters"
    SYMPTOMS = "symptoms"
    KEYS = "keys"
    QUIT = "quit"


@dataclass(frozen=True, slots=True)
class Action:
    """One entry of the menu and of the list of keys.

    Attributes:
        command: what it asks for.
        menu: the menu it stands in; empty for a key that works on the bench only.
        title: what the person reads.
        keys: the shortcut; a bare letter works where no text is being typed.
    """

    command: Command
    menu: str
    title: str
    keys: str


ACTIONS = (
    Action(Command.NEXT, "", "Next open prompt", "Enter"),
    Action(Command.BACK, "", "Back to the prompt before", "Shift+Enter"),
    Action(Command.ANOTHER, "", "Another reading of the same point", "R"),
    Action(Command.SKIP, "", "Not applicable, with a reason", "N"),
    Action(Command.GOOD, "", "Good, or done", "G"),
    Action(Command.FAULT, "", "Fault", "F"),
    Action(Command.CORRECT, "", "To the correction proposed; Enter accepts it", "C"),
    Action(Command.TRAY, "&Job", "To the &tray", "Ctrl+T"),
    Action(Command.NEW, "&Job", "&New job", "Ctrl+N"),
    Action(Command.UNDO, "&Job", "&Undo the last entry", "Ctrl+Z"),
    Action(Command.EXPORT, "&Job", "Write the record as &PDF", "Ctrl+P"),
    Action(Command.SHEET, "&Job", "Write the wearer's &sheet as PDF", "Ctrl+E"),
    Action(Command.SLIP, "&Job", "Write the return s&lip as PDF", "Ctrl+R"),
    Action(Command.BACKUP, "&Job", "Back &up all jobs", "Ctrl+Shift+B"),
    Action(Command.QUIT, "&Job", "&Quit", "Ctrl+Q"),
    Action(Command.HINT, "&View", "&Hint panel", "F1"),
    Action(
        Command.READ_FIRST, "&View", "&Read first: order hidden until the reading is in", "F2"
    ),
    Action(Command.GUARD, "&View", "&Guard band: a reading near its limit is read again", "F4"),
    Action(Command.SCHEME, "&View", "&Dark or light", "F3"),
    Action(Command.PERSON, "&Workshop", "Who is at the &bench", "Ctrl+B"),
    Action(Command.METERS, "&Workshop", "&Lens meters and their daily check", "Ctrl+L"),
    Action(Command.WORKSHOP, "&Workshop", "&This workshop", "Ctrl+W"),
    Action(Command.HOUSE_RULES, "&Workshop", "&House rules: limits tightened here", "Ctrl+H"),
    Action(Command.SYMPTOMS, "&Job", "&Symptoms on the face: what to bend", "Ctrl+Y"),
    Action(Command.KEYS, "&View", "The &keys", "?"),
)

STEP_KEYS = "Ctrl+1 to Ctrl+9"
"""The keys that open the nine steps."""


def bare_letter(text: str) -> Command | None:
    """The command of a bare letter or '?', pressed where no text is typed."""
    letter = text.upper()
    return next((one.command for one in ACTIONS if one.keys == letter), None)
