"""The English guide, read once."""

import pytest

from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide


@pytest.fixture(scope="session")
def guide() -> Guide:
    return load_guide()
