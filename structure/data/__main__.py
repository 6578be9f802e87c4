"""`python -m structure.data`: write the checksums of all tables anew."""

from __future__ import annotations

import sys

from structure.data.loader import write_checksums

sys.stdout.write(write_checksums())
