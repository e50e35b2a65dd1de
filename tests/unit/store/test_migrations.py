"""Migrations: every one runs up and down, with data, and ends in the shape that the tables describe."""

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect

from baycard.store.door import Store, open_store, sqlite_url
from baycard.store.migrate import MIGRATIONS, downgrade, prepare, upgrade
from baycard.store.server import server
from baycard.store.tables import Base
from baycard.store.values import Workshop
from baycard.store.workshops import add_workshop, workshops

REVISIONS = [script.revision for script in ScriptDirectory(str(MIGRATIONS)).walk_revisions()][::-1]


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return open_store(sqlite_url(tmp_path), tmp_path)


def tables(store: Store) -> set[str]:
    return set(inspect(store.engine).get_table_names()) - {"alembic_version"}


def test_the_migrations_end_in_the_shape_of_the_tables(store: Store) -> None:
    upgrade(store)
    with store.read() as tx:
        assert compare_metadata(MigrationContext.configure(tx), Base.metadata) == []


@pytest.mark.parametrize("revision", REVISIONS)
def test_each_migration_goes_down_and_up_again_to_the_same_shape(store: Store, revision: str) -> None:
    upgrade(store, revision)
    before = tables(store)
    downgrade(store, "-1")
    upgrade(store, revision)
    assert tables(store) == before


def test_the_first_migration_down_leaves_nothing_behind(store: Store) -> None:
    upgrade(store)
    downgrade(store, "base")
    assert tables(store) == set()


def test_preparing_again_keeps_the_data_and_the_name_of_the_server(store: Store) -> None:
    prepare(store)
    with store.write() as tx:
        add_workshop(tx, Workshop("w", "Tern Street Garage", "metric"))
        named = server(tx)
    prepare(store)
    with store.read() as tx:
        assert server(tx) == named
        assert [one.name for one in workshops(tx)] == ["Tern Street Garage"]
    assert named.epoch == 1
