"""python -m jigs."""

import sys

from jigs.start import main

sys.exit(main())
