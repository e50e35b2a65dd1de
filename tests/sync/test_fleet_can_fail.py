"""The simulator can fail: each deliberate mistake is noticed within a known number of seeds."""

from typing import Any

import pytest

from tests.sync.node import Phones
from tests.sync.options import Options
from tests.sync.shop import Shop
from tests.sync.soak import play

RESTORES = {"mishaps": ("backup and restore",), "mishap_count": 3, "faults": 0.1}
CUTS = {"fates": ("request cut", "answer lost"), "faults": 0.6}
POWER_CUTS = {"mishaps": ("app dies",), "mishap_count": 5}
MISTAKES: list[tuple[str, str, int, dict[str, Any]]] = [
    ("server_bug", "answer before the commit", 3, {}),
    ("server_bug", "cursor one too far", 3, {}),
    ("server_bug", "replaces is dropped", 3, {}),
    ("server_bug", "nothing is known already", 3, {}),
    ("server_bug", "part of a photo is a photo", 20, CUTS),
    ("server_bug", "restored in secret", 20, RESTORES),
    ("phone_bug", "line leaves the outbox when the request leaves", 3, {}),
    ("phone_bug", "a try again is a new entry", 3, {}),
    ("phone_bug", "photo is sent when some of it is", 20, CUTS),
    ("phone_bug", "cursor is kept before the page", 60, POWER_CUTS),
    ("phone_bug", "what is refused is dropped", 10, {}),
    ("phone_bug", "every entry that was sent counts as kept", 10, {}),
    ("phone_bug", "no entry lets the others go first", 10, {"stumbles": 1}),
    ("phone_bug", "what the server fails over is set aside", 10, {"stumbles": 1, "stumble": "raises"}),
]


@pytest.mark.parametrize(("side", "mistake", "seeds", "options"), MISTAKES, ids=[one[1] for one in MISTAKES])
def test_a_deliberate_mistake_is_noticed(
    fleet_table: tuple[Phones, Shop], side: str, mistake: str, seeds: int, options: dict[str, Any]
) -> None:
    played = (play(*fleet_table, Options.of_seed(seed, **options, **{side: mistake})) for seed in range(seeds))
    assert any(broken is not None for broken in played)


def test_without_a_mistake_the_same_seeds_pass(fleet_table: tuple[Phones, Shop]) -> None:
    for seed in range(20):
        for options in ({}, CUTS, RESTORES, POWER_CUTS):
            assert play(*fleet_table, Options.of_seed(seed, **options)) is None
