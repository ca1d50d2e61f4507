"""What is proposed for a bent frame: the innermost fault, its side and its amount."""

from dataclasses import replace
from decimal import Decimal
from types import ModuleType

import pytest

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.propose import GoOn, Proposal, proposal
from benchassist.guide.reopening import Done, reopen
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.order import FrameMaterial, Rim
from benchassist.optics.eye import Eye
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.rocking import Lacking, rocking
from tests.guide.bent import GUIDE, job_of, stands


def proposed(job: Job) -> Proposal:
    found = proposal(stands(job))
    assert found is not None
    return found


def without(job: Job, *names: str) -> Job:
    """The job with these checks not answered."""
    left = {key: one for key, one in job.now.bench.answers.items() if key not in names}
    return job.with_now(job.now.with_(bench=job.now.bench.with_(answers=left)))


def test_a_true_frame_calls_for_nothing(frames: ModuleType) -> None:
    assert proposal(stands(job_of(frames, FrameState.true()))) is None


def test_each_single_fault_is_named_with_side_and_amount(frames: ModuleType) -> None:
    for kind in frames.KINDS:
        for sign in (1.0, -1.0):
            eye = Eye.RIGHT if kind.on_side else None
            size = sign * 3.0 * frames.bench_limit(kind.limit)
            state = frames.with_fault(FrameState.true(), frames.Planted(kind, size, eye))
            one = proposed(job_of(frames, state))
            assert one.go_on is GoOn.CORRECT
            assert one.move is not None
            assert (one.move.number, one.move.side) == (kind.number, eye), kind
            assert float(one.move.change) == pytest.approx(-size, rel=0.1), kind
            assert one.sentence.startswith(one.move.words[:1].upper() + one.move.words[1:])
            assert one.remedy in GUIDE.prompt(one.check).remedies


def test_the_innermost_of_several_faults_comes_first(frames: ModuleType) -> None:
    state = FrameState.true().with_bridge(skew_step=3.0, x_ing=3.0)
    state = state.with_side(Eye.LEFT, pantoscopic=state.left.pantoscopic + 4.0, drop=70.0)
    assert proposed(job_of(frames, state)).check == "bench.skew"
    assert proposed(job_of(frames, state.with_bridge(skew_step=0.0))).check == "bench.x-ing"
    no_bridge = state.with_bridge(skew_step=0.0, x_ing=0.0)
    assert proposed(job_of(frames, no_bridge)).check == "bench.pantoscopic"


def test_what_lies_further_inwards_is_measured_before_anything_is_bent(
    frames: ModuleType,
) -> None:
    job = job_of(frames, FrameState.true().with_bridge(x_ing=3.0))
    one = proposed(without(job, "skew"))
    assert (one.check, one.go_on) == ("bench.skew", GoOn.MEASURE)
    assert "'Skewed bridge'" in one.sentence


def test_the_table_sees_x_ing_that_a_plate_does_not(frames: ModuleType) -> None:
    """X-ing of 0.9 degrees is within; with 0.9 more of the temples the table is far out."""
    state = FrameState.true().with_bridge(x_ing=0.9)
    state = state.with_side(Eye.RIGHT, pantoscopic=state.right.pantoscopic + 0.5)
    one = proposed(job_of(frames, state))
    assert one.check == "bench.x-ing"
    assert one.move is not None
    assert float(one.move.change) == pytest.approx(-0.9, abs=0.1)
    assert "lies further inwards" in one.because
    other = proposed(job_of(frames, state.mirrored()))
    assert other.check == one.check
    assert other.move is not None
    assert other.move.change == -one.move.change


def test_a_tip_that_the_temple_angle_lifts_is_left_alone(frames: ModuleType) -> None:
    """Half a degree lifts the tip by more than its limit and the shaft by less."""
    state = FrameState.true()
    state = state.with_side(Eye.RIGHT, pantoscopic=state.right.pantoscopic + 0.5)
    job = job_of(frames, state)
    assert {one.key for one in stands(job).outside} == {"bench.table-upright"}
    one = proposed(job)
    assert one.move is not None
    assert (one.check, one.move.number) == ("bench.pantoscopic", "pantoscopic")


