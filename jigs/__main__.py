"""python -m jigs."""

import sys

from jigs.cli import main

sys.exit(main())
