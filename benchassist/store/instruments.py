"""The lens meters of the workshop: their checks, one line each, only ever added to."""

import os
from collections.abc import Iterable, Iterator
from datetime import datetime
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import BinaryIO

from pydantic import AwareDatetime, ValidationError

from benchassist.job.base import Dioptre, Frozen, Line
from benchassist.job.instrument import (
    Instrument,
    MeterName,
    ShownPower,
    Speech,
    Step,
    as_shown,
)
from benchassist.job.signoff import Person
from benchassist.limits.load import lens_meter
from benchassist.limits.rule import Limit
from benchassist.limits.table import Table
from benchassist.store.faults import in_words
from benchassist.store.files import settle_folder
from benchassist.wrong import BenchError

FILE = "meters.jsonl"
"""The name of the log, beside the database."""


class MeterCheck(Frozen):
    """One daily check of one lens meter, whether it passed or not.

    Attributes:
        instrument: what the workshop calls the meter.
        speech: how it gives a power.
        step: the step in which its powers are read, D.
        at: when the check was done.
        person: who did it.
        eyepiece: whether the eyepiece was focused for this person; None on a display.
        zero: what it showed without a lens, D.
        axis_line: whether the target lay along the 180 line with the axis wheel at 180.
        known_ordered: power of the known lens that was read, D; None when none was.
        known_read: what the meter showed of it, D, zero not yet taken off.
        accepted: whether the person said that the meter may be used today; it may not while
            there are `faults`.
        remark: what else was seen or done.
    """

    instrument: MeterName
    speech: Speech
    step: Step
    at: AwareDatetime
    person: Person
    eyepiece: bool | None = None
    zero: ShownPower = Decimal(0)
    axis_line: bool
    known_ordered: Dioptre | None = None
    known_read: ShownPower | None = None
    accepted: bool
    remark: Line = ""

    @property
    def known_lens_error(self) -> Decimal | None:
        """What it showed of the known lens beyond that lens's power, zero taken off, D."""
        if self.known_ordered is None or self.known_read is None:
            return None
        return self.known_read - self.zero - self.known_ordered


def faults(check: MeterCheck) -> tuple[str, ...]:
    """Why a meter may not be used today: what is wrong and what to do, a sentence each.

    The zero and the known lens are compared with what the class of lens meters allows there.

    Raises:
        BenchError: the limits of lens meters cannot be used.
    """
    return tuple(_faults(check))


def _faults(check: MeterCheck) -> Iterator[str]:
    if check.eyepiece is False:
        yield "The eyepiece is not focused: focus it for your own eye and check again."
    zero = class_limit(Decimal(0))
    if abs(as_shown(check.zero)) > zero.value:
        first = "let it warm up" if check.speech is Speech.DISPLAY else "focus the eyepiece"
        yield (
            f"Without a lens it shows {_signed(check.zero)} D, more than {_class(zero)} from "
            f"zero: {first} and read it again, and if it stays so, have the meter serviced."
        )
    if not check.axis_line:
        yield "The target lies across the 180 line: have the axis scale serviced."
    error = check.known_lens_error
    if error is None or check.known_ordered is None:
        return
    known = class_limit(check.known_ordered)
    if abs(as_shown(error)) > known.value:
        yield (
            f"The known lens reads {_signed(error)} D off with the zero taken off, more than "
            f"{_class(known)}: read it again, and if it stays so, have the meter serviced."
        )


def class_limit(power: Decimal) -> Limit:
    """How far a lens meter may be off at a power, D, by its class; the rule says whence.

    Raises:
        BenchError: the limits of lens meters cannot be used.
    """
    row = _class_table().row("error-power")
    looked_up = {"power": abs(power)}
    limit = row.band(looked_up).limit(looked_up) if row else None
    if limit is None:
        raise BenchError("The class limits of lens meters are missing.")
    return limit


@cache
def _class_table() -> Table:
    return Table(lens_meter().rows)


