"""Servers that end with their test."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

sys.path.append(str(Path(__file__).parent))  # for the client, which the tests share

from language_client import Client


@pytest.fixture
def started(tmp_path: Path) -> Iterator[Callable[..., Client]]:
    """Starts servers in a folder of the test's own."""
    clients: list[Client] = []

    def start(*arguments: Any, **more: Any) -> Client:
        clients.append(Client(tmp_path, *arguments, **more))
        return clients[-1]

    yield start
    for one in clients:
        if one.process.poll() is None:
            one.process.kill()
        one.process.wait()
        for stream in (one.process.stdin, one.process.stdout, one.process.stderr):
            if stream is not None:
                stream.close()
