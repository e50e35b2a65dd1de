"""The customer's complaints, what came of each, and the findings tied to them."""

from collections.abc import Sequence

from baycard.journal.findings import alone_in, standing_of_kind
from baycard.journal.standing import Standing
from baycard.journal.types import ComplaintState, Finding


def complaints_of(standing: Standing, findings: Sequence[Finding]) -> tuple[ComplaintState, ...]:
    """Every standing complaint, oldest first; of two wordings that disagree the older one."""
    complaints: dict[str, ComplaintState] = {}
    for entry in standing_of_kind(standing, "complaint"):
        id = entry.slot.removeprefix("card/complaint/")
        if id in complaints:
            continue
        outcome = alone_in(standing, f"{entry.slot}/outcome", "complaint-outcome")
        tied = [finding.slot for finding in findings if id in finding.entry.body["complaints"]]
        named = outcome.body["findings"] if outcome else []
        complaints[id] = ComplaintState(id, entry.body["words"], entry, outcome, tuple(dict.fromkeys([*tied, *named])))
    return tuple(complaints.values())
