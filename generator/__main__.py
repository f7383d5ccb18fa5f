"""`python -m generator` is the same program as `shedbook`."""

import sys

from generator.cli import main

sys.exit(main())