def _class(limit: Limit) -> str:
    """A limit with its standard and how the figure is known."""
    rule = limit.rule
    return f"the {limit.value} D of its class ({rule.edition}, evidence: {rule.evidence})"


def _signed(value: Decimal) -> str:
    shown = f"{as_shown(value):+.2f}"
    return shown.replace("-", "\N{MINUS SIGN}")


def append_check(folder: Path, check: MeterCheck) -> None:
    """Adds a check to the log and waits until it is on disk; what stood there stays.

    A meter with faults is logged as not accepted, whatever was said of it.

    Raises:
        BenchError: the log cannot be written, or what it holds is damaged.
    """
    load_checks(folder)
    file = folder / FILE
    honest = check.with_(accepted=check.accepted and not faults(check))
    line = honest.model_dump_json().encode() + b"\n"
    with in_words(file, "The check of the lens meter was not stored: note it on paper."):
        is_new = not file.exists()
        handle = os.open(file, os.O_RDWR | os.O_CREAT, 0o600)
        with os.fdopen(handle, "r+b") as log:
            _add(log, line)
        if is_new:
            settle_folder(folder)


def _add(log: BinaryIO, line: bytes) -> None:
    """Puts a line after the last whole one, or leaves the file as long as it was."""
    whole = len(_whole(log.read()))
    log.truncate(whole)
    log.seek(whole)
    try:
        log.write(line)
        log.flush()
        os.fsync(log.fileno())
    except OSError:
        log.truncate(whole)
        raise


def _whole(content: bytes) -> bytes:
    """The whole lines; what an interrupted write left after them was never called stored."""
    return content[: content.rfind(b"\n") + 1]


def load_checks(folder: Path) -> tuple[MeterCheck, ...]:
    """Every check in the log, oldest first; none when there is no log yet.

    Raises:
        BenchError: the log cannot be read, or a line of it is damaged; names the line.
    """
    file = folder / FILE
    if not file.exists():
        return ()
    with in_words(file):
        lines = _whole(file.read_bytes()).splitlines()
    return tuple(_check(line, number, file) for number, line in enumerate(lines, start=1))


def _check(line: bytes, number: int, file: Path) -> MeterCheck:
    try:
        return MeterCheck.model_validate_json(line)
    except ValidationError as error:
        raise BenchError(
            f"Line {number} of the log of the lens meters is damaged. Put the last back-up in "
            f"its place; the jobs are kept in another file and are safe. The file is {file}."
        ) from error


def latest(checks: Iterable[MeterCheck], name: str) -> MeterCheck | None:
    """The last check of a meter, passed or not; None when it was never checked."""
    of_meter = (check for check in checks if check.instrument == name)
    return max(of_meter, key=lambda check: check.at, default=None)


def is_fresh(check: MeterCheck | None, now: datetime) -> bool:
    """Whether a meter passed its check on the day that `now` is, by the clock of `now`."""
    return (
        check is not None
        and check.accepted
        and check.at <= now
        and check.at.astimezone(now.tzinfo).date() == now.date()
        and not faults(check)
    )


def instruments(checks: Iterable[MeterCheck], now: datetime) -> tuple[Instrument, ...]:
    """Every meter ever checked, as it stands now, by name.

    A meter whose last check was not today or was not accepted counts as not checked and
    carries no zero: what it was off by yesterday is not known to be so today.
    """
    known = tuple(checks)
    names = sorted({check.instrument for check in known})
    last = (latest(known, name) for name in names)
    return tuple(_instrument(check, now) for check in last if check)


def _instrument(check: MeterCheck, now: datetime) -> Instrument:
    if not is_fresh(check, now):
        return Instrument(name=check.instrument, speech=check.speech, step=check.step)
    return Instrument(
        name=check.instrument,
        speech=check.speech,
        step=check.step,
        checked=check.at,
        zero=check.zero,
        known_lens_error=check.known_lens_error,
    )
