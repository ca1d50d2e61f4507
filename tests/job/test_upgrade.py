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
        (altered(*POWER, value="1_0"), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value="٣"), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value="0E+999999"), "sphere': a number is expected"),
        (altered(*POWER, value="1e1"), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value=".5"), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value=""), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value=["1"]), "'order.right.power.sphere': a number is expected"),
        (altered(*POWER, value="40.001"), "'order.right.power.sphere': input should be less"),
        (altered("order", "wearer", value="x" * 121), "'order.wearer': at most 120 char"),
        (altered("order", "remark", value="x" * 2001), "'order.remark': at most 2000 char"),
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
    ids=range(41),
)
def test_what_is_not_a_job_is_refused_in_a_sentence(text: str | bytes, sentence: str) -> None:
    with pytest.raises(BenchError, match=sentence) as caught:
        read(text)
    assert caught.value.sentence.endswith(".")
    assert "\n" not in caught.value.sentence


def signature(name: str, role: str) -> Json:
    return {"person": {"name": name, "role": role}, "at": "2026-03-02T10:00:00Z", "remark": ""}


BY_TRAINEE = signature("Tomas Aldana", "trainee")
BY_OPTICIAN = signature("Ilse Varga", "optician")
BY_SUPERVISOR = signature("Priya Nandakumar", "supervisor")
RELEASED: dict[str, Json] = {"outcome": "release", "dispensed": BY_OPTICIAN}


@pytest.mark.parametrize(
    ("signoff", "sentence"),
    [
        ({"outcome": "release", "dispensed": BY_TRAINEE}, "a trainee prepares a job"),
        ({"dispensed": BY_OPTICIAN}, "an outcome is chosen before it is signed"),
        (RELEASED | {"outcome": "hold"}, "the outcome 'hold' needs a reason"),
        ({"countersigned": BY_SUPERVISOR}, "nothing to countersign: no optician has signed"),
        (RELEASED | {"countersigned": BY_OPTICIAN}, "only a supervisor countersigns"),
        (
            RELEASED | {"outcome": "hold", "reason": "x", "countersigned": BY_SUPERVISOR},
            "a pair on hold is not countersigned",
        ),
        (
            RELEASED | {"countersigned": signature("ilse varga.", "supervisor")},
            "the supervisor must be another person",
        ),
        ({"sent_back": BY_TRAINEE}, "a trainee does not send a signed job back"),
        ({"sent_back": signature(" ", "supervisor")}, "name': a text is expected"),
        ({"prepared": signature("\u202e\u200b", "trainee")}, "name': a text is expected"),
        ({"prepared": signature("x" * 121, "trainee")}, "name': at most 120 characters"),
    ],
)
def test_a_job_file_that_contradicts_itself_is_refused(
    signoff: dict[str, Json], sentence: str
) -> None:
    with pytest.raises(BenchError, match=sentence) as caught:
        read(altered("attempts", 0, "signoff", value=signoff))
    assert "in the field 'attempts.0.signoff" in caught.value.sentence


@pytest.mark.parametrize(
    "signoff",
    [
        {"prepared": BY_TRAINEE},
        RELEASED,
        RELEASED | {"countersigned": BY_SUPERVISOR},
        RELEASED | {"outcome": "hold", "reason": "no wearer", "sent_back": BY_OPTICIAN},
        {"outcome": "return to lab", "reason": "", "sent_back": BY_SUPERVISOR},
    ],
)
def test_a_job_file_that_holds_together_is_read(signoff: dict[str, Json]) -> None:
    assert read(altered("attempts", 0, "signoff", value=signoff)).number == "FH-0417"


def test_a_contradiction_in_an_earlier_attempt_is_found_too() -> None:
    document = json.loads(write(bookbinders_job().with_new_attempt()))
    document["attempts"][0]["signoff"] |= {"outcome": "release", "dispensed": BY_TRAINEE}
    with pytest.raises(BenchError, match=r"attempts\.0\.signoff.*a trainee prepares"):
        read(json.dumps(document))


def test_what_nobody_sees_in_a_text_becomes_a_space() -> None:
    job = read(altered("order", "wearer", value=" Marit\u202eOduya\x07\n\u200b"))
    assert job.order.wearer == "Marit Oduya"
    assert read(write(job)) == job


def test_the_letters_of_any_script_stay() -> None:
    names = ("Zoë Ångström", "Марія Ґалаґан", "मीरा", "می\u200cروم", "李\u3000明")
    for name in names:
        assert read(altered("order", "wearer", value=name)).order.wearer == name
