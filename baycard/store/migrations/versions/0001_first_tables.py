"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "checklists",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", "version", name=op.f("pk_checklists")),
    )
    op.create_table(
        "server",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("instance", sa.String(), nullable=False),
        sa.Column("epoch", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_server")),
    )
    op.create_table(
        "workshops",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("units", sa.String(), nullable=False),
        sa.Column("arrival", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_workshops")),
    )
    op.create_table(
        "blobs",
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("mime", sa.String(), nullable=False),
        sa.Column("sent_bytes", sa.BigInteger(), nullable=False),
        sa.Column("stored_bytes", sa.BigInteger(), nullable=False),
        sa.Column("stored_sha256", sa.String(), nullable=False),
        sa.Column("width", sa.BigInteger(), nullable=True),
        sa.Column("height", sa.BigInteger(), nullable=True),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_blobs_workshop")),
        sa.PrimaryKeyConstraint("workshop", "sha256", name=op.f("pk_blobs")),
    )
    op.create_table(
        "cards",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_cards_workshop")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cards")),
    )
    op.create_table(
        "devices",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.Column("revoked_at", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_devices_workshop")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_devices")),
    )
    op.create_index(op.f("ix_devices_workshop"), "devices", ["workshop"], unique=False)
    op.create_table(
        "people",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("secret_hash", sa.String(), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_people_workshop")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people")),
        sa.UniqueConstraint("workshop", "name_key", name=op.f("uq_people_workshop_name_key")),
    )
    op.create_index(op.f("ix_people_name_key"), "people", ["name_key"], unique=False)
    op.create_table(
        "entries",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("slot", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("body", sa.String(), nullable=False),
        sa.Column("replaces", sa.String(), nullable=False),
        sa.Column("author", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.Column("format", sa.BigInteger(), nullable=False),
        sa.Column("arrival", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["card"], ["cards.id"], name=op.f("fk_entries_card")),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_entries_workshop")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entries")),
        sa.UniqueConstraint("workshop", "arrival", name=op.f("uq_entries_workshop_arrival")),
    )
    op.create_index("ix_entries_card_arrival", "entries", ["card", "arrival"], unique=False)
    op.create_table(
        "mails",
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("revision", sa.BigInteger(), nullable=False),
        sa.Column("address", sa.String(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["card"], ["cards.id"], name=op.f("fk_mails_card")),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_mails_workshop")),
        sa.PrimaryKeyConstraint("card", "revision", "address", name=op.f("pk_mails")),
    )
    op.create_table(
        "sessions",
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("ends_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["device"], ["devices.id"], name=op.f("fk_sessions_device")),
        sa.ForeignKeyConstraint(["person"], ["people.id"], name=op.f("fk_sessions_person")),
        sa.PrimaryKeyConstraint("token_hash", name=op.f("pk_sessions")),
    )
    op.create_index(op.f("ix_sessions_device"), "sessions", ["device"], unique=False)
    op.create_index(op.f("ix_sessions_person"), "sessions", ["person"], unique=False)
    op.create_table(
        "revisions",
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("revision", sa.BigInteger(), nullable=False),
        sa.Column("workshop", sa.String(), nullable=False),
        sa.Column("entry", sa.String(), nullable=False),
        sa.Column("arrival", sa.BigInteger(), nullable=False),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["card"], ["cards.id"], name=op.f("fk_revisions_card")),
        sa.ForeignKeyConstraint(["entry"], ["entries.id"], name=op.f("fk_revisions_entry")),
        sa.ForeignKeyConstraint(["workshop"], ["workshops.id"], name=op.f("fk_revisions_workshop")),
        sa.PrimaryKeyConstraint("card", "revision", name=op.f("pk_revisions")),
    )


def downgrade() -> None:
    op.drop_table("revisions")
    op.drop_index(op.f("ix_sessions_person"), table_name="sessions")
    op.drop_index(op.f("ix_sessions_device"), table_name="sessions")
    op.drop_table("sessions")
    op.drop_table("mails")
    op.drop_index("ix_entries_card_arrival", table_name="entries")
    op.drop_table("entries")
    op.drop_index(op.f("ix_people_name_key"), table_name="people")
    op.drop_table("people")
    op.drop_index(op.f("ix_devices_workshop"), table_name="devices")
    op.drop_table("devices")
    op.drop_table("cards")
    op.drop_table("blobs")
    op.drop_table("workshops")
    op.drop_table("server")
    op.drop_table("checklists")
