"""Units, formulas, uncertainty and verdicts: pure calculation, the same in Python and TypeScript."""
