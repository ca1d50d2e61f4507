"""Symptoms, their causes, and what is advised."""

import re
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from benchassist.assets import asset
from benchassist.guide.guide import Guide
from benchassist.guide.symptoms import Symptom, advise, faults, load_symptoms
from benchassist.job.order import EyeOrder, FrameMaterial, FrameOrder, Order
from benchassist.optics.eye import Eye
from benchassist.wrong import BenchError

SYMPTOMS = load_symptoms()
ORDER = Order(
    frame=FrameOrder(a=Decimal(52), b=Decimal(38), temple_length=Decimal(140)),
    right=EyeOrder(distance_pd=Decimal(31)),
    left=EyeOrder(distance_pd=Decimal(31)),
)
every_symptom = pytest.mark.parametrize("symptom", SYMPTOMS, ids=lambda one: one.id)


def named(name: str) -> Symptom:
    return next(one for one in SYMPTOMS if one.id == name)


@every_symptom
def test_every_cause_belongs_to_a_check_of_the_fit(symptom: Symptom, guide: Guide) -> None:
    for cause in symptom.cause:
        assert guide.prompt(f"fit.{cause.check}")
    assert symptom.belongs_to(f"fit.{symptom.cause[0].check}")


@every_symptom
@pytest.mark.parametrize("side", [*Eye, None])
@pytest.mark.parametrize("offset", [None, Decimal(0), Decimal(3), Decimal(30)])
def test_advice_is_one_whole_sentence(
    symptom: Symptom, side: Eye | None, offset: Decimal | None
) -> None:
    for order in (Order(), ORDER):
        for advice in advise(order, symptom, side, offset):
            for text in (advice.does, advice.caution, advice.watch):
                assert text.endswith(".")
                assert "{" not in text
                assert "  " not in text
            assert (
                advice.does.count(".")
                - sum(
                    char.isdigit() and advice.does[at - 1] == "."
                    for at, char in enumerate(advice.does)
                )
                == 1
            )


def test_the_higher_side_goes_up_and_mirrored_for_the_left() -> None:
    right, _ = advise(ORDER, named("one-side-higher"), Eye.RIGHT, Decimal(4))
    left, _ = advise(ORDER, named("one-side-higher"), Eye.LEFT, Decimal(4))
    # atan(4 / 95): 140 mm of temple less 45 mm behind the ear.
    assert right.does == (
        "Bend the right temple up at the endpiece by about 2.4°, or the left one down as much."
    )
    assert left.does == (
        "Bend the left temple up at the endpiece by about 2.4°, or the right one down as much."
    )
    assert "95.0 mm from joint to ear" in right.reckoned


def test_a_closer_lens_brings_its_temple_in_and_a_large_bend_is_halved() -> None:
    (advice, *_) = advise(ORDER, named("one-lens-closer"), Eye.LEFT, Decimal(3))
    # 2 asin(3 / 62) = 5.5 degrees, more than one dares at once.
    assert advice.does.startswith("Bring the left temple in at the endpiece by about 2.8°")
    assert advice.reckoned.startswith("It needs 5.5°")
    assert "Never more than 5° in one go" in advice.reckoned


# Own derivation: 0.5 mm of reading over 95 mm is 0.30 degrees; 4 mm over a length known to 4 mm
# of 95 another 0.10, known to 8 mm another 0.20. Twice both together: 0.64 and 0.73.
@pytest.mark.parametrize(
    ("order", "reckoned"),
    [
        (
            ORDER,
            "2.4° ± 0.6° with 95.0 mm from joint to ear, the temple of 140.0 mm less 45.0 mm",
        ),
        (Order(), "2.4° ± 0.7° with a usual 95.0 mm from joint to ear."),
        (
            ORDER.with_(frame=FrameOrder(temple_length=Decimal(45))),
            "2.4° ± 0.7° with a usual 95.0 mm from joint to ear.",
        ),
    ],
    ids=["ordered", "usual", "no reach"],
)
def test_how_well_an_amount_is_known_and_from_what(order: Order, reckoned: str) -> None:
    for advice in advise(order, named("one-side-higher"), Eye.RIGHT, Decimal(4)):
        assert advice.reckoned.startswith(reckoned)


@pytest.mark.parametrize(
    ("symptom", "by", "basis"),
    [
        # asin(3 / 38), asin(3 / 52), atan(1.5 / 95), 3 tan 20, 3 tan 30 and atan(3 / 45).
        ("cheeks", "4.5°", "a lens depth of 38.0 mm as ordered"),
        ("nearer-at-nose", "3.3°", "a lens width of 52.0 mm as ordered"),
        ("slides-snug", "0.9°", "95.0 mm from joint to ear"),
        ("both-low", "1.1 mm", "a usual nose of 20° from the front"),
        ("lashes", "1.7 mm", "a usual nose of 30° from above"),
        ("sore-behind-ear", "3.8°", "a usual end of 45.0 mm behind the ear"),
        ("sore-ear-top", "3.0 mm", ""),
    ],
)
def test_each_amount_by_its_own_length(symptom: str, by: str, basis: str) -> None:
    (advice, *_) = advise(ORDER, named(symptom), Eye.RIGHT, Decimal(3))
    assert f" by about {by}" in advice.does
    assert basis in advice.reckoned
    assert advice.reckoned.startswith(f"{by} ± ")


def test_the_end_that_stands_nearer_says_which_way_to_swing() -> None:
    """Nearer at the nose, farther at the temple: swung back too little; else too much."""
    for name, way in (("nearer-at-nose", "back"), ("nearer-at-temple", "forward")):
        (one,) = advise(ORDER, named(name), Eye.LEFT, Decimal(3))
        assert f"the temple end of the left half {way} at the bridge by about" in one.does


