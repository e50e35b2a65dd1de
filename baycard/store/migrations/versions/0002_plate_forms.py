"""How the plates of a workshop's country look, for the phone's plate field."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("workshops", sa.Column("plate_forms", sa.String(), nullable=False, server_default=""))


def downgrade() -> None:
    op.drop_column("workshops", "plate_forms")
