"""Defects are judged by zone and kind; tint and evidence of impact tests by what is asked."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.job.checks import Answer, Seen
from benchassist.job.order import Design, EyeOrder, FrameOrder, Order, Treatment
from benchassist.job.surface import Defect, DefectKind, DefectSurface, Inspection
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.judge import judge
from benchassist.verdicts.surface import category
from tests.verdicts.jobs import job_of

ISO, ANSI = "iso-21987-2017", "ansi-z80.1-2015"
PLACES = {
    "central": ("6", "-5"),
    "near": ("9", "-16"),
    "outer": ("-22", "8"),
    "edge": ("-29", "3"),
}
FRAME = FrameOrder(a=Decimal(60), b=Decimal(48), dbl=Decimal(18), ed=Decimal(66))
SIDE = EyeOrder(distance_pd=Decimal("32.5"), near_pd=Decimal(30), height=Decimal(24))
ORDER = Order(design=Design.PROGRESSIVE, frame=FRAME, right=SIDE, left=SIDE)


def defect(zone: str = "central", **more: Any) -> Defect:
    across, up = PLACES[zone]
    known = {"check": "scratches", "eye": Eye.RIGHT, "across": across, "up": up}
    return Defect.model_validate(known | more)


def findings(
    *defects: Defect, order: Order = ORDER, rules: str = ISO, **answers: Answer
) -> dict[str, Finding]:
    base = job_of({})
    surface = Inspection(answers=answers, defects=defects)
    job = base.with_(order=order).with_now(base.now.with_(surface=surface))
    found = judge(job, load_limits(rules))
    return {one.key: one for one in found if one.key.startswith("surface.")}


def only(*defects: Defect, **more: Any) -> Finding:
    (one,) = findings(*defects, **more).values()
    return one


@pytest.mark.parametrize("zone", PLACES)
@pytest.mark.parametrize("kind", DefectKind)
@pytest.mark.parametrize("eye", Eye)
def test_every_kind_in_every_zone(zone: str, kind: DefectKind, eye: Eye) -> None:
    found = only(defect(zone, kind=kind, eye=eye))
    dangerous = kind in {DefectKind.CHIP, DefectKind.CRACK, DefectKind.SHARP}
    is_outside = dangerous or zone in {"central", "near"}
    assert found.state is (State.OUTSIDE if is_outside else State.CLOSE)
    assert f"{zone} zone" in found.sentence
    assert found.eye is eye
    assert ("supervisor decides" in found.sentence) is not is_outside


@pytest.mark.parametrize(
    ("zone", "kind", "why"),
    [
        ("outer", "scratch", "away from where the wearer looks: look again"),
        ("edge", "scratch", "on what the rim or the bevel takes up: look again"),
        ("outer", "coating", "a coating that comes off there can spread: look again"),
        ("edge", "coating", "a coating that comes off there can spread: look again"),
    ],
)
def test_why_a_second_look_is_asked_for(zone: str, kind: str, why: str) -> None:
    assert f": {why}, a supervisor decides." in only(defect(zone, kind=kind)).sentence


@pytest.mark.parametrize("kind", ["chip", "crack", "sharp edge"])
def test_what_cuts_or_runs_on_is_not_judged_by_the_note_on_surfaces(kind: str) -> None:
    found = only(defect("central", kind=kind))
    assert (found.state, found.rule) == (State.OUTSIDE, None)


def test_the_sentence_names_kind_place_and_zone() -> None:
    found = only(defect(across="3", up="-5", size="1.50", remark="long."))
    assert (found.key, found.prompt, found.what) == (
        "surface.scratches.1",
        "surface.scratches",
        "Defect 1",
    )
    assert found.sentence == (
        "Scratch on the front surface, 1.5 mm large, 3 mm nasal, 5 mm below the centre, "
        "central zone: none may be seen where the wearer looks through (long)."
    )
    assert found.rule is not None
    assert "30 mm" in found.rule.note


@pytest.mark.parametrize(
    ("across", "up", "words"),
    [
        ("0", "0", "at the centre"),
        ("-2.5", "0", "2.5 mm temporal of the centre"),
        ("0", "4", "4 mm above the centre"),
        ("1", "4", "1 mm nasal, 4 mm above the centre"),
    ],
)
def test_places_in_words(across: str, up: str, words: str) -> None:
    assert f", {words}, " in only(defect(across=across, up=up)).sentence


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"kind": "inclusion", "surface": "back"}, "Inclusion seen from the back"),
        ({"kind": "coating", "surface": "back"}, "Coating fault on the back surface"),
        ({"kind": "other", "surface": "edge"}, "Defect at the edge"),
        ({"kind": "inclusion", "surface": "edge"}, "Inclusion at the edge"),
        ({"kind": "sharp edge", "surface": "edge"}, "Sharp edge, 6 mm"),
    ],
)
def test_kinds_in_words(more: dict[str, str], words: str) -> None:
    assert only(defect(**more)).sentence.startswith(words)


def test_a_defect_at_the_edge_is_not_judged_as_one_in_the_middle() -> None:
    found = only(defect(surface=DefectSurface.EDGE))
    assert found.state is State.CLOSE
    assert found.rule is None


def test_the_near_zone_has_a_rule_only_in_a_segment() -> None:
    assert only(defect("near")).rule is None
    bifocal = ORDER.with_(design=Design.BIFOCAL, segment_width=Decimal(28))
    found = only(defect("central", up="-14"), order=bifocal)
    assert "near zone" in found.sentence
    assert found.rule is not None


def test_places_stand_for_the_word_of_the_check() -> None:
    good, fault = Answer(seen=Seen.GOOD), Answer(seen=Seen.FAULT)
    found = findings(
        defect("outer"), defect("edge", check="edge", kind="chip"), scratches=fault, waves=good
    )
    assert {key: one.state for key, one in found.items()} == {
        "surface.waves": State.WITHIN,
        "surface.edge.2": State.OUTSIDE,
        "surface.scratches.1": State.CLOSE,
    }


def test_a_check_to_be_looked_at_again_keeps_its_word() -> None:
    again = Answer(seen=Seen.GOOD, again_because=("bench.screws",))
    found = findings(defect("outer"), scratches=again)
    assert found["surface.scratches"].state is State.MISSING
    assert "surface.scratches.1" in found


def test_the_right_lens_is_told_first() -> None:
    found = findings(defect(eye=Eye.LEFT), defect())
    assert list(found) == ["surface.scratches.2", "surface.scratches.1"]
    both = findings(defect(), defect("outer"), defect("edge", check="edge", kind="chip"))
    assert list(both) == ["surface.edge.3", "surface.scratches.1", "surface.scratches.2"]


@pytest.mark.parametrize(
    ("rules", "choice", "state", "words"),
    [
        (ISO, "tested", State.WITHIN, "tested."),
        (ISO, "not required here", State.NONE, "not required here."),
        (ISO, "waived in writing", State.NONE, "keep the waiver with the record"),
        (ANSI, "maker's statement", State.WITHIN, "maker's statement."),
        (ANSI, "not required here", State.CLOSE, "21 CFR 801.410"),
        (ANSI, "waived in writing", State.NONE, "keep the waiver with the record"),
    ],
)
def test_impact_evidence(rules: str, choice: str, state: State, words: str) -> None:
    found = only(rules=rules, impact=Answer(choice=choice))
    assert found.state is state
    assert words in found.sentence
    assert found.is_told is (choice == "waived in writing")
    assert (found.rule is not None) is (rules == ANSI)


def test_impact_not_answered_stays_open() -> None:
    assert only(rules=ANSI, impact=Answer(remark="asked")).state is State.MISSING


def test_impact_to_be_looked_at_again_is_open_whatever_was_chosen() -> None:
    again = Answer(choice="waived in writing", again_because=("surface.edge",))
    found = only(rules=ANSI, impact=again)
    assert found.state is State.MISSING
    assert "keep the waiver" not in found.sentence


def tint(right: str, left: str, order: Order = ORDER) -> dict[str, Finding]:
    measured = {"right": Decimal(right), "left": Decimal(left)}
    return findings(order=order, transmittance=Answer(measured=measured))


@pytest.mark.parametrize(
    ("right", "left", "state"),
    [
        ("15", "15", State.WITHIN),
        ("20", "18", State.WITHIN),
        ("18", "20.1", State.CLOSE),
        ("17", "20", State.CLOSE),
        ("20", "16.9", State.OUTSIDE),
    ],
)
def test_the_tints_of_the_pair(right: str, left: str, state: State) -> None:
    found = tint(right, left)["surface.transmittance"]
    assert found.state is state
    assert f"Right {right} %, left {left} % of the light" in found.sentence


@pytest.mark.parametrize(
    ("passes", "number"),
    [("100", 0), ("80", 1), ("43", 2), ("18", 3), ("8", 4), ("3.1", 4), ("3", None)],
)
def test_tint_categories_at_their_edges(passes: str, number: int | None) -> None:
    assert category(Decimal(passes)) == number


def test_a_tint_beside_the_category_ordered() -> None:
    ordered = ORDER.with_(tint="brown, category 3")
    found = tint("15", "19", ordered)
    assert found["surface.transmittance.right"].state is State.WITHIN
    assert found["surface.transmittance.left"].state is State.OUTSIDE
    assert "category 2, category 3 ordered" in found["surface.transmittance.left"].sentence
    changing = ordered.with_(treatments=(Treatment.PHOTOCHROMIC,))
    assert tint("15", "19", changing)["surface.transmittance.left"].state is State.NONE


def test_what_a_tint_rules_out_is_told() -> None:
    found = tint("5", "85")
    assert found["surface.transmittance.right"].is_told
    assert "never for driving" in found["surface.transmittance.right"].sentence
    assert not found["surface.transmittance.left"].is_told
    assert "dusk" in tint("70", "70")["surface.transmittance.right"].sentence
    assert "darker than every category" in tint("2", "2")["surface.transmittance.left"].sentence


# College of Optometrists, guidance on tints and driving: below 75 % not at dusk or at night,
# category 4 never; that what is darker still is not either is our own conclusion.
@pytest.mark.parametrize(
    ("passes", "caution"),
    [
        ("75", "category 1."),
        ("74.9", "category 1; not for driving at dusk or at night."),
        ("8.1", "category 3; not for driving at dusk or at night."),
        ("8", "category 4; never for driving."),
        ("3", "darker than every category; never for driving."),
    ],
)
def test_the_caution_at_the_edges_of_the_tints(passes: str, caution: str) -> None:
    found = tint(passes, passes)
    for eye in Eye:
        told = found[f"surface.transmittance.{eye}"]
        assert told.sentence == f"Tint category: {passes} % of the light is {caution}"
        assert told.is_told is (";" in caution)


def test_a_category_that_was_ordered_takes_no_caution_away() -> None:
    ordered = ORDER.with_(tint="grey, category 4")
    told = tint("5", "12", ordered)
    right, left = (told[f"surface.transmittance.{eye}"] for eye in Eye)
    assert right.state is State.WITHIN
    assert right.sentence.endswith("category 4, category 4 ordered; never for driving.")
    assert left.state is State.OUTSIDE
    assert left.sentence.endswith("category 4 ordered; not for driving at dusk or at night.")


@pytest.mark.parametrize(("passes", "can_be"), [("100", True), ("0.1", True), ("0", False)])
def test_how_much_light_can_pass(passes: str, *, can_be: bool) -> None:
    found = tint(passes, passes)["surface.transmittance"]
    assert (found.state is not State.MISSING) is can_be


def test_an_impossible_transmittance_is_measured_again() -> None:
    found = tint("120", "15")["surface.transmittance"]
    assert found.state is State.MISSING
    assert "no lens passes 120 %" in found.sentence
