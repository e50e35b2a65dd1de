"""`python -m baycard` is the command `baycard`."""

import sys

from baycard.cli import main

sys.exit(main())
