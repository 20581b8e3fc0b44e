"""Settings for the whole test suite: how many examples, and whether the same ones every time.

Profiles: `ci` (the same examples on every run; chosen when CI is set), `dev` (few and random), `seeded` (as
many as in `ci`, from the seed given with --hypothesis-seed). HYPOTHESIS_PROFILE names one outright.
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

_COMMON = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}

settings.register_profile("ci", derandomize=True, print_blob=True, **_COMMON)
settings.register_profile("seeded", print_blob=True, **_COMMON)
settings.register_profile("dev", max_examples=40, **_COMMON)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if os.environ.get("CI") else "dev"))
