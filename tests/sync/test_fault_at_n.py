"""The same short story with a death at the first step of a store, the second, the third, until no step is left."""

from typing import Any

import pytest

from tests.sync.node import Phones
from tests.sync.options import Options
from tests.sync.shop import Shop
from tests.sync.soak import play

CALM: dict[str, Any] = {"phones": 2, "deeds": 6, "seconds": 20.0, "faults": 0.0, "mishap_count": 0, "told": True}
STEPS_MAX = 120


@pytest.mark.parametrize("seed", [5, 7, 11])
@pytest.mark.parametrize("who", ["server_dies_at", "phones_die_at"])
def test_a_death_at_any_step_loses_and_doubles_nothing(fleet_table: tuple[Phones, Shop], seed: int, who: str) -> None:
    phones, shop = fleet_table
    for step in range(STEPS_MAX):
        deaths = shop.deaths + phones.deaths
        assert play(phones, shop, Options.of_seed(seed, **CALM, **{who: step})) is None
        if shop.deaths + phones.deaths == deaths:
            assert step > 10, "the story has steps to die at"
            return
    raise AssertionError("the story has more steps than were tried")