def framed(material: FrameMaterial) -> Order:
    return ORDER.with_(frame=ORDER.frame.with_(material=material))


def test_a_moulded_bridge_has_no_pads_to_bend() -> None:
    for symptom in SYMPTOMS:
        for one in advise(framed(FrameMaterial.ACETATE), symptom, Eye.RIGHT, Decimal(3)):
            assert not re.match(
                r"(Spread|Narrow) each pad|Even the pads|Turn the pad", one.does
            )
        for one in advise(framed(FrameMaterial.METAL), symptom, Eye.RIGHT, Decimal(3)):
            assert "moulded" not in f"{one.cause} {one.does}"
    (low,) = advise(framed(FrameMaterial.ACETATE), named("both-low"), None, Decimal(3))
    assert low.does.startswith("Fit build-up pads")
    assert len(advise(ORDER, named("both-low"), None, None)) == 2, "either, while unknown"


def test_carbon_fibre_is_not_bent() -> None:
    for symptom in SYMPTOMS:
        for one in advise(framed(FrameMaterial.CARBON), symptom, Eye.RIGHT, Decimal(3)):
            assert "endpiece" not in one.does
            assert "at the bridge" not in one.does


@pytest.mark.parametrize("material", [FrameMaterial.NYLON, FrameMaterial.MEMORY_ALLOY])
def test_a_bridge_that_cannot_be_set_is_sent_back(material: FrameMaterial) -> None:
    (one,) = advise(framed(material), named("nearer-at-nose"), Eye.RIGHT, Decimal(3))
    assert one.does.endswith("send the pair back.")
    assert one.reckoned == ""


def test_half_a_pd_is_no_pd() -> None:
    one = ORDER.with_(left=EyeOrder())
    (advice, *_) = advise(one, named("one-lens-closer"), Eye.LEFT, Decimal(2))
    # 2 asin(2 / 64) = 3.6 degrees; with the half that is known alone it would be 7.4.
    assert "by about 3.6°" in advice.does
    assert "with a PD of 64.0 mm as usual" in advice.reckoned


@every_symptom
def test_what_must_not_happen_is_told_as_a_caution(symptom: Symptom) -> None:
    told = advise(ORDER, symptom, Eye.RIGHT, None)
    assert [(one.caution, one.watch) for one in told] == [
        (cause.caution, cause.watch) for cause in symptom.cause
    ]


def test_without_an_offset_the_amount_is_asked_for() -> None:
    (advice, *_) = advise(ORDER, named("both-low"), None, None)
    assert "by about" not in advice.does
    assert advice.reckoned == "Measure the offset to learn by how much."


def test_an_offset_that_no_bend_makes_up_for() -> None:
    order = ORDER.with_(frame=FrameOrder(b=Decimal(20)))
    (advice, *_) = advise(order, named("cheeks"), None, Decimal(25))
    assert "measure it again" in advice.reckoned


def test_every_fault_of_a_file_is_named() -> None:
    first = named("one-side-higher")
    cause = first.cause[0]
    wrong = (
        first,
        first,
        first.with_(id="a", cause=(cause.with_(by="guess"),)),
        first.with_(id="b", cause=(cause.with_(does="Bend it."),)),
        first.with_(id="c", label=""),
        first.with_(id="d", asks_side=False),
        first.with_(id="e", cause=(cause.with_(instead="Leave it."),)),
    )
    said = " ".join(faults(wrong))
    for words in (
        "on which bridge",
        "there twice",
        "by guess",
        "a place for its amount",
        "no offset",
        "nobody",
    ):
        assert words in said


def test_another_language_lays_its_words_over_the_english(tmp_path: Path) -> None:
    english = asset("guide", "en", "symptoms.toml").read_text("utf-8")
    for name, text in {
        "en": english,
        "de": '[[symptom]]\nid = "both-low"\ntitle = "Beide Seiten sitzen zu tief"\n',
    }.items():
        (tmp_path / name).mkdir()
        (tmp_path / name / "symptoms.toml").write_text(text, "utf-8")
    german = load_symptoms("de", tmp_path)
    assert [one.id for one in german] == [one.id for one in SYMPTOMS]
    told = next(one for one in german if one.id == "both-low")
    assert told.title == "Beide Seiten sitzen zu tief"
    assert told.cause == named("both-low").cause


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('id = "temple-low"', 'id = "Low!"', "symptom 'one-side-higher', cause 'Low!', id: "),
        ("[[symptom]]", "[[symptom", "cannot be read: "),
        ('by = "', 'by = "guess-', "reckons by guess-"),
    ],
)
def test_a_file_that_cannot_be_used_says_so_in_one_line(
    tmp_path: Path, old: str, new: str, words: str
) -> None:
    english = asset("guide", "en", "symptoms.toml").read_text("utf-8")
    assert old in english
    (tmp_path / "en").mkdir()
    (tmp_path / "en" / "symptoms.toml").write_text(english.replace(old, new, 1), "utf-8")
    with pytest.raises(BenchError) as refused:
        load_symptoms(folder=tmp_path)
    assert refused.value.sentence.startswith("The file en/symptoms.toml cannot be ")
    assert words in refused.value.sentence
    assert "\n" not in refused.value.sentence


def test_every_source_is_listed() -> None:
    text = asset("guide", "en", "guide.toml").read_text("utf-8")
    listed = {source["id"] for source in tomllib.loads(text)["source"]}
    assert {name for symptom in SYMPTOMS for name in symptom.evidence} <= listed
