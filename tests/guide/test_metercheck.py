"""The daily check of a lens meter: six steps whose answers are what the log keeps."""

import re
import shutil
from pathlib import Path

import pytest

from benchassist.assets import asset
from benchassist.guide.load import load_meter_check
from benchassist.guide.metercheck import MeterStep, Taken
from benchassist.job.instrument import Speech
from benchassist.store.instruments import MeterCheck
from benchassist.wrong import BenchError

STEPS = load_meter_check()


def test_six_steps_in_the_order_of_the_bench() -> None:
    assert [step.id for step in STEPS] == [
        *("clean", "eyepiece", "zero", "axis-line", "known-lens", "accept"),
    ]


def test_a_display_has_no_eyepiece_to_focus() -> None:
    asked = {speech: [step.id for step in STEPS if step.is_for(speech)] for speech in Speech}
    assert len(asked[Speech.DRUM]) == 6
    assert asked[Speech.DISPLAY] == ["clean", "zero", "axis-line", "known-lens", "accept"]


def test_what_is_taken_is_what_the_log_keeps() -> None:
    taken = {step.takes for step in STEPS} - {Taken.NOTHING}
    assert taken == set(Taken) - {Taken.NOTHING}
    assert taken - {Taken.KNOWN_LENS} <= MeterCheck.model_fields.keys()
    assert {"known_ordered", "known_read"} <= MeterCheck.model_fields.keys()


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_each_step_asks_in_one_sentence_and_says_how_why_and_whence(step: MeterStep) -> None:
    assert len(re.findall(r"[.?!](?= |$)", step.ask)) == 1
    assert len(step.how) <= 420
    assert step.why
    assert step.sources
    assert "  " not in f"{step.ask}{step.how}{step.why}{step.fault}"


def test_another_language_lies_over_the_english_texts(tmp_path: Path) -> None:
    shutil.copytree(asset("guide", "en"), tmp_path / "en")
    (tmp_path / "fi").mkdir()
    over = '[[step]]\nid = "zero"\nask = "Lue mittari ilman linssiä."\n'
    (tmp_path / "fi" / "meter.toml").write_text(over, encoding="utf-8")
    steps = {step.id: step for step in load_meter_check("fi", tmp_path)}
    assert steps["zero"].ask == "Lue mittari ilman linssiä."
    assert steps["clean"] == STEPS[0]


def test_a_step_that_takes_what_no_log_keeps_is_refused(tmp_path: Path) -> None:
    shutil.copytree(asset("guide", "en"), tmp_path / "en")
    file = tmp_path / "en" / "meter.toml"
    text = file.read_text(encoding="utf-8").replace('takes = "zero"', 'takes = "luck"')
    file.write_text(text, encoding="utf-8")
    with pytest.raises(BenchError, match=r"meter\.toml cannot be used: in step 'zero', takes"):
        load_meter_check(folder=tmp_path)
    with pytest.raises(BenchError, match="no guide in the language 'xx'"):
        load_meter_check("xx", tmp_path)
