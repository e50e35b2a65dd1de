"""The order of grades."""

from collections.abc import Mapping

from baycard.checklists.types import Grade

GRADE_RANK: Mapping[Grade, int] = {"dangerous": 0, "major": 1, "minor": 2, "advice": 3}
"""Worst first: 0 is dangerous."""
