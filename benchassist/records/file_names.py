"""What the files of the papers are called."""

from benchassist.job.document import Job


def record_name(job: Job) -> str:
    """The file of the record, such as 'FH-2611-041-record.pdf'."""
    return _named(job, "record")


def sheet_name(job: Job) -> str:
    """The file of the wearer's sheet, such as 'FH-2611-041-sheet.pdf'."""
    return _named(job, "sheet")


def slip_name(job: Job) -> str:
    """The file of the return slip with the attempt, such as 'FH-2611-052-return-1.pdf'."""
    return _named(job, f"return-{len(job.attempts)}")


def _named(job: Job, paper: str) -> str:
    """A job number may hold a stroke, which no file name may."""
    return f"{job.number.replace('/', '-')}-{paper}.pdf"
