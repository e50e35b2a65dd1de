"""Small rules for single values of an entry; larger rules are put together from them.

A rule takes a value and the path to it and gives a Refusal, or None when the value is fine.
"""

import math
import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Any, TypeGuard

from baycard.journal.refusal import Refusal

Rule = Callable[[object, str], Refusal | None]

LONGEST_TEXT = 10_000
LONGEST_FORM = 500
LARGEST_NUMBER = 1e15
# A shape is asked about few places; most values stand at the same one.
PATHS_KEPT = 64
# Names of people, devices and instruments come again in every entry.
FORMS_KEPT = 256
# As tuples made once: these are asked for every value of every entry.
NUMBERS = (int, float)
LISTS = (list, tuple)
# Controls other than newline and tab, and halves of characters, which no database or printer takes.
_UNREADABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_UNIT = re.compile("[!-~]{1,80}")
_INK = re.compile("[^ \n\t]")
_LINE_BREAK = re.compile("[\n\t]")


def is_object(value: object) -> TypeGuard[Mapping[str, Any]]:
    """Whether a value has named parts."""
    return isinstance(value, dict) or isinstance(value, Mapping)  # noqa: SIM101  # the first is asked more quickly


def text(most: int = LONGEST_TEXT, *, filled: bool = False, lines: bool = True) -> Rule:
    """Words of at most `most` characters; `filled`: not blank, without `lines`: on one line."""

    def rule(value: object, path: str) -> Refusal | None:
        if not isinstance(value, str):
            return Refusal("wrong-type", f"{path} is not text", "Type words here.")
        if len(value) > most:
            return Refusal("too-long", f"{path} is longer than {most} characters", "Shorten it.")
        if filled and not _INK.search(value):
            return Refusal("too-few", f"{path} is empty", "Type at least a word.")
        if value.isprintable():  # nearly always; spares the two searches
            return None
        if _UNREADABLE.search(value) or (not lines and _LINE_BREAK.search(value)):
            return Refusal("unreadable-characters", f"{path} holds characters that cannot be shown", "Type it again.")
        return None

    return rule


def number(low: float = -LARGEST_NUMBER, high: float = LARGEST_NUMBER) -> Rule:
    """A finite number from `low` to `high`."""

    def rule(value: object, path: str) -> Refusal | None:
        if isinstance(value, NUMBERS) and not isinstance(value, bool):
            if low <= value <= high:
                return None
            if _finite(value):
                return Refusal("out-of-range", f"{path} is outside what is possible", "Check the number and its unit.")
        do = "Type digits with at most one comma or dot, such as 0,12."
        return Refusal("not-a-number", f"{path} is not a number", do)

    return rule


def _finite(value: int | float) -> bool:
    try:
        return math.isfinite(value)
    except OverflowError:
        return False


def whole(low: int, high: int) -> Rule:
    """A whole number from `low` to `high`."""
    in_range = number(low, high)

    def rule(value: object, path: str) -> Refusal | None:
        refusal = in_range(value, path)
        if refusal is None and isinstance(value, float) and not value.is_integer():
            return Refusal("not-a-number", f"{path} is not a whole number", "Type a number without a fraction.")
        return refusal

    return rule


def one_of(*words: str) -> Rule:
    """One of a closed set of words."""

    def rule(value: object, path: str) -> Refusal | None:
        if isinstance(value, str) and value in words:
            return None
        return Refusal("unknown-word", f"{path} is not one of the known words", f"Choose one of: {', '.join(words)}.")

    return rule


def form(pattern: str, says: str) -> Rule:
    """Text that matches a pattern as a whole; `says` names the form for people."""
    matches = re.compile(pattern, re.ASCII).fullmatch

    @lru_cache(maxsize=FORMS_KEPT)
    def fits(value: str) -> bool:
        return matches(value) is not None

    def rule(value: object, path: str) -> Refusal | None:
        if isinstance(value, str) and len(value) <= LONGEST_FORM and fits(value):
            return None
        return Refusal("wrong-form", f"{path} is not {says}", f"Give {says}.")

    return rule


