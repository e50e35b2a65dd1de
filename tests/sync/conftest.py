"""One server and one process of phones for all tests of this folder."""

from collections.abc import Iterator

import pytest

from tests.sync.node import Phones
from tests.sync.shop import Shop
from tests.sync.soak import table


@pytest.fixture(scope="session")
def fleet_table() -> Iterator[tuple[Phones, Shop]]:
    """What the simulator plays with."""
    with table() as both:
        yield both
