"""The English guide, read once, and the simulated frames of packaging/."""

import importlib.util
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide

SCRIPT = Path(__file__).parents[2] / "packaging" / "simulated_frames.py"


@pytest.fixture(scope="session")
def guide() -> Guide:
    return load_guide()


@pytest.fixture(scope="module")
def frames() -> Iterator[ModuleType]:
    """Frames bent in space, and what the tools show of them."""
    spec = importlib.util.spec_from_file_location("simulated_frames", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["simulated_frames"] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules["simulated_frames"]
