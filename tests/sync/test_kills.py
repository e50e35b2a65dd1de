"""kill -9 of the real server in the middle of pushes and uploads."""

import random
from pathlib import Path

import pytest

from tests.support.postgres import is_installed
from tests.sync.kills import kill_over_postgres, kill_over_sqlite

KILLS = 6


@pytest.mark.parametrize("run", range(3))
def test_what_was_confirmed_survives_every_kill_of_the_server(tmp_path: Path, run: int) -> None:
    confirmed = kill_over_sqlite(tmp_path, KILLS, random.Random(4711 + run))
    assert confirmed.broken_in_push == confirmed.broken_in_upload == KILLS
    assert len(confirmed.ids) > 0


@pytest.mark.skipif(not is_installed(), reason="PostgreSQL is not installed on this machine")
def test_the_same_holds_over_postgresql() -> None:
    confirmed = kill_over_postgres(3, random.Random(4712))
    assert len(confirmed.ids) > 0
