"""Mistakes in the YAML as values: which file, line and field, what is wrong, and what to do about it."""

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One mistake. `line` counts from 1; `field` reads like `checks[2].limits[0].unit`; `suggestion` may be empty."""

    file: str
    line: int
    field: str
    says: str
    suggestion: str = ""

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}" + (f": {self.field}" if self.field else "")
        return f"{where}: {self.says}" + (f" ({self.suggestion})" if self.suggestion else "")


class BookError(Exception):
    """The folder does not make a book. `problems` holds every mistake found, in the order of files and lines."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: Sequence[Problem] = tuple(sorted(problems))
        super().__init__("\n".join(str(problem) for problem in self.problems))


@dataclass(frozen=True, slots=True)
class Document:
    """A YAML file as plain values, with the line on which each value begins."""

    file: str
    value: object
    lines: dict[Path, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a document, to which a problem can be pinned."""

    document: Document
    problems: list[Problem]
    path: Path = ()

    def down(self, *steps: str | int) -> "Spot":
        """The spot below this one."""
        return Spot(self.document, self.problems, self.path + steps)

    @property
    def line(self) -> int:
        """The line of this spot, or of the nearest thing above it that is written in the file."""
        for length in range(len(self.path), -1, -1):
            if self.path[:length] in self.document.lines:
                return self.document.lines[self.path[:length]]
        return 1

    def report(self, says: str, suggestion: str = "") -> None:
        """Writes down that something is wrong here."""
        self.problems.append(Problem(self.document.file, self.line, field_text(self.path), says, suggestion))


def field_text(path: Path) -> str:
    """A path as people write it: ("checks", 2, "unit") is `checks[2].unit`."""
    text = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return text.removeprefix(".")


def nearest(word: str, known: Iterable[str]) -> str:
    """A suggestion that names the known word most like this one, or lists a few when none is like it."""
    words = sorted(known)
    near = difflib.get_close_matches(word, words, n=1)
    if near:
        return f"did you mean {near[0]}?"
    listed = ", ".join(words[:12]) + (", …" if len(words) > 12 else "")
    return f"known are: {listed}" if words else "none is known"
