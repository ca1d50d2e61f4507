"""The demo jobs: the invented bench of the Fernhollow Spectacle Workshop."""

from datetime import datetime
from pathlib import Path

from benchassist.assets import asset, read_toml
from benchassist.job.document import Job
from benchassist.store.settings import Workshop


def demo_files() -> tuple[Path, ...]:
    """The demo job files, in the order in which they are told.

    Raises:
        BenchError: the installation is damaged.
    """
    return tuple(sorted(asset("demo").glob("*.json")))


def demo_workshop() -> Workshop:
    """The workshop of the demo.

    Raises:
        BenchError: the installation is damaged.
    """
    file = asset("demo", "workshop.toml")
    return Workshop.model_validate(read_toml(file, f"The file {file.name}"))


def last_moment(job: Job) -> datetime:
    """When the last name was put to the job; when it was begun if there is none yet."""
    signoff = job.now.signoff
    names = (signoff.prepared, signoff.dispensed, signoff.countersigned, signoff.sent_back)
    return max([job.created, *(name.at for name in names if name)])
