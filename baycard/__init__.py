"""Baycard: vehicle findings recorded on a phone that works with no network, reviewed at a desk, reported."""
