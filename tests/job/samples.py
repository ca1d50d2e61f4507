"""A job in the Fernhollow Spectacle Workshop, and the people who work on it."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal

from benchassist.job.checks import Answer, Correction, Seen
from benchassist.job.document import Attempt, Job
from benchassist.job.order import Design, EyeOrder, Order, PolarPrism, WrittenPower
from benchassist.job.readings import DrumReading
from benchassist.job.signoff import Person, Role

TRAINEE = Person(name="Tomas Aldana", role=Role.TRAINEE)
OPTICIAN = Person(name="Ilse Varga", role=Role.OPTICIAN)
SUPERVISOR = Person(name="Priya Nandakumar", role=Role.SUPERVISOR)

NINE = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def later(minutes: int) -> datetime:
    """So many minutes after nine."""
    return NINE + timedelta(minutes=minutes)


def bookbinders_job(number: str = "FH-0417") -> Job:
    """Marit Oduya's progressive pair, ordered and not yet read."""
    power = WrittenPower(sphere=Decimal("-2.25"), cylinder=Decimal("-0.75"), axis=Decimal(100))
    prism = PolarPrism(amount=Decimal("1.50"), base=Decimal(90))
    right = EyeOrder(power=power, add=Decimal("2.00"), prism=prism)
    order = Order(wearer="Marit Oduya", design=Design.PROGRESSIVE, right=right)
    return Job(number=number, created=NINE, order=order)


def with_remark(job: Job, remark: str) -> Job:
    """The job with another remark on its order."""
    return job.with_(order=job.order.with_(remark=remark))


def with_reading(job: Job, sphere: str) -> Job:
    """The job with one more reading of the right lens."""
    reading = DrumReading(sphere_lines=Decimal(sphere), cylinder_lines=Decimal("-3.00"))
    right = job.now.right.with_(distance=(*job.now.right.distance, reading))
    return job.with_now(job.now.with_(right=right))


def with_answer(job: Job, name: str, seen: Seen) -> Job:
    """The job with a bench check answered by eye."""
    answers = {**job.now.bench.answers, name: Answer(seen=seen)}
    return _with_bench(job, job.now, answers=answers)


def with_correction(job: Job, check: str) -> Job:
    """The job with one more correction at the bench."""
    made = Correction(check=check, action="bent the end piece", tool="angling pliers")
    return _with_bench(job, job.now, corrections=(*job.now.bench.corrections, made))


def _with_bench(job: Job, attempt: Attempt, **changes: object) -> Job:
    return job.with_now(attempt.with_(bench=attempt.bench.with_(**changes)))
