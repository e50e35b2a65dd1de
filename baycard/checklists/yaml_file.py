"""A YAML file to plain values with line numbers. Plain scalars follow YAML 1.2, so `no` is a word and 1e-9 a number.

Tags of one's own, repeated keys, bombs of aliases and endless nesting are problems, not surprises.
"""

import math
import re
from pathlib import Path as FilePath
from typing import TypeAlias

import yaml

from baycard.checklists.problems import Document, Path, Spot

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
LARGEST_FILE = 1_000_000
MOST_VALUES = 50_000
DEEPEST = 30

PLAIN_TAG = re.compile(r"tag:yaml\.org,2002:(str|int|float|bool|null|map|seq|timestamp|merge|value)")
INT = re.compile(r"[-+]?(0|[1-9][0-9]{0,17})")
FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
WORDS = {"true": True, "false": False, "null": None, "~": None, "": None}

Plain: TypeAlias = "str | int | float | bool | list[Plain] | dict[str, Plain] | None"


class TooBig(Exception):  # noqa: N818 - it ends the reading of one file and is turned into a problem at once
    """The file unfolds into more values, or deeper ones, than any checklist needs."""


def read_yaml(path: FilePath, shown_as: str, top: Spot) -> Spot:
    """The file as a document, at its top. What is wrong is reported; a file that cannot be read has the value None."""
    try:
        text = path.read_bytes()
    except OSError as error:
        return _unreadable(shown_as, top, 1, f"file cannot be read: {error.strerror}")
    if len(text) > LARGEST_FILE:
        return _unreadable(shown_as, top, 1, f"file is larger than {LARGEST_FILE} bytes")
    try:
        return parse_yaml(text.decode("utf-8"), shown_as, top)
    except UnicodeDecodeError:
        return _unreadable(shown_as, top, 1, "file is not UTF-8 text", "save it as UTF-8 in the editor")


def parse_yaml(text: str, shown_as: str, top: Spot) -> Spot:
    """The text as a document, at its top."""
    try:
        root = yaml.compose(text, Loader=LOADER)
    except yaml.MarkedYAMLError as error:
        line = error.problem_mark.line + 1 if error.problem_mark else 1
        return _unreadable(shown_as, top, line, f"file is not YAML: {error.problem}", _way_out(str(error.problem)))
    except (yaml.YAMLError, RecursionError) as error:
        return _unreadable(shown_as, top, 1, f"file is not YAML: {str(error).splitlines()[0]}")
    if root is None:
        return _unreadable(shown_as, top, 1, "file is empty", "begin with a copy of one that works")
    reader = _Reader(shown_as, top)
    try:
        value = reader.value(root, ())
    except TooBig as error:
        return _unreadable(shown_as, top, 1, str(error), "write it out plainly, without `*` inside `&`")
    return Spot(Document(shown_as, value, reader.lines), top.problems)


def _unreadable(file: str, top: Spot, line: int, says: str, suggestion: str = "") -> Spot:
    spot = Spot(Document(file, None, {(): line}), top.problems)
    spot.report(says, suggestion)
    return spot


def _way_out(problem: str) -> str:
    """What is usually the matter when the reader of YAML stumbles."""
    if "tab" in problem:
        return "indent with spaces"
    if re.search(r"flow|node content|[\]}'\"]\Z", problem):
        return "look for brackets or quotes that are not closed, here or just before"
    if "mapping values" in problem:
        return "a text with a colon in it must be in quotes"
    return "compare the indentation with the lines before, and put texts with : or # in quotes"


class _Reader:
    """Turns nodes into plain values and remembers their lines."""

    def __init__(self, file: str, top: Spot) -> None:
        self.lines: dict[Path, int] = {}
        self._spot = Spot(Document(file, None, self.lines), top.problems)
        self._count = 0

    def value(self, node: yaml.Node, path: Path) -> Plain:
        """The plain value of a node."""
        self._count += 1
        if self._count > MOST_VALUES or len(path) > DEEPEST:
            raise TooBig("file unfolds into too many or too deeply nested values")
        self.lines.setdefault(path, node.start_mark.line + 1)
        if not PLAIN_TAG.fullmatch(node.tag):
            self._spot.down(*path).report(f"tag {node.tag} is not allowed", "write plain values")
            return None
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, path)
        if isinstance(node, yaml.SequenceNode):
            return [self.value(item, (*path, number)) for number, item in enumerate(node.value)]
        return self._scalar(str(node.value), not getattr(node, "style", None), path)

    def _mapping(self, node: yaml.MappingNode, path: Path) -> Plain:
        values: dict[str, Plain] = {}
        for key_node, value_node in node.value:
            key = str(key_node.value) if isinstance(key_node, yaml.ScalarNode) else "?"
            if key in values:
                spot = Spot(
                    Document(self._spot.document.file, None, {(): key_node.start_mark.line + 1}), self._spot.problems
                )
                Spot(spot.document, spot.problems, (*path, key)).report("key is written twice", "keep one of them")
                continue
            self.lines[(*path, key)] = key_node.start_mark.line + 1
            values[key] = self.value(value_node, (*path, key))
        return values

    def _scalar(self, text: str, bare: bool, path: Path) -> Plain:
        if not bare:
            return text
        if text in WORDS:
            return WORDS[text]
        if INT.fullmatch(text):
            return int(text)
        if FLOAT.fullmatch(text):
            number = float(text)
            if not math.isfinite(number):
                self._spot.down(*path).report(f"number {text[:20]} is too large")
            return number if math.isfinite(number) else 0.0
        return text
