import json
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings

from benchassist.job.changes import Json
from benchassist.job.document import SCHEMA, Job
from benchassist.job.upgrade import UPGRADES, read, upgraded, write
from benchassist.wrong import BenchError
from tests.job.samples import bookbinders_job
from tests.job.strategies import is_equal, jobs

SAVED = Path(__file__).parents[1] / "saved"
SAMPLES = sorted(SAVED.glob("*.json"))


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_a_saved_job_reads_as_its_golden(sample: Path) -> None:
    golden = (SAVED / "golden" / sample.name).read_text("utf-8")
    assert write(read(sample.read_bytes())) == golden
    assert write(read(golden)) == golden


def test_each_schema_has_a_sample_and_each_step_an_upgrade() -> None:
    schemas = {int(sample.stem.partition("-")[0]) for sample in SAMPLES}
    assert schemas == set(range(1, SCHEMA + 1))
    assert len(UPGRADES) == SCHEMA - 1


@settings(max_examples=20, deadline=None)
@given(jobs)
def test_a_written_job_reads_back_to_the_last_digit(job: Job) -> None:
    text = write(job)
    assert is_equal(read(text), job)
    assert is_equal(read(b"\xef\xbb\xbf" + text.encode()), job)
    assert text.endswith("}\n")


def test_each_upgrade_takes_one_step() -> None:
    def wearer_becomes_order(document: dict[str, Json]) -> dict[str, Json]:
        return {"number": document["number"], "order": {"wearer": document["wearer"]}}

    def order_gets_remark(document: dict[str, Json]) -> dict[str, Json]:
        assert document["schema_version"] == 2
        return document | {"remark": ""}

    chain = (wearer_becomes_order, order_gets_remark)
    first: Json = {"schema_version": 1, "number": "1", "wearer": "Marit Oduya"}
    second: Json = {"schema_version": 2, "number": "1", "order": {"wearer": "Marit Oduya"}}
    newest: Json = {
        "schema_version": 3,
        "number": "1",
        "order": {"wearer": "Marit Oduya"},
        "remark": "",
    }
    assert upgraded(first, chain, 3) == newest
    assert upgraded(second, chain, 3) == newest
    assert upgraded(newest, chain, 3) == newest
    with pytest.raises(BenchError, match=r"newer Benchassist \(schema 3"):
        upgraded(newest, chain[:1], 2)


def altered(*path: str | int, value: object) -> str:
    """The text of the bookbinder's job file with one place replaced."""
    document = json.loads(write(bookbinders_job()))
    place = document
    for part in path[:-1]:
        place = place[part]
    place[path[-1]] = value
    return json.dumps(document)


@pytest.mark.parametrize("value", [-1.25, "-1.25", "-1.250"])
def test_a_power_may_be_a_json_number_or_a_text(value: object) -> None:
    job = read(altered("order", "right", "power", "sphere", value=value))
    assert job.order.right.power.sphere == Decimal("-1.25")


POWER = ("order", "right", "power", "sphere")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "not a whole job file.*line 1, column 1"),
        (write(bookbinders_job())[:900], "not a whole job file"),
        ("sphere -1.00", "not a whole job file"),
        (b"\xff\xfe{", "not a text in UTF-8"),
        ("[" * 100_000, "nests too deeply"),
        ("9" * 5000, "too long"),
        ("[]", "does not hold one job"),
        ("{}", "'schema_version' is missing or wrong"),
        ('{"schema_version": true}', "'schema_version' is missing or wrong"),
        ('{"schema_version": 0}', "'schema_version' is missing or wrong"),
        ('{"schema_version": 2}', r"newer Benchassist \(schema 2, this one reads up to 1\)"),
        ('{"schema_version": 1}', "field 'number' is missing"),
        ('{"a": 1, "b": 2, "a": 3}', "field 'a' is there twice"),
        ('{"a": NaN}', "NaN, which is not a number"),
        ('{"a": -1e999}', "-1e999, which is not a number"),
        (altered(*POWER, value="NaN"), "'order.right.power.sphere'"),
        (altered(*POWER, value=True), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value="two"), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value="1.2345"), "no more than 3 decimal places"),
        (altered(*POWER, value=10**400), "'order.right.power.sphere'"),
        (altered("order", "wearer", value=5), "'order.wearer': a text is expected"),
        (altered("order", "wearer", value="\ud800"), "half of a character"),
        (altered("order", "left", "sph", value="1"), "field 'order.left.sph' is not known"),
        (altered("order", "design", value="varifocal"), "'order.design': input should be"),
        (altered("order", "right", "prism", value={"form": "x"}), "'order.right.prism'"),
        (altered("created", value=1_700_000_000), "'created': a date and time is expected"),
        (altered("created", value="2026-03-02T09:00:00"), "with its zone"),
        (altered("number", value="../17"), "'number': the characters"),
        (altered("attempts", value=[]), "'attempts': at least one"),
        (altered("attempts", 0, value=7), "'attempts.0': a group of fields"),
        (altered("attempts", 0, "bench", "corrections", value={}), "a list is expected"),
    ],
    ids=range(31),
)
def test_what_is_not_a_job_is_refused_in_a_sentence(text: str | bytes, sentence: str) -> None:
    with pytest.raises(BenchError, match=sentence) as caught:
        read(text)
    assert caught.value.sentence.endswith(".")
    assert "\n" not in caught.value.sentence
