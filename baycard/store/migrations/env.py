"""Alembic's entrance: migrations run on the connection that store/migrate.py hands in."""

from alembic import context

from baycard.store.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    transactional_ddl=False,
    render_as_batch=True,
)
context.run_migrations()
