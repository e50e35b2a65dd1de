"""What a phone has called kept reaches the desk exactly once: many seeds, and every seed that once failed."""

import hashlib
import json
from pathlib import Path

import pytest

from tests.sync.node import Phones
from tests.sync.options import Options
from tests.sync.shop import Shop
from tests.sync.soak import play

Table = tuple[Phones, Shop]
SEEDS = 2_000
AT_ONCE = 100
KEPT = sorted((Path(__file__).parent / "seeds").glob("*.json"))


@pytest.mark.parametrize("first", range(0, SEEDS, AT_ONCE))
def test_what_was_kept_arrives_once_in_any_weather(fleet_table: Table, first: int) -> None:
    broken = [play(*fleet_table, Options.of_seed(seed)) for seed in range(first, first + AT_ONCE)]
    assert [one for one in broken if one is not None] == []


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.stem)
def test_a_seed_that_failed_once_does_not_fail_again(fleet_table: Table, path: Path) -> None:
    assert play(*fleet_table, Options.from_json(json.loads(path.read_text())["options"])) is None


def test_a_seed_replays_exactly(fleet_table: Table) -> None:
    phones, _ = fleet_table
    recordings = []
    for seed in (3, 3, 4):
        phones.recording = hashlib.sha256()
        assert play(*fleet_table, Options.of_seed(seed, faults=0.5)) is None
        recordings.append(phones.recording.hexdigest())
    assert recordings[0] == recordings[1] != recordings[2]
