"""How far the clock behind an entry's time was off, where its phone knew."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("entries", sa.Column("clock_off_ms", sa.BigInteger(), nullable=True))


def downgrade() -> None:
    op.drop_column("entries", "clock_off_ms")
