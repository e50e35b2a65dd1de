"""Holds plain values against the frozen record types: keys, types and allowed words, each fault with its line.

The record types are the schema. What comes back is JSON with every default filled in, ready for from_json.
"""

import dataclasses
from collections.abc import Mapping
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin

from baycard.checklists.from_json import type_hints
from baycard.checklists.problems import Spot, nearest
from baycard.checklists.types import JsonValue


class Broken(Exception):  # noqa: N818 - carries no fault of ours; the fault is already written down
    """The value here does not have its shape; the reason is among the problems."""


def read_record(kind: type, value: object, spot: Spot) -> dict[str, JsonValue] | None:
    """The value as JSON of the record `kind`, or None when it does not fit; every misfit is reported."""
    try:
        record: dict[str, JsonValue] = _record(kind, value, spot)
    except Broken:
        return None
    return record


def _value(kind: JsonValue, value: object, spot: Spot) -> JsonValue:
    origin: object = get_origin(kind)
    if origin in (Union, UnionType):
        return _union(kind, value, spot)
    if origin is Literal:
        return _word(get_args(kind), value, spot)
    if origin is tuple:
        return _tuple(get_args(kind), value, spot)
    if origin is not None:
        return _mapping(get_args(kind)[1], value, spot)
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return _record(kind, value, spot)
    return value if kind is Any else _scalar(kind, value, spot)


def _scalar(kind: type, value: object, spot: Spot) -> JsonValue:
    if kind is str and isinstance(value, str) and value.strip():
        return value.strip()
    if kind is float and isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if kind in (int, bool) and type(value) is kind:
        return value
    words = {str: "text", float: "a number", int: "a whole number", bool: "true or false"}
    raise _broken(spot, f"must be {words[kind]}, not {_said(value)}", _how_to_write(kind, value))


def _how_to_write(kind: type, value: object) -> str:
    if kind is str:
        empty = value is None or (isinstance(value, str) and not value.strip())
        return "write something or leave the key out" if empty else "put it in quotes"
    return {
        float: "without quotes and unit, with a dot, as in 1.6",
        int: "without quotes, such as 1",
        bool: "without quotes",
    }.get(kind, "")


def _said(value: object) -> str:
    if value is None or (isinstance(value, str) and not value.strip()):
        return "empty"
    if isinstance(value, Mapping | list):
        return "a mapping" if isinstance(value, Mapping) else "a list"
    return repr(value)[:60]


def _broken(spot: Spot, says: str, suggestion: str = "") -> Broken:
    spot.report(says, suggestion)
    return Broken()


def _word(words: tuple[object, ...], value: object, spot: Spot) -> object:
    if value in words:
        return value
    suggestion = nearest(str(value), [str(word) for word in words])
    raise _broken(spot, f"must be one of {', '.join(map(str, words))}, not {_said(value)}", suggestion)


def _tuple(kinds: tuple[JsonValue, ...], value: object, spot: Spot) -> list[JsonValue]:
    """A list; a lone text may stand for a list of one."""
    if kinds[0] is str and isinstance(value, str):
        value = [value]
    if not isinstance(value, list):
        raise _broken(spot, f"must be a list, not {_said(value)}")
    if kinds[-1] is not Ellipsis and len(value) != len(kinds):
        raise _broken(spot, f"must be {len(kinds)} values, not {len(value)}")
    return _all([(kinds[0], item, spot.down(number)) for number, item in enumerate(value)])


def _mapping(kind: JsonValue, value: object, spot: Spot) -> dict[str, JsonValue]:
    if not isinstance(value, dict):
        raise _broken(spot, f"must be a mapping, not {_said(value)}")
    items = _all([(kind, item, spot.down(key)) for key, item in value.items()])
    return dict(zip(value, items, strict=True))


def _all(parts: list[tuple[JsonValue, object, Spot]]) -> list[JsonValue]:
    """Every part read, so that all misfits are reported before the whole is given up."""
    values: list[JsonValue] = []
    broken = False
    for kind, value, spot in parts:
        try:
            values.append(_value(kind, value, spot))
        except Broken:
            broken = True
    if broken:
        raise Broken
    return values


def _record(kind: type, value: object, spot: Spot) -> dict[str, JsonValue]:
    if not isinstance(value, dict):
        raise _broken(spot, f"must be a mapping, not {_said(value)}", "write `key: value` lines")
    fields = {one.name.rstrip("_"): one for one in dataclasses.fields(kind)}
    unknown = [key for key in value if key not in fields]
    for key in unknown:
        loose = value[key] is None and " " in key
        suggestion = "a text with a comma in it must be in quotes" if loose else nearest(key, fields)
        spot.down(key).report("key is not known here", suggestion)
    missing = [key for key, one in fields.items() if key not in value and _default(one) is dataclasses.MISSING]
    for key in missing:
        spot.report(f"{key} is missing", _advice(key) or f"write `{key}:` at this place")
    hints = type_hints(kind)
    given = {key: one for key, one in fields.items() if key in value}
    items = _all([(hints[one.name], value[key], spot.down(key)) for key, one in given.items()])
    if unknown or missing:
        raise Broken
    return _with_defaults(fields, dict(zip(given, items, strict=True)))


def _advice(key: str) -> str:
    """What to write for the keys that people are tempted to leave out."""
    return {
        "source": "name the document and section, `maker's data`, or say `common practice`",
        "basis": "one of published, maker's data, common practice, from memory",
        "applies": "say for which vehicles and conditions the source holds",
    }.get(key, "")


def _default(one: dataclasses.Field[Any]) -> object:
    return one.default if one.default_factory is dataclasses.MISSING else one.default_factory()


def _with_defaults(fields: dict[str, dataclasses.Field[Any]], items: dict[str, JsonValue]) -> dict[str, JsonValue]:
    """The record in the order of its fields; a field left out of JSON while None stays out."""
    record: dict[str, JsonValue] = {}
    for key, one in fields.items():
        value = items.get(key, _default(one))
        if value is None and one.metadata.get("left_out"):
            continue
        record[key] = list(value) if isinstance(value, tuple) else value
    return record


def _union(kind: JsonValue, value: object, spot: Spot) -> JsonValue:
    members = [one for one in get_args(kind) if one is not NoneType]
    if value is None and NoneType in get_args(kind):
        return None
    if len(members) == 1:
        return _value(members[0], value, spot)
    if not isinstance(value, dict):
        raise _broken(spot, f"must be a mapping, not {_said(value)}")
    return _record(_chosen(members, value, spot), value, spot)


def _chosen(members: list[type], value: dict[str, object], spot: Spot) -> type:
    """The record meant: by its `kind`, or by the key that only it begins with."""
    if any(one.name == "kind" for one in dataclasses.fields(members[0])):
        kinds = {get_args(type_hints(one)["kind"])[0]: one for one in members}
        word = _word(tuple(kinds), value.get("kind"), spot.down("kind"))
        return kinds[str(word)]
    firsts = {dataclasses.fields(one)[0].name: one for one in members}
    found = [one for first, one in firsts.items() if first in value]
    if not found:
        raise _broken(spot, f"must have one of the keys {', '.join(firsts)}")
    return found[0]
