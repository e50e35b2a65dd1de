"""A server whose code fails over some entries whenever they are sent, until somebody mends it."""

import random
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from unittest.mock import patch

from baycard.store.values import Role
from baycard.sync.read_entry import Read, Refused, read_entry
from tests.sync.fragile_store import Killed
from tests.sync.options import Options

SAID = "stumbled over an entry"


class Stumble:
    """Which entries they are, and whether the server still fails over them."""

    def __init__(self, options: Options, over: set[str]) -> None:
        self._options, self._over = options, over
        self._dice = random.Random(f"stumble {options.seed}")
        self._mended = False

    def offer(self, entry: dict[str, Any]) -> None:
        """Somebody records an entry: perhaps it is one of them."""
        if len(self._over) < self._options.stumbles and self._dice.random() < 0.3:
            self._over.add(entry["id"])

    def mend(self) -> None:
        """From now on all goes well."""
        self._mended = True

    @contextmanager
    def under_way(self) -> Iterator[None]:
        """The server's code is as bad as that meanwhile."""
        with patch("baycard.sync.accept.read_entry", self._read):
            yield

    def _read(self, raw: object, role: Role) -> Read | Refused:
        if not self._mended and isinstance(raw, dict) and raw.get("id") in self._over:
            if self._options.stumble == "dies":
                raise Killed
            raise RuntimeError(SAID)
        return read_entry(raw, role)