@pytest.mark.parametrize(
    ("pantoscopic", "drop", "number"), [(0.3, 2.5, "drop"), (0.45, 1.2, "pantoscopic")]
)
@pytest.mark.parametrize("eye", Eye)
def test_a_tip_is_bent_where_it_lifts_more_than_half(
    frames: ModuleType, eye: Eye, pantoscopic: float, drop: float, number: str
) -> None:
    """The temples open 0.6 of 1.8 mm in the one frame, 0.9 of 1.6 mm in the other."""
    side = FrameState.true().side(eye)
    bent = {"pantoscopic": side.pantoscopic + pantoscopic, "drop": side.drop + drop}
    one = proposed(job_of(frames, FrameState.true().with_side(eye, **bent)))
    assert one.move is not None
    assert one.move.number == number


def test_of_two_findings_the_worse_is_put_right_first(frames: ModuleType) -> None:
    state = FrameState.true().with_bridge(plane_step=1.2, form_right=10.0, form_left=10.0)
    one = proposed(job_of(frames, state))
    assert one.move is not None
    assert one.move.number == "form"
    state = FrameState.true().with_bridge(plane_step=5.0, form_right=6.5, form_left=6.5)
    one = proposed(job_of(frames, state))
    assert one.move is not None
    assert one.move.number == "plane_step"


def test_a_bend_too_far_back_goes_before_the_tip_that_it_lifts(frames: ModuleType) -> None:
    state = FrameState.true().with_side(Eye.LEFT, bend_start=106.0)
    job = job_of(frames, state)
    assert "bench.table-upright" in {one.key for one in stands(job).outside}
    assert proposed(job).check == "bench.temple-bend"
    waits = proposed(without(job, "temple-bend"))
    assert (waits.check, waits.go_on) == ("bench.temple-bend", GoOn.MEASURE)


def test_measurements_that_contradict_each_other_are_taken_again(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true())
    answers = dict(job.now.bench.answers)
    read = dict(answers["pantoscopic"].measured)
    read["right_offset"] += 3
    answers["pantoscopic"] = Answer(measured=read)
    job = job.with_now(job.now.with_(bench=job.now.bench.with_(answers=answers)))
    one = proposed(job)
    assert one.go_on is GoOn.MEASURE
    assert "cannot all be right" in one.sentence
    found = rocking(job)
    assert isinstance(found, Lacking)
    assert found.why is Why.CONTRADICTORY


def test_three_times_in_one_place_is_enough(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true().with_bridge(skew_step=3.0))
    fresh = job.now.bench.answers
    for _ in range(3):
        one = proposed(job)
        assert one.go_on is GoOn.CORRECT
        assert one.remedy is not None
        job = reopen(job, GUIDE, Done(one.check, one.remedy.id, unit="mm"))
        bench = job.now.bench.with_(answers=fresh)
        job = job.with_now(job.now.with_(bench=bench))
    one = proposed(job)
    assert one.go_on is GoOn.STOP
    assert "3 times" in one.because


def test_a_bend_without_an_amount_or_to_and_fro_counts_as_well(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true().with_side(Eye.RIGHT, open_angle=101.0))
    fresh = job.now.bench.answers
    for remedy, side in (("bring-in", Eye.RIGHT), ("let-out", Eye.RIGHT), ("bring-in", None)):
        job = reopen(job, GUIDE, Done("bench.open-angle", remedy, side=side))
    bench = job.now.bench.with_(answers=fresh)
    one = proposed(job.with_now(job.now.with_(bench=bench)))
    assert one.go_on is GoOn.STOP
    assert "3 times in the same place" in one.because


def test_what_was_bent_on_one_side_does_not_stop_the_other(frames: ModuleType) -> None:
    true = FrameState.true()
    odd = {eye: true.with_side(eye, open_angle=101.0) for eye in Eye}
    job = job_of(frames, odd[Eye.RIGHT])
    done = Done("bench.open-angle", "bring-in", "", Eye.RIGHT, Decimal(3), "°")
    for _ in range(3):
        job = reopen(job, GUIDE, done)
    logged = job.now.bench.corrections
    for eye, go_on in ((Eye.RIGHT, GoOn.STOP), (Eye.LEFT, GoOn.CORRECT)):
        fresh = job_of(frames, odd[eye])
        bench = fresh.now.bench.with_(corrections=logged)
        assert proposed(fresh.with_now(fresh.now.with_(bench=bench))).go_on is go_on


