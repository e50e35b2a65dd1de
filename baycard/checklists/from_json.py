"""The compiled JSON of the book to frozen values and back, led by the field types of types.py alone."""

import dataclasses
from collections.abc import Mapping
from functools import cache
from types import NoneType, UnionType
from typing import Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from baycard.checklists.types import Book, Checklist, JsonValue

Record = TypeVar("Record")
type_hints = cache(get_type_hints)


def book_from_json(data: Mapping[str, JsonValue]) -> Book:
    """The book as values, from JSON that this package compiled; anything else raises KeyError or TypeError."""
    book: Book = _value(Book, data)
    return book


def checklist_from_json(data: Mapping[str, JsonValue]) -> Checklist:
    """One compiled checklist as a value, for instance a version published earlier."""
    checklist: Checklist = _value(Checklist, data)
    return checklist


def record_from_json(kind: type[Record], data: JsonValue) -> Record:
    """Any record of types.py as a value."""
    record: Record = _value(kind, data)
    return record


def to_json(value: object) -> JsonValue:
    """The JSON of a book, or of any part of it, with the keys of docs/formats.md."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {_key(field): to_json(getattr(value, field.name)) for field in _written(value)}
    if isinstance(value, Mapping):
        return {key: to_json(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [to_json(item) for item in value]
    return value


def _written(value: JsonValue) -> list[dataclasses.Field[object]]:
    fields = dataclasses.fields(value)
    return [one for one in fields if not (one.metadata.get("left_out") and getattr(value, one.name) is None)]


def _key(field: dataclasses.Field[object]) -> str:
    return field.name.rstrip("_")


def _value(kind: JsonValue, data: JsonValue) -> JsonValue:
    """`data` as a value of the annotated type `kind`."""
    origin: object = get_origin(kind)
    if origin in (Union, UnionType):
        return None if data is None else _value(_member(kind, data), data)
    if origin is tuple:
        return tuple(_value(get_args(kind)[0], item) for item in data)
    if origin is not None and origin is not Literal and isinstance(data, Mapping):
        return {key: _value(get_args(kind)[1], item) for key, item in data.items()}
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return _record(kind, data)
    return data


def _record(kind: type, data: Mapping[str, JsonValue]) -> JsonValue:
    hints = type_hints(kind)
    fields = dataclasses.fields(kind)
    return kind(**{one.name: _value(hints[one.name], data[_key(one)]) for one in fields if _key(one) in data})


def _member(union: JsonValue, data: JsonValue) -> JsonValue:
    """The member of a union that the data is: by `kind`, else the record whose needed keys are there."""
    members = [one for one in get_args(union) if one is not NoneType]
    if len(members) == 1 or not isinstance(data, Mapping):
        return members[0]
    return next(one for one in members if _fits(one, data))


def _fits(kind: JsonValue, data: Mapping[str, JsonValue]) -> bool:
    if "kind" in data:
        return data["kind"] in get_args(type_hints(kind)["kind"])
    needed = {_key(one) for one in dataclasses.fields(kind) if one.default is dataclasses.MISSING}
    return needed <= set(data)
