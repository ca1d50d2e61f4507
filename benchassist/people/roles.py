"""Who may do what with a job: a refusal is a sentence, not an error."""

from enum import StrEnum

from benchassist.job.signoff import (
    Outcome,
    Person,
    Role,
    SignOff,
    countersigning_fault,
    dispensing_fault,
)


class Act(StrEnum):
    """Something a person wants to do with the present attempt of a job."""

    EDIT = "edit"
    """Enter, change or undo anything."""
    PREPARE = "prepare"
    DISPENSE = "dispense"
    COUNTERSIGN = "countersign"
    SEND_BACK = "send back"
    """Open a signed attempt again: after a doubt, or after being on hold."""
    NEW_ATTEMPT = "new attempt"


def may(person: Person, act: Act, signoff: SignOff) -> str | None:
    """None when the person may do it now, else the sentence that says why not."""
    match act:
        case Act.EDIT | Act.PREPARE:
            return _unsigned(signoff)
        case Act.DISPENSE:
            return _dispensing(person, signoff)
        case Act.COUNTERSIGN:
            return _countersigning(person, signoff)
        case Act.SEND_BACK:
            return _sending_back(person, signoff)
        case Act.NEW_ATTEMPT:
            return _starting_again(signoff)


def may_set_house_rules(person: Person) -> str | None:
    """None when the person may change the limits of the workshop, else why not."""
    if person.role is Role.SUPERVISOR:
        return None
    return "Only a supervisor changes house rules. They can be read here."


def _unsigned(signoff: SignOff) -> str | None:
    if signoff.countersigned is not None:
        return "This attempt is closed. Only a new attempt can change anything."
    if signoff.dispensed is not None:
        name = signoff.dispensed.person.name
        return f"{name} has signed this attempt. It is sent back before anything changes."
    return None


def _dispensing(person: Person, signoff: SignOff) -> str | None:
    return dispensing_fault(person) or _unsigned(signoff)


def _countersigning(person: Person, signoff: SignOff) -> str | None:
    if signoff.countersigned is not None:
        return f"{signoff.countersigned.person.name} has countersigned already."
    dispenser = signoff.dispensed.person if signoff.dispensed else None
    return countersigning_fault(person, dispenser, signoff.outcome)


def _sending_back(person: Person, signoff: SignOff) -> str | None:
    if signoff.dispensed is None:
        return "There is nothing to send back: no optician has signed yet."
    if signoff.countersigned is not None:
        return "This attempt is closed and cannot be sent back. Begin a new attempt."
    if signoff.outcome is Outcome.HOLD and person.role is not Role.TRAINEE:
        return None
    if person.role is not Role.SUPERVISOR:
        return "Only a supervisor sends a signed job back."
    return None


def _starting_again(signoff: SignOff) -> str | None:
    if signoff.countersigned is None:
        return "A new attempt begins when the present one is closed by a supervisor."
    return None
