"""The demo in the window: the people and jobs of the Fernhollow Spectacle Workshop."""

from benchassist.job.journal import Journal
from benchassist.job.signoff import Person, Role
from benchassist.limits.load import load_limits
from benchassist.records.demo import demo_files, demo_workshop
from benchassist.store.files import load_job_file
from benchassist.store.jobs import JobStore
from benchassist.store.settings import Settings
from benchassist.verdicts.finding import worst
from benchassist.verdicts.judge import judge

TRAINEE = Person(name="Tomas Aldana", role=Role.TRAINEE)
OPTICIAN = Person(name="Ilse Varga", role=Role.OPTICIAN)
SUPERVISOR = Person(name="Priya Nandakumar", role=Role.SUPERVISOR)


def demo_settings() -> Settings:
    """The settings of the demo: all three people known, the optician at the bench."""
    return Settings(
        workshop=demo_workshop(),
        persons=(OPTICIAN, TRAINEE, SUPERVISOR),
        at_bench=OPTICIAN,
    )


def fill_with_demo(store: JobStore) -> None:
    """Puts the demo jobs into an empty store.

    Raises:
        BenchError: the installation is damaged, or the disk refuses.
    """
    for file in demo_files():
        job = load_job_file(file)
        journal = Journal.start(job, OPTICIAN, job.created)
        findings = judge(job, load_limits(job.order.rule_set))
        store.append(journal.entries, job, worst([one.state for one in findings]).word)
