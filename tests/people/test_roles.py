import pytest

from benchassist.job.signoff import (
    Outcome,
    Person,
    Role,
    Signature,
    SignOff,
    is_same_person,
)
from benchassist.people.roles import Act, may
from tests.job.samples import OPTICIAN, SUPERVISOR, TRAINEE, later

BY_OPTICIAN = Signature(person=OPTICIAN, at=later(30))
BY_SUPERVISOR = Signature(person=SUPERVISOR, at=later(40))

OPEN = SignOff()
SIGNED = SignOff(outcome=Outcome.RELEASE, dispensed=BY_OPTICIAN)
HELD = SignOff(outcome=Outcome.HOLD, reason="no wearer", dispensed=BY_OPTICIAN)
CLOSED = SIGNED.with_(countersigned=BY_SUPERVISOR)
SENT_BACK = SignOff(outcome=Outcome.RELEASE, sent_back=BY_SUPERVISOR)

STAGES = {
    "open": OPEN,
    "signed": SIGNED,
    "held": HELD,
    "closed": CLOSED,
    "sent back": SENT_BACK,
}

ALLOWED = {
    ("open", Act.EDIT): "TOS",
    ("open", Act.PREPARE): "TOS",
    ("open", Act.DISPENSE): "OS",
    ("sent back", Act.EDIT): "TOS",
    ("sent back", Act.PREPARE): "TOS",
    ("sent back", Act.DISPENSE): "OS",
    ("signed", Act.COUNTERSIGN): "S",
    ("signed", Act.SEND_BACK): "S",
    ("held", Act.SEND_BACK): "OS",
    ("closed", Act.NEW_ATTEMPT): "TOS",
}
"""Who may do what: trainee, optician, supervisor. What is not here, nobody may."""


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("act", Act)
def test_who_may_do_what(stage: str, act: Act) -> None:
    answers = {
        letter: may(person, act, STAGES[stage])
        for letter, person in (("T", TRAINEE), ("O", OPTICIAN), ("S", SUPERVISOR))
    }
    allowed = "".join(letter for letter, answer in answers.items() if answer is None)
    assert allowed == ALLOWED.get((stage, act), "")
    assert all(answer.endswith(".") for answer in answers.values() if answer is not None)


@pytest.mark.parametrize(
    "name",
    [
        "Priya Nandakumar",
        "priya  nandakumar",
        "PRIYA NANDAKUMAR ",
        "Priya Nandakumar.",
        "Priya\u200b Nandakumar",
        "Priya-Nandakumar",
        "PriyaNanda\u200ckumar",
        "\uff30riya \uff2eandakumar",
        "Priya Nandakumar\u034f\ufe0f",
    ],
)
def test_nobody_countersigns_their_own_dispensing(name: str) -> None:
    as_optician = Person(name=name, role=Role.OPTICIAN)
    own = SIGNED.with_(dispensed=Signature(person=as_optician, at=later(30)))
    refusal = may(SUPERVISOR, Act.COUNTERSIGN, own)
    assert refusal == "The supervisor must be another person than the one who dispensed."
    assert is_same_person(SUPERVISOR, as_optician)
    assert not is_same_person(SUPERVISOR, OPTICIAN)


def test_a_refusal_names_who_has_signed() -> None:
    assert may(TRAINEE, Act.EDIT, SIGNED) == (
        "Ilse Varga has signed this attempt. It is sent back before anything changes."
    )


def both(one: str, other: str) -> tuple[Person, Person]:
    return Person(name=one, role=Role.OPTICIAN), Person(name=other, role=Role.SUPERVISOR)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Zoë Ångström", "Zoe\u0308 A\u030angstro\u0308m"),
        ("Anna Weiß", "ANNA WEISS"),
    ],
)
def test_one_name_written_in_two_ways_is_one_person(one: str, other: str) -> None:
    assert is_same_person(*both(one, other))


@pytest.mark.parametrize(
    ("one", "other"),
    [("Zoë Lind", "Zoe Lind"), ("मीरा", "मारी"), ("Ada Lind 1", "Ada Lind 2")],
)
def test_letters_marks_and_digits_tell_persons_apart(one: str, other: str) -> None:
    assert not is_same_person(*both(one, other))
