"""The log of the lens meters: added to, read back, never changed."""

import errno
import os
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from benchassist.job.instrument import Speech
from benchassist.job.signoff import Person, Role
from benchassist.store.instruments import (
    FILE,
    MeterCheck,
    append_check,
    class_limit,
    faults,
    instruments,
    is_fresh,
    latest,
    load_checks,
)
from benchassist.wrong import BenchError

MORNING = datetime(2026, 3, 2, 8, 5, tzinfo=UTC)
ILSE = Person(name="Ilse Varga", role=Role.OPTICIAN)


def check(name: str = "drum by the window", **changes: Any) -> MeterCheck:
    usual: dict[str, Any] = {
        "instrument": name,
        "speech": Speech.DRUM,
        "step": "0.125",
        "at": MORNING,
        "person": ILSE,
        "eyepiece": True,
        "axis_line": True,
        "accepted": True,
    }
    return MeterCheck(**(usual | changes))


def test_checks_come_back_in_the_order_in_which_they_were_added(tmp_path: Path) -> None:
    assert load_checks(tmp_path) == ()
    first, second = check(zero="0.06"), check("display", speech=Speech.DISPLAY, step="0.01")
    append_check(tmp_path, first)
    before = (tmp_path / FILE).read_bytes()
    append_check(tmp_path, second)
    assert load_checks(tmp_path) == (first, second)
    assert (tmp_path / FILE).read_bytes().startswith(before)


@pytest.mark.skipif(os.name != "posix", reason="owner-only files are told by mode on POSIX")
def test_the_log_is_its_owners_alone(tmp_path: Path) -> None:
    append_check(tmp_path, check())
    assert (tmp_path / FILE).stat().st_mode & 0o777 == 0o600


def test_the_known_lens_is_compared_without_the_zero() -> None:
    told = check(zero="0.06", known_ordered="-5.00", known_read="-4.97")
    assert told.known_lens_error == Decimal("-0.03")
    assert check(zero="0.06").known_lens_error is None
    assert check(known_ordered="5").known_lens_error is None


def test_a_damaged_line_is_named_and_nothing_is_added_to_it(tmp_path: Path) -> None:
    append_check(tmp_path, check())
    file = tmp_path / FILE
    file.write_bytes(file.read_bytes() + b'{"instrument": "dru\n')
    for act in (lambda: load_checks(tmp_path), lambda: append_check(tmp_path, check())):
        with pytest.raises(BenchError, match="Line 2 of the log of the lens meters is damaged"):
            act()
    assert file.read_bytes().endswith(b'"dru\n')


def test_a_line_cut_by_a_power_cut_was_never_kept_and_harms_nothing(tmp_path: Path) -> None:
    append_check(tmp_path, check())
    file = tmp_path / FILE
    file.write_bytes(file.read_bytes() + b'{"instrument": "' + 900 * b"d")
    assert load_checks(tmp_path) == (check(),)
    append_check(tmp_path, check("display"))
    assert load_checks(tmp_path) == (check(), check("display"))


def test_a_full_disk_leaves_the_log_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    append_check(tmp_path, check())
    before = (tmp_path / FILE).read_bytes()

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("benchassist.store.instruments.os.fsync", full)
    with pytest.raises(BenchError) as caught:
        append_check(tmp_path, check("display"))
    assert "No space left" in caught.value.sentence
    assert "note it on paper" in caught.value.sentence
    assert (tmp_path / FILE).read_bytes() == before


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(BenchError, match="was not stored"):
        append_check(tmp_path / "away", check())


def test_the_latest_check_counts_whatever_it_says() -> None:
    failed = check(at=MORNING + timedelta(hours=1), accepted=False)
    other = check("display", at=MORNING + timedelta(hours=2))
    assert latest([failed, check(), other], "drum by the window") == failed
    assert latest([failed], "display") is None


def test_fresh_is_today_and_passed() -> None:
    late = datetime(2026, 3, 2, 23, 59, tzinfo=UTC)
    assert is_fresh(check(), late)
    assert is_fresh(check(), MORNING)
    assert not is_fresh(check(), late + timedelta(minutes=1))
    assert not is_fresh(check(), MORNING - timedelta(seconds=1))
    assert not is_fresh(check(accepted=False), late)
    assert not is_fresh(None, late)


