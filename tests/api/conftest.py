"""A world for each test: two workshops, their people, and the neighbour's card always present."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.server import InProcess, RealServer, World, furnish, running_server


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A furnished data folder, made once and copied for each test."""
    folder = tmp_path_factory.mktemp("template")
    furnish(folder)
    return folder


@pytest.fixture
def world(template: Path, tmp_path: Path) -> Iterator[World]:
    """The server in this process."""
    made = World(shutil.copytree(template, tmp_path / "data"))
    yield made
    made.store.close()


@pytest.fixture
def ines(world: World) -> InProcess:
    """A technician."""
    return world.sign_in("Ines Varga")


@pytest.fixture
def tom(world: World) -> InProcess:
    """Another technician."""
    return world.sign_in("Tom Abara")


@pytest.fixture
def ruth(world: World) -> InProcess:
    """The foreman."""
    return world.sign_in("Ruth Okello")


@pytest.fixture
def olga(world: World) -> InProcess:
    """The owner."""
    return world.sign_in("Olga Tern")


@pytest.fixture
def server(template: Path, tmp_path: Path) -> Iterator[RealServer]:
    """The real server process."""
    folder = shutil.copytree(template, tmp_path / "data")
    World(folder).store.close()
    with running_server(folder) as made:
        yield made
