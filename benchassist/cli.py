"""The second face: everything but the window, from a shell."""

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version
from io import TextIOWrapper
from pathlib import Path
from typing import Any, NoReturn

from pydantic import TypeAdapter, ValidationError
from typing_extensions import override

from benchassist.guide.flow import standing
from benchassist.guide.load import load_guide
from benchassist.job.document import Job
from benchassist.job.signoff import RELEASED
from benchassist.limits.load import PLAIN_ACCEPTANCE, Decision, Limits, load_limits
from benchassist.records.demo import demo_files, demo_workshop, last_moment
from benchassist.records.file_names import sheet_name, slip_name
from benchassist.records.imprint import imprint_of_file
from benchassist.records.making import make_record
from benchassist.records.pdf import record_pdf
from benchassist.records.record import Record
from benchassist.records.return_slip import ReturnSlip, make_slip, no_slip
from benchassist.records.return_slip_pdf import slip_pdf
from benchassist.records.wearer_sheet import make_sheet
from benchassist.records.wearer_sheet_pdf import sheet_pdf
from benchassist.store.files import load_job_file, save_job_file, write_whole
from benchassist.store.settings import Workshop
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.judge import judge
from benchassist.wrong import BenchError

FINE, OUTSIDE, UNUSABLE = 0, 1, 2
"""Exit codes: nothing outside, something outside, the file or the call cannot be used."""


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with a call in one sentence."""

    @override
    def error(self, message: str) -> NoReturn:
        self.exit(
            UNUSABLE,
            f"{self.prog}: {message[:1].upper()}{message[1:]}. See '{self.prog} --help'.\n",
        )


def main(arguments: Sequence[str]) -> int:
    """Runs one command and gives its exit code; faults of the world become a sentence."""
    if isinstance(sys.stdout, TextIOWrapper):
        # JSON is UTF-8 whatever the console thinks; else a minus sign could not be printed.
        sys.stdout.reconfigure(encoding="utf-8")
    try:
        chosen = _parser().parse_args(arguments)
        code: int = chosen.run(chosen)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read the output has gone: nothing more may be written, at exit either.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _refused("The output was closed before everything was written.")
    except KeyboardInterrupt:
        return _refused("Stopped before the end.")
    except BenchError as wrong:
        return _refused(wrong.sentence)
    except OSError as wrong:
        return _refused(f"The output could not be written: {wrong.strerror}.")
    return code


def _refused(sentence: str) -> int:
    sys.stderr.write(f"{sentence}\n")
    return UNUSABLE


def _parser() -> _Parser:
    parser = _Parser(
        prog="benchassist",
        description="Verify, align, fit, hand over and record a finished pair of spectacles.",
        epilog=(
            "Without a command the window opens. Its options: --data FOLDER for the jobs of "
            "another folder, --demo for a scratch copy of the demo jobs, --draw FOLDER to draw "
            "the window into PNG files and end."
        ),
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"Benchassist {_version()}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    judging = _command(commands, "judge", _judge, "print the findings of a job file as JSON")
    _judged_file(judging)

    recording = _command(commands, "record", _record, "write the record of a job file as PDF")
    _judged_file(recording)
    _paper(recording)
    recording.add_argument("--json", type=Path, metavar="FILE.json", help="also as data")

    teaching = _command(commands, "sheet", _sheet, "write the wearer's sheet of a job as PDF")
    teaching.add_argument("job", type=Path, metavar="JOB.json")
    _paper(teaching)
    teaching.add_argument("--hours", action="append", default=[], metavar="LINE")
    teaching.add_argument("--urgent", default="", metavar="NUMBER", help="what cannot wait")
    teaching.add_argument(
        "--language", metavar="TAG", help="such as 'de'; that of the order when not given"
    )

    returning = _command(commands, "slip", _slip, "write the return slip of a job as PDF")
    _judged_file(returning)
    _paper(returning)

    _command(commands, "schema", _schema, "print the JSON Schema of a job file")

    showing = _command(commands, "demo", _demo, "write the demo jobs and their papers")
    showing.add_argument("--out", type=Path, required=True, metavar="FOLDER")
    return parser


def _version() -> str:
    try:
        return version("benchassist")
    except PackageNotFoundError:
        return "from a checkout"


def _command(
    commands: Any, name: str, run: Callable[[argparse.Namespace], int], does: str
) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(
        name, help=does, description=f"{does[:1].upper()}{does[1:]}.", allow_abbrev=False
    )
    command.set_defaults(run=run)
    return command


def _judged_file(command: argparse.ArgumentParser) -> None:
    """The job file, and by what it is judged, as in the window."""
    command.add_argument("job", type=Path, metavar="JOB.json")
    command.add_argument(
        "--plain",
        action="store_const",
        const=PLAIN_ACCEPTANCE,
        default=Decision(),
        dest="decision",
        help="plain acceptance: only the limit decides, without a guard band",
    )
    command.add_argument(
        "--house", type=Path, metavar="FILE.toml", help="house rules that tighten the limits"
    )


def _paper(command: argparse.ArgumentParser) -> None:
    """Where a paper is written, who makes it and when."""
    command.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")
    command.add_argument("--workshop", default="", metavar="NAME")
    command.add_argument("--address", action="append", default=[], metavar="LINE")
    command.add_argument("--phone", default="", metavar="NUMBER")
    command.add_argument("--email", default="", metavar="ADDRESS")
    command.add_argument(
        "--at", type=_moment, metavar="TIME", help="when it is made, as 2026-11-25T14:05+00:00"
    )


def _workshop(chosen: argparse.Namespace) -> Workshop:
    """The workshop that makes the paper.

    Raises:
        BenchError: a line is longer than a paper takes.
    """
    try:
        return Workshop(
            name=chosen.workshop,
            address=tuple(chosen.address),
            phone=chosen.phone,
            email=chosen.email,
            hours=tuple(getattr(chosen, "hours", ())),
            urgent=getattr(chosen, "urgent", ""),
        )
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise BenchError(
            f"The option --{first['loc'][0]} is too long or is no text."
        ) from error


def _limits(chosen: argparse.Namespace, job: Job) -> Limits:
    """What the job is judged by.

    Raises:
        BenchError: no such rule set, or house rules that are not there or cannot be used.
    """
    house: Path | None = chosen.house
    if house is not None and not house.is_file():
        raise BenchError(f"There are no house rules in {house}: no such file.")
    return load_limits(job.order.rule_set, chosen.decision, house=house)


def _moment(text: str) -> datetime:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"'{text}' is not a time") from error
    if moment.tzinfo is None:
        raise argparse.ArgumentTypeError(f"'{text}' does not say its zone, such as +00:00")
    return moment


def _judge(chosen: argparse.Namespace) -> int:
    job = load_job_file(chosen.job)
    limits = _limits(chosen, job)
    findings = standing(job, judge(job, limits), load_guide()).findings
    is_outside = any(finding.state is State.OUTSIDE for finding in findings)
    report = {
        "job": job.number,
        "attempt": len(job.attempts),
        "rule_set": limits.rule_set.id,
        "acceptance": limits.decision.title,
        "is_outside": is_outside,
        "findings": [finding_data(finding) for finding in findings],
    }
    _print(report)
    return OUTSIDE if is_outside else FINE


def finding_data(finding: Finding) -> dict[str, Any]:
    """A finding as JSON values, with its word and the share of the limit used."""
    data: dict[str, Any] = TypeAdapter(Finding).dump_python(finding, mode="json")
    share = finding.share
    return data | {
        "word": finding.state.word,
        "share": None if share is None else f"{share:.3f}",
    }


def _print(data: Any) -> None:
    sys.stdout.write(json.dumps(data, indent=2, ensure_ascii=False) + "\n")


def _record(chosen: argparse.Namespace) -> int:
    job = load_job_file(chosen.job)
    limits = _limits(chosen, job)
    record = record_of(job, _workshop(chosen), chosen.at or datetime.now(UTC), limits)
    write_whole(chosen.out, record_pdf(record))
    if chosen.json:
        write_whole(chosen.json, (record.model_dump_json(indent=2) + "\n").encode())
    return FINE


def record_of(
    job: Job, workshop: Workshop, made_at: datetime, limits: Limits | None = None
) -> Record:
    """The record of a bare job file.

    Args:
        job: the job.
        workshop: whose name stands on it.
        made_at: when it is made.
        limits: what it is judged by; the rule set that its order names when not given.

    Raises:
        BenchError: no such rule set, or the installation is damaged.
    """
    limits = limits or load_limits(job.order.rule_set)
    imprint = imprint_of_file(job, workshop, made_at)
    return make_record(job, judge(job, limits), load_guide(), limits, imprint)


def _sheet(chosen: argparse.Namespace) -> int:
    job = load_job_file(chosen.job)
    at = chosen.at or datetime.now(UTC)
    sheet = make_sheet(job, _workshop(chosen), at, chosen.language)
    write_whole(chosen.out, sheet_pdf(sheet))
    return FINE


def _slip(chosen: argparse.Namespace) -> int:
    job = load_job_file(chosen.job)
    at = chosen.at or datetime.now(UTC)
    slip = slip_of(job, _workshop(chosen), at, _limits(chosen, job))
    write_whole(chosen.out, slip_pdf(slip))
    return FINE


def slip_of(
    job: Job, workshop: Workshop, made_at: datetime, limits: Limits | None = None
) -> ReturnSlip:
    """The return slip of a bare job file; arguments as for `record_of`.

    Raises:
        BenchError: the pair does not go back, or as `record_of`.
    """
    limits = limits or load_limits(job.order.rule_set)
    imprint = imprint_of_file(job, workshop, made_at)
    return make_slip(job, judge(job, limits), load_guide(), limits, imprint)


def _schema(_chosen: argparse.Namespace) -> int:
    _print(Job.model_json_schema())
    return FINE


def _demo(chosen: argparse.Namespace) -> int:
    chosen.out.mkdir(parents=True, exist_ok=True)
    for file in demo_files():
        job = load_job_file(file)
        save_job_file(chosen.out / file.name, job)
        for name, content in _demo_papers(job, file.stem).items():
            paper = chosen.out / name
            write_whole(paper, content)
            sys.stdout.write(f"{paper}\n")
    return FINE


def _demo_papers(job: Job, stem: str) -> dict[str, bytes]:
    """Its record, the sheet of a pair that is released, the slip of one that goes back."""
    workshop, at = demo_workshop(), last_moment(job)
    papers = {f"{stem}.pdf": record_pdf(record_of(job, workshop, at))}
    if job.now.signoff.outcome in RELEASED:
        papers[sheet_name(job)] = sheet_pdf(make_sheet(job, workshop, at))
    if not no_slip(job):
        papers[slip_name(job)] = slip_pdf(slip_of(job, workshop, at))
    return papers
