"""For every property test: no deadline, since a busy machine is no broken promise."""

from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