@pytest.mark.parametrize(
    "material", [FrameMaterial.CARBON, FrameMaterial.NYLON, FrameMaterial.MEMORY_ALLOY]
)
def test_what_cannot_be_bent_is_sent_back(frames: ModuleType, material: FrameMaterial) -> None:
    job = job_of(frames, FrameState.true().with_bridge(skew_step=3.0), material=material)
    one = proposed(job)
    assert (one.go_on, one.remedy) == (GoOn.STOP, None)
    assert f"on this {material} frame" in one.because


@pytest.mark.parametrize("rim", [Rim.RIMLESS, Rim.HALF])
@pytest.mark.parametrize(
    "bent", [{"skew_step": 3.0}, {"x_ing": 3.0}, {"plane_step": 3.0}, {"form_right": 12.0}]
)
def test_no_bridge_is_bent_through_a_lens_that_no_rim_holds(
    frames: ModuleType, rim: Rim, bent: dict[str, float]
) -> None:
    one = proposed(job_of(frames, FrameState.true().with_bridge(**bent), rim=rim))
    assert one.remedy is not None
    assert one.remedy.rims == (rim,)
    word = "Brace the mount" if rim is Rim.RIMLESS else "Take the lenses out"
    assert one.remedy.does.startswith(word)
    assert "thumbs" not in f"{one.remedy.does} {one.remedy.tool}"


def test_a_plastic_bridge_is_not_warmed_beside_a_drill_hole(frames: ModuleType) -> None:
    bent = FrameState.true().with_bridge(skew_step=3.0)
    job = job_of(frames, bent, material=FrameMaterial.ACETATE, rim=Rim.RIMLESS)
    assert proposed(job).go_on is GoOn.STOP


def test_a_frame_that_nobody_has_named_is_named_before_it_is_bent(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true().with_bridge(skew_step=3.0), material=None)
    one = proposed(job)
    assert (one.check, one.go_on, one.remedy) == ("order.frame", GoOn.MEASURE, None)
    assert "brittle" in one.because


@pytest.mark.parametrize("check", ["table-upright", "temple-bend", "fold"])
@pytest.mark.parametrize("material", FrameMaterial)
def test_each_end_is_bent_as_its_material_bears(check: str, material: FrameMaterial) -> None:
    """Epoxy breaks cold; of carbon fibre only the sleeve of a tip gives. From the guide."""
    fits = [one for one in GUIDE.prompt(f"bench.{check}").remedies if material in one.materials]
    if material is FrameMaterial.CARBON:
        assert all("sleeve" in one.does for one in fits)
    else:
        assert fits
    if material is FrameMaterial.EPOXY:
        assert all(one.does.startswith("Warm ") for one in fits)


def test_titanium_is_bent_past_the_mark(frames: ModuleType) -> None:
    job = job_of(
        frames, FrameState.true().with_bridge(skew_step=3.0), material=FrameMaterial.TITANIUM
    )
    assert "springs back" in proposed(job).sentence


def test_a_lens_that_is_turned_springs_nowhere(frames: ModuleType) -> None:
    turned = FrameState.true().with_side(Eye.RIGHT, lens_turn=5.0)
    one = proposed(job_of(frames, turned, material=FrameMaterial.TITANIUM))
    assert one.check == "bench.rotation"
    assert "springs back" not in one.sentence


def test_a_fault_seen_by_eye_has_no_amount(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true())
    answers = {**job.now.bench.answers, "skew": Answer(seen=Seen.FAULT)}
    job = job.with_now(job.now.with_(bench=job.now.bench.with_(answers=answers)))
    one = proposed(job)
    assert (one.check, one.move) == ("bench.skew", None)
    assert one.remedy is not None
    assert one.sentence.startswith(one.remedy.does)
    assert "Measured, it could be said" in one.sentence


def test_the_mirror_image_calls_for_the_mirror_image(frames: ModuleType) -> None:
    state = FrameState.true().with_side(Eye.RIGHT, open_angle=101.0)
    one, other = (proposed(job_of(frames, each)) for each in (state, state.mirrored()))
    assert one.move is not None
    assert other.move is not None
    assert replace(one.move, side=Eye.LEFT, change=other.move.change) == other.move
    assert float(one.move.change) == pytest.approx(float(other.move.change), abs=0.01)
