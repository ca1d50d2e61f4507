"""The papers of the open job: what each is called, when there is one, and what is on it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from benchassist.job.document import Job
from benchassist.records.file_names import record_name, sheet_name, slip_name
from benchassist.records.pdf import record_pdf
from benchassist.records.return_slip import no_slip
from benchassist.records.return_slip_pdf import slip_pdf
from benchassist.records.wearer_sheet import no_sheet
from benchassist.records.wearer_sheet_pdf import sheet_pdf
from benchassist.ui.actions import Command
from benchassist.ui.desk import Desk


@dataclass(frozen=True, slots=True)
class Paper:
    """One kind of paper.

    Attributes:
        title: what it is, such as 'the record'.
        name: what its file is called.
        content: the PDF of the open job; raises BenchError where there can be none.
        refusal: why a job has no such paper, in one sentence; empty when it has one.
    """

    title: str
    name: Callable[[Job], str]
    content: Callable[[Desk], bytes]
    refusal: Callable[[Job], str] = lambda _: ""


PAPERS: Mapping[Command, Paper] = {
    Command.EXPORT: Paper("the record", record_name, lambda desk: record_pdf(desk.record())),
    Command.SHEET: Paper(
        "the wearer's sheet", sheet_name, lambda desk: sheet_pdf(desk.sheet()), no_sheet
    ),
    Command.SLIP: Paper(
        "the return slip", slip_name, lambda desk: slip_pdf(desk.slip()), no_slip
    ),
}
"""The paper that each command writes."""
