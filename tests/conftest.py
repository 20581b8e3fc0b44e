"""Settings for the whole test suite: how many examples, and whether the same ones every time.

Profiles: `ci` (the same examples on every run; chosen when CI is set), `dev` (few and random), `seeded` (as
many as in `ci`, from a new seed that is printed, or the one given with --hypothesis-seed).
HYPOTHESIS_PROFILE names one outright.
"""

from __future__ import annotations

import os
import random

import pytest
from hypothesis import HealthCheck, settings

_COMMON = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}

settings.register_profile("ci", derandomize=True, print_blob=True, **_COMMON)
settings.register_profile("seeded", print_blob=True, **_COMMON)
settings.register_profile("dev", max_examples=40, **_COMMON)
PROFILE = os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if os.environ.get("CI") else "dev")
settings.load_profile(PROFILE)


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    if PROFILE == "seeded" and not config.option.hypothesis_seed:
        config.option.hypothesis_seed = str(random.SystemRandom().randrange(2**32))


def pytest_report_header(config: pytest.Config) -> list[str]:
    return [f"--hypothesis-seed={config.option.hypothesis_seed}"] if PROFILE == "seeded" else []
