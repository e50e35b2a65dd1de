"""Set-up, checks and pictures: what contributors run, never part of the product."""
