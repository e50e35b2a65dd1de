"""What a seed decides before anything happens: how many phones, how much work, which kinds of trouble, and how bad."""

import random
from dataclasses import asdict, dataclass
from typing import Any

FATES = (
    "request lost",
    "answer lost",
    "twice",
    "late",
    "request cut",
    "answer cut",
    "no answer",
    "500 before",
    "500 after",
    "502 before",
    "502 after",
    "503",
    "413",
    "429",
    "401",
    "403",
    "login page",
    "server dies",
)
MISHAPS = (
    "app dies",
    "app dies in a tap",
    "phone off",
    "offline",
    "disk full",
    "handle dies",
    "clock jumps",
    "server restarts",
    "server away",
    "backup and restore",
    "screen off",
)
STUMBLES = ("raises", "dies")


@dataclass(frozen=True)
class Options:
    """One run.

    seconds: how long the bad weather lasts; faults: the share of requests that something happens to; told: whether
    the phones hear of the good weather; stumbles: over how many entries the server's code fails until somebody mends
    it, in the manner of stumble: it raises, or the process dies; server_dies_at, phones_die_at: the step of their store
    at which each dies once.
    """

    seed: int
    phones: int
    deeds: int
    seconds: float
    faults: float
    fates: tuple[str, ...]
    mishaps: tuple[str, ...]
    mishap_count: int
    told: bool = True
    stumbles: int = 0
    stumble: str = "raises"
    server_dies_at: int | None = None
    phones_die_at: int | None = None
    phone_bug: str = "none"
    server_bug: str = "none"

    @classmethod
    def of_seed(cls, seed: int, **changes: Any) -> "Options":
        """What a seed chooses; each seed lets only some kinds of trouble happen, so that rare mixtures come up."""
        dice = random.Random(f"options {seed}")
        stumbling = random.Random(f"stumbles {seed}")
        chosen = {
            "seed": seed,
            "phones": dice.choice((2, 2, 3, 3, 4)),
            "deeds": dice.randint(6, 24),
            "seconds": dice.choice((5.0, 20.0, 60.0, 200.0)),
            "faults": dice.choice((0.0, 0.1, 0.3, 0.6)),
            "fates": tuple(dice.sample(FATES, dice.randint(1, len(FATES)))),
            "mishaps": tuple(dice.sample(MISHAPS, dice.randint(0, len(MISHAPS)))),
            "mishap_count": dice.randint(0, 5),
            "told": dice.random() < 0.5,
            "stumbles": stumbling.choice((0, 0, 0, 1, 2)),
            "stumble": stumbling.choice(STUMBLES),
        }
        return cls(**(chosen | changes))

    @classmethod
    def from_json(cls, kept: dict[str, Any]) -> "Options":
        """A kept seed."""
        return cls(**(kept | {"fates": tuple(kept["fates"]), "mishaps": tuple(kept["mishaps"])}))

    def to_json(self) -> dict[str, Any]:
        """All of it, to be printed or kept."""
        return asdict(self)
