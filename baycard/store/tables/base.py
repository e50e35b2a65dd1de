"""What every table shares: the metadata with named constraints, so that a migration can speak of them."""

from typing import ClassVar

from sqlalchemy import BigInteger, MetaData
from sqlalchemy.orm import DeclarativeBase


class Base(DeclarativeBase):
    """The declarative base of all tables. Whole numbers are wide: arrival numbers and times outgrow 32 bits."""

    type_annotation_map: ClassVar = {int: BigInteger}

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
