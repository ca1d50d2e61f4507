"""The readings of the pair, as a job file holds them."""

from decimal import Decimal

from benchassist.job.readings import PairReadings


def test_a_distance_of_both_lenses_together_is_written_and_read() -> None:
    read = PairReadings(distance_pd=(Decimal("63.5"), Decimal(64)))
    assert PairReadings.model_validate_json(read.model_dump_json()) == read
    assert '"distance_pd":["63.5","64"]' in read.model_dump_json()
