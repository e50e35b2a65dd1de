"""The publishing rule: what was published under an id and version stays as it was, for ever."""

from collections.abc import Iterable, Mapping

from baycard.checklists.problems import Problem
from baycard.checklists.types import Checklist

Published = Mapping[tuple[str, int], str]
"""(checklist id, version) -> sha256 of the checklist as published."""


def changed_after_publishing(checklists: Iterable[Checklist], published: Published) -> list[Problem]:
    """A problem for every checklist whose id and version are published with another content."""
    return [_problem(one) for one in checklists if published.get((one.id, one.version), one.sha256) != one.sha256]


def not_yet_published(checklists: Iterable[Checklist], published: Published) -> list[Checklist]:
    """The checklists whose id and version are new, for the caller to keep for ever."""
    return [one for one in checklists if (one.id, one.version) not in published]


def _problem(checklist: Checklist) -> Problem:
    return Problem(
        file=f"checklists/{checklist.id}.yaml",
        line=1,
        field="version",
        says=f"version {checklist.version} of {checklist.id} is published and its content has changed since",
        suggestion=f"raise the version to {checklist.version + 1}; cards that began with the old one keep it",
    )
