"""What holds for every test: no display, no network, no unexpected warning in the log."""

import logging
import os
import socket
from collections.abc import Iterator

import pytest

os.environ["QT_QPA_PLATFORM"] = "offscreen"


@pytest.fixture(autouse=True, scope="session")
def _no_network() -> Iterator[None]:
    """Let no test reach another computer: the program never does, so neither do its tests."""
    real_connect = socket.socket.connect

    def connect(one: socket.socket, address: str | tuple[str, int]) -> None:
        if not isinstance(address, str):
            pytest.fail(f"a test tried to reach {address[0]}, port {address[1]}")
        real_connect(one, address)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", connect)
        yield


@pytest.fixture(autouse=True)
def _quiet_log(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """Fail a test that logs a warning; one that expects it looks at `caplog` and clears it."""
    yield
    loud = [
        record.getMessage()
        for phase in ("setup", "call")
        for record in caplog.get_records(phase)
        if record.levelno >= logging.WARNING
    ]
    assert not loud, f"logged without being expected: {loud}"
