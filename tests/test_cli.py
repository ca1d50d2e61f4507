"""The shell's face: what it prints, its exit codes, its sentences."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from benchassist import __main__, cli
from benchassist.job.document import Job
from benchassist.job.upgrade import read
from benchassist.limits.load import PLAIN_ACCEPTANCE
from benchassist.records.demo import demo_files
from benchassist.records.record import Record

ROOT = Path(__file__).resolve().parents[1]
WITHIN, OUTSIDE, FRESH = (demo_files()[place] for place in (0, 1, 5))


HOUSE_RULES = """
workshop = "Fernhollow Spectacle Workshop"

[[tighten]]
rule_set = "iso-21987-2017"
row = "I3"
percent = "50"
reason = "axes are remade here earlier"
"""


def run(*arguments: str | Path, **more: Any) -> "subprocess.CompletedProcess[bytes]":
    """The program in a process of its own, as a shell starts it."""
    command = [sys.executable, "-m", "benchassist", *map(str, arguments)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, check=False, **more)


def refusal(arguments: list[str | Path], capsys: pytest.CaptureFixture[str]) -> str:
    """The sentence with which a call is refused."""
    try:
        code = cli.main([str(argument) for argument in arguments])
    except SystemExit as stop:
        code = int(stop.code or 0)
    said = capsys.readouterr()
    assert code == cli.UNUSABLE
    assert said.out == ""
    assert "Traceback" not in said.err
    assert len(said.err.splitlines()) == 1
    assert said.err.strip().endswith(".")
    return said.err


def test_nothing_outside_gives_0_and_something_outside_gives_1(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert cli.main(["judge", str(WITHIN)]) == cli.FINE
    assert cli.main(["judge", str(FRESH)]) == cli.FINE
    capsys.readouterr()
    assert cli.main(["judge", str(OUTSIDE)]) == cli.OUTSIDE
    report = json.loads(capsys.readouterr().out)
    assert (report["job"], report["is_outside"]) == ("FH-2611-048", True)
    axis = next(each for each in report["findings"] if each["key"] == "right.axis")
    assert (axis["state"], axis["word"], axis["eye"]) == ("outside", "outside", "right")
    assert Decimal(axis["found"]) == 97
    assert axis["share"] == "1.750"
    assert axis["rule"]["sources"][0]["title"]


def test_the_shell_says_what_the_record_says(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = tmp_path / "record.json"
    paper = str(tmp_path / "record.pdf")
    cli.main(["judge", str(WITHIN)])
    judged = json.loads(capsys.readouterr().out)
    cli.main(["record", str(WITHIN), "--out", paper, "--json", str(data)])
    record = Record.model_validate_json(data.read_bytes())
    said = {each["key"]: (each["what"], each["sentence"]) for each in judged["findings"]}
    assert said == {each.key: (each.what, each.sentence) for each in record.findings}
    assert said["bench.skew"][0] == "Skewed bridge"
    assert judged["acceptance"] == record.rule_set.acceptance


def test_plain_acceptance_leaves_the_uncertainty_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    guards = []
    for more in ([], ["--plain"]):
        assert cli.main(["judge", str(WITHIN), *more]) == cli.FINE
        findings = json.loads(capsys.readouterr().out)["findings"]
        guards += [Decimal(each["guard"]) for each in findings if each["key"] == "right.axis"]
    assert guards[0] > guards[1] == 0
    data = tmp_path / "record.json"
    call = ["record", str(WITHIN), "--plain", "--out", str(tmp_path / "record.pdf")]
    assert cli.main([*call, "--json", str(data)]) == cli.FINE
    record = Record.model_validate_json(data.read_bytes())
    assert record.rule_set.acceptance == PLAIN_ACCEPTANCE.title


def test_house_rules_tighten_in_the_shell_too(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    house = tmp_path / "house-rules.toml"
    house.write_text(HOUSE_RULES, encoding="utf-8")
    cli.main(["judge", str(WITHIN), "--house", str(house)])
    findings = json.loads(capsys.readouterr().out)["findings"]
    axis = next(each for each in findings if each["key"] == "right.axis")
    assert Decimal(axis["limit"]) == 3
    assert axis["rule"]["evidence"] == "house rule"
    assert "no such file" in refusal(["judge", WITHIN, "--house", tmp_path / "gone"], capsys)


def test_the_record_is_written_as_paper_and_as_data(tmp_path: Path) -> None:
    paper, data = tmp_path / "record.pdf", tmp_path / "record.json"
    call = ["record", str(OUTSIDE), "--out", str(paper), "--json", str(data)]
    call += ["--workshop", "Fernhollow", "--address", "3 Alder Lane", "--address", "Dale"]
    call += ["--at", "2026-11-25T14:05+00:00"]
    assert cli.main(call) == cli.FINE
    first = paper.read_bytes()
    assert first.startswith(b"%PDF")
    record = Record.model_validate_json(data.read_bytes())
    assert record.imprint.workshop.address == ("3 Alder Lane", "Dale")
    assert cli.main(call) == cli.FINE
    assert paper.read_bytes() == first


def test_without_a_time_the_record_is_made_now(tmp_path: Path) -> None:
    assert cli.main(["record", str(FRESH), "--out", str(tmp_path / "now.pdf")]) == cli.FINE


def test_the_schema_describes_a_job_file(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["schema"]) == cli.FINE
    schema = json.loads(capsys.readouterr().out)
    assert {"number", "created"} <= set(schema["required"])
    assert set(schema["properties"]) == set(Job.model_fields)


def test_the_demo_writes_every_job_and_its_record(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "a" / "demo"
    assert cli.main(["demo", "--out", str(folder)]) == cli.FINE
    told = capsys.readouterr().out.split()
    records = [str(folder / f"{file.stem}.pdf") for file in demo_files()]
    others = [
        *(f"FH-2611-{number}-sheet.pdf" for number in ("041", "033", "057")),
        "FH-2611-052-return-1.pdf",
    ]
    assert sorted(told) == sorted((*records, *(str(folder / name) for name in others)))
    for file in demo_files():
        assert (folder / file.name).read_bytes() == file.read_bytes()
    for paper in told:
        assert Path(paper).read_bytes().startswith(b"%PDF")


Spoil = Callable[[str], str | bytes]


def changed(path: str, value: object) -> Spoil:
    """Replaces one field of the job file."""

    def spoil(text: str) -> str:
        document = json.loads(text)
        part = document
        *way, last = path.split(".")
        for name in way:
            part = part[int(name)] if name.isdigit() else part[name]
        part[last] = value
        return json.dumps(document)

    return spoil


SPHERE = "order.right.power.sphere"
AXIS = "order.right.power.axis"
SPOILT: tuple[tuple[str, Spoil, str], ...] = (
    ("empty", lambda _: "", "whole job file"),
    ("not JSON", lambda _: "sphere: -1.50", "whole job file"),
    ("cut in half", lambda text: text[: len(text) // 2], "whole job file"),
    ("not a text", lambda _: b"\xff\xfe\x00\x01", "UTF-8"),
    ("a list", lambda _: "[]", "not a job file"),
    ("letters", changed(SPHERE, "minus two"), SPHERE),
    ("too large", changed(SPHERE, "1e9"), SPHERE),
    ("a large number", changed(SPHERE, 1e9), SPHERE),
    ("not a number", changed(SPHERE, float("nan")), "not a number"),
    ("NaN as text", changed(SPHERE, "NaN"), SPHERE),
    ("a comma", changed(SPHERE, "-1,50"), SPHERE),
    ("axis 0", changed(AXIS, "0"), AXIS),
    ("axis 181", changed(AXIS, "181"), AXIS),
    ("newer", changed("schema_version", 99), "newer Benchassist"),
    ("no version", changed("schema_version", None), "schema_version"),
    ("unknown field", changed("order.right.colour", "blue"), "order.right.colour"),
    ("unknown rule set", changed("order.rule_set", "nowhere"), "nowhere"),
    ("no attempts", changed("attempts", []), "attempts"),
)


@pytest.mark.parametrize(
    ("spoil", "told"), [case[1:] for case in SPOILT], ids=[case[0] for case in SPOILT]
)
@pytest.mark.parametrize("command", ["judge", "record", "slip"])
def test_a_spoilt_file_is_refused_in_a_sentence(
    command: str,
    spoil: Spoil,
    told: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    spoilt = spoil(OUTSIDE.read_text(encoding="utf-8"))
    file, paper = tmp_path / "job.json", tmp_path / "record.pdf"
    file.write_bytes(spoilt if isinstance(spoilt, bytes) else spoilt.encode())
    call: list[str | Path] = [command, file]
    call += ["--out", paper] if command != "judge" else []
    assert told in refusal(call, capsys)
    assert not paper.exists()


def test_a_missing_file_or_a_folder_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "cannot be read" in refusal(["judge", tmp_path / "gone.json"], capsys)
    assert "cannot be read" in refusal(["judge", tmp_path], capsys)


def test_an_output_that_cannot_be_written_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    nowhere = tmp_path / "gone" / "record.pdf"
    assert "could not be written" in refusal(["record", FRESH, "--out", nowhere], capsys)
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    assert "could not be written" in refusal(["demo", "--out", blocked], capsys)
    assert "could not be written" in refusal(["demo", "--out", blocked / "demo"], capsys)
    assert blocked.read_text(encoding="utf-8") == "in the way"


@pytest.mark.parametrize(
    ("call", "told"),
    [
        ([], "COMMAND"),
        (["jugde", "x.json"], "jugde"),
        (["judge"], "JOB.json"),
        (["judge", "x.json", "--loud"], "--loud"),
        (["record", "x.json"], "--out"),
        (["record", "x.json", "--out", "x.pdf", "--at", "noon"], "'noon' is not a time"),
        (["record", "x.json", "--out", "x.pdf", "--at", "2026-11-25T14:05"], "zone"),
    ],
)
def test_a_call_that_is_wrong_is_refused(
    call: list[str | Path], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert told in refusal(call, capsys)


@pytest.mark.parametrize("option", ["--help", "-h", "--version"])
def test_help_and_version_are_told(option: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        cli.main([option])
    assert stop.value.code == 0
    assert "enchassist" in capsys.readouterr().out


def test_help_names_every_option_of_the_window(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        cli.main(["--help"])
    told = capsys.readouterr().out
    door = (ROOT / "benchassist/ui/app.py").read_text(encoding="utf-8")
    options = re.findall(r"add_argument\(\s*\"(--\w+)\"", door)
    assert len(options) == 3
    assert [option for option in options if option not in told] == []


def test_whoever_stops_the_program_gets_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(_path: Path) -> Job:
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "load_job_file", stopped)
    assert "Stopped" in refusal(["judge", WITHIN], capsys)


def test_the_shell_needs_no_window() -> None:
    code = (
        "import sys; from benchassist import __main__; sys.argv = ['benchassist', 'judge', "
        f"{str(OUTSIDE)!r}]; code = __main__.main(); "
        "assert not [name for name in sys.modules if 'PySide6' in name]; sys.exit(code)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=False
    )
    assert (done.returncode, done.stderr) == (cli.OUTSIDE, b"")


def test_a_console_without_a_minus_sign_still_gets_the_findings() -> None:
    done = run("judge", OUTSIDE, env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert (done.returncode, done.stderr) == (cli.OUTSIDE, b"")
    assert "−1.50 D" in json.dumps(json.loads(done.stdout), ensure_ascii=False)


def test_a_closed_pipe_gives_a_sentence() -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    command = [sys.executable, "-m", "benchassist", "schema"]
    with os.fdopen(write_end, "wb") as pipe:
        done = subprocess.run(
            command, cwd=ROOT, stdout=pipe, stderr=subprocess.PIPE, check=False
        )
    assert done.returncode == cli.UNUSABLE
    assert done.stderr.decode().splitlines() == [
        "The output was closed before everything was written."
    ]


@pytest.mark.parametrize("call", [["judge", str(OUTSIDE)], ["--version"], ["jugde"]])
def test_the_way_in_leads_to_the_shell(
    call: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[list[str]] = []

    def shell(arguments: list[str]) -> int:
        seen.append(arguments)
        return 7

    monkeypatch.setattr(sys, "argv", ["benchassist", *call])
    monkeypatch.setattr(cli, "main", shell)
    assert __main__.main() == 7
    assert seen == [call]


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (["--data", "X", "judge", "j.json"], "judge"),
        (["--demo", "jugde"], "jugde"),
        (["--draw", "out", "record"], "record"),
    ],
)
def test_a_command_after_the_options_of_the_window_is_refused(
    call: list[str],
    word: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(sys, "argv", ["benchassist", *call])
    monkeypatch.setattr("importlib.import_module", pytest.fail)
    assert __main__.main() == cli.UNUSABLE
    said = capsys.readouterr().err
    assert len(said.splitlines()) == 1
    assert f"'{word}'" in said


@pytest.mark.parametrize("call", [[], ["--demo"], ["--data", "judge"], ["--draw", "out"]])
def test_the_way_in_leads_to_the_window(
    call: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    class Window:
        def main(self, arguments: list[str]) -> int:
            assert arguments == call
            return 5

    monkeypatch.setattr(sys, "argv", ["benchassist", *call])
    monkeypatch.setattr("importlib.import_module", lambda _name: Window())
    assert __main__.main() == 5


def test_a_written_job_is_read_again_as_it_was(tmp_path: Path) -> None:
    assert cli.main(["demo", "--out", str(tmp_path)]) == cli.FINE
    for file in demo_files():
        assert read((tmp_path / file.name).read_bytes()) == read(file.read_bytes())
