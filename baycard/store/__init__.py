"""Keeps everything: tables, migrations and the blob folder; the only room that knows SQLAlchemy."""
