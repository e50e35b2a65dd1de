"""Tests of the checklists room."""