def test_the_day_is_that_of_the_clock_on_the_wall() -> None:
    east = timezone(timedelta(hours=9))
    assert is_fresh(check(), datetime(2026, 3, 2, 23, 0, tzinfo=east))
    assert not is_fresh(check(), datetime(2026, 3, 3, 0, 30, tzinfo=east))


def test_only_todays_check_gives_a_meter_its_zero() -> None:
    log = [
        check(zero="0.06", known_ordered="5", known_read="5.09"),
        check("display", speech=Speech.DISPLAY, step="0.01", at=MORNING - timedelta(days=1)),
    ]
    display, drum = instruments(log, MORNING + timedelta(hours=3))
    assert (drum.zero, drum.known_lens_error, drum.checked) == (
        Decimal("0.06"),
        Decimal("0.03"),
        MORNING,
    )
    assert (display.checked, display.step) == (None, Decimal("0.01"))
    assert instruments(log, MORNING + timedelta(days=1))[1].zero == 0


def test_a_check_says_when_with_its_zone() -> None:
    with pytest.raises(ValidationError):
        check(at=datetime(2026, 3, 2, 8, 5))  # noqa: DTZ001  (that it is refused is the point)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"eyepiece": False}, ("eyepiece is not focused", "focus it")),
        ({"axis_line": False}, ("across the 180 line", "serviced")),
        ({"zero": "0.07"}, ("shows +0.07 D", "0.06 D of its class", "focus the eyepiece")),
        ({"zero": "-0.125"}, ("shows \u22120.12 D", "serviced")),
        (
            {"zero": "0.07", "speech": Speech.DISPLAY, "step": "0.01"},
            ("let it warm up", "serviced"),
        ),
        (
            {"known_ordered": "-5.00", "known_read": "-5.07"},
            ("\u22120.07 D off", "0.06 D of its class", "serviced"),
        ),
        (
            {"known_ordered": "7.00", "known_read": "7.10"},
            ("+0.10 D off", "0.09 D of its class"),
        ),
        (
            {"zero": "0.06", "known_ordered": "2", "known_read": "2"},
            None,
        ),
    ],
)
def test_a_meter_with_a_fault_is_never_accepted(
    tmp_path: Path, changes: dict[str, Any], words: tuple[str, ...] | None
) -> None:
    made = check(**changes)
    told = faults(made)
    append_check(tmp_path, made)
    (logged,) = load_checks(tmp_path)
    (meter,) = instruments([made], MORNING)
    if words is None:
        assert told == ()
        assert logged.accepted
        assert meter.checked == MORNING
        return
    assert len(told) == 1
    assert all(part in told[0] for part in words)
    assert logged == made.with_(accepted=False)
    assert (meter.checked, meter.zero) == (None, Decimal(0))
    assert not is_fresh(made, MORNING)


def test_each_fault_has_its_own_sentence() -> None:
    bad = check(
        eyepiece=False, axis_line=False, zero="0.25", known_ordered="1", known_read="1.5"
    )
    assert len(faults(bad)) == 4
    assert all(sentence.endswith(".") for sentence in faults(bad))


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({"zero": "0.06"}, 0),
        ({"zero": "-0.06"}, 0),
        ({"zero": "0.0625", "speech": Speech.DISPLAY, "step": "0.0625"}, 0),
        ({"zero": "0.061"}, 1),
        ({"known_ordered": "5", "known_read": "5.06"}, 0),
        ({"known_ordered": "5.01", "known_read": "5.10"}, 0),
        ({"known_ordered": "5", "known_read": "5.09"}, 1),
        ({"known_ordered": "-20", "known_read": "-20.18"}, 0),
        ({"known_ordered": "-20", "known_read": "-20.19"}, 1),
    ],
)
def test_on_the_limit_of_its_class_a_meter_is_good(changes: dict[str, Any], wrong: int) -> None:
    assert len(faults(check(**changes))) == wrong


def test_the_limit_of_the_class_says_where_it_is_from() -> None:
    rule = class_limit(Decimal(-3)).rule
    assert rule.edition.startswith("ISO 8598-1")
    assert rule.sources


@pytest.mark.parametrize("changes", [{"name": ""}, {"name": "x" * 61}, {"remark": "x" * 121}])
def test_the_texts_of_a_check_are_bounded(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        check(**changes)
