"""The drawing of the pair shows what the verdict takes."""

from decimal import Decimal

from benchassist.guide.flow import standing
from benchassist.guide.load import load_guide
from benchassist.job.document import Attempt
from benchassist.job.readings import EyeLayout, PairReadings
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.ui.asking.scenes import scene_for


def test_the_mean_of_the_repeats_is_drawn() -> None:
    guide, job = load_guide(), load_job_file(demo_files()[0])
    right = EyeLayout(
        distance_pd=(Decimal(30), Decimal(32)), height=(Decimal(18), Decimal(18), Decimal(21))
    )
    read = job.with_now(Attempt(pair=PairReadings(right=right)))
    scene = scene_for(
        standing(read, (), guide), guide.prompt("pair.distance-pd"), hides_order=False
    )
    assert scene.found_right is not None
    assert (scene.found_right.distance_pd, scene.found_right.height) == (31.0, 19.0)
    assert scene.found_right.near_pd is None