def unit(*allowed: str) -> Rule:
    """A unit code; with `allowed`, one of those."""

    def rule(value: object, path: str) -> Refusal | None:
        if isinstance(value, str) and (value in allowed if allowed else _UNIT.fullmatch(value)):
            return None
        do = f"Use one of: {', '.join(allowed)}." if allowed else "Use a unit code such as mm or kPa."
        return Refusal("wrong-unit", f"{path} is not a unit that fits", do)

    return rule


def or_null(rule: Rule) -> Rule:
    """Null, or what the rule takes."""
    return lambda value, path: None if value is None else rule(value, path)


def text_for(check: Callable[[str], bool], says: str) -> Rule:
    """Text for which `check` holds; `says` names it for people."""

    def rule(value: object, path: str) -> Refusal | None:
        if isinstance(value, str) and len(value) <= LONGEST_FORM and check(value):
            return None
        return Refusal("wrong-form", f"{path} is not {says}", f"Give {says}.")

    return rule


def list_of(rule: Rule, most: int, least: int = 0) -> Rule:
    """A list of `least` to `most` values that each keep the rule."""

    def list_rule(value: object, path: str) -> Refusal | None:
        if not isinstance(value, LISTS):
            return Refusal("wrong-type", f"{path} is not a list", "Send a list here.")
        if len(value) > most:
            return Refusal("too-many", f"{path} holds more than {most}", "Leave some out.")
        if len(value) < least:
            return Refusal("too-few", f"{path} holds fewer than {least}", "Add what is missing.")
        for place, one in enumerate(value):
            refusal = rule(one, f"{path}[{place}]")
            if refusal is not None:
                return refusal
        return None

    return list_rule


def table_of(key: Rule, rule: Rule, most: int) -> Rule:
    """One to `most` named values."""

    def table_rule(value: object, path: str) -> Refusal | None:
        if not is_object(value):
            return Refusal("wrong-type", f"{path} is not a table", "Send names with values here.")
        if not value:
            return Refusal("too-few", f"{path} holds no values", "Add what is missing.")
        if len(value) > most:
            return Refusal("too-many", f"{path} holds more than {most}", "Leave some out.")
        for name, one in value.items():
            refusal = key(name, path) or rule(one, f"{path}.{name}")
            if refusal is not None:
                return refusal
        return None

    return table_rule


def shape(needed: Mapping[str, Rule], optional: Mapping[str, Rule] | None = None) -> Rule:
    """An object with all the needed parts, any of the optional ones, and no other."""
    known = {**needed, **(optional or {})}
    names, must = frozenset(known), frozenset(needed)

    @lru_cache(maxsize=PATHS_KEPT)
    def parts(path: str) -> tuple[tuple[str, Rule, str], ...]:
        return tuple((name, rule, f"{path}.{name}") for name, rule in known.items())

    def shape_rule(value: object, path: str) -> Refusal | None:
        if not is_object(value):
            return Refusal("wrong-type", f"{path} is not an object", "Send named parts here.")
        if not value.keys() >= must:
            name = next(name for name in needed if name not in value)
            return Refusal("missing-part", f"{path} lacks {name}", f"Fill in {name}.")
        if not names.issuperset(value):
            do = "Update the app, or leave out what docs/formats.md does not name."
            return Refusal("unknown-part", f"{path} has a part that is not known", do)
        for name, rule, place in parts(path):
            if name in value:
                refusal = rule(value[name], place)
                if refusal is not None:
                    return refusal
        return None

    return shape_rule


def both(*rules: Rule) -> Rule:
    """Every one of the rules; the first refusal counts."""

    def rule(value: object, path: str) -> Refusal | None:
        for one in rules:
            refusal = one(value, path)
            if refusal is not None:
                return refusal
        return None

    return rule
