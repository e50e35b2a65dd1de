"""Brings a database to the present shape."""

from pathlib import Path
from uuid import uuid4

from alembic import command
from alembic.config import Config

from baycard.store.door import Store
from baycard.store.server import name_server

MIGRATIONS = Path(__file__).with_name("migrations")


def prepare(store: Store) -> None:
    """Run the migrations that are due, and give a new database its instance id."""
    upgrade(store)
    with store.write() as tx:
        name_server(tx, str(uuid4()))


def upgrade(store: Store, revision: str = "head") -> None:
    """Migrate up to a revision."""
    with store.write() as tx:
        command.upgrade(_config(tx), revision)


def downgrade(store: Store, revision: str) -> None:
    """Migrate down to a revision."""
    with store.write() as tx:
        command.downgrade(_config(tx), revision)


def _config(connection: object) -> Config:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    config.attributes["connection"] = connection
    return config
