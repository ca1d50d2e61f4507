"""The fixture of bench cases written as a test's docstring."""

from collections.abc import Callable

import pytest

from tests.verdicts.bench_cases import BenchCase


@pytest.fixture
def holds(request: pytest.FixtureRequest) -> Callable[[], None]:
    """Judges the case in the test's docstring and compares it with what is expected there."""
    return BenchCase(request.function.__doc__).holds
