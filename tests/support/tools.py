"""Programs outside Python that some tests compare with."""

import os
import shutil

import pytest


def required_tool(command: str, debian_package: str) -> str:
    """Give the full path of a program that a test compares with.

    Where it is not installed the test is skipped and says so in the run's summary; with CI=true it
    fails, since a comparison that never runs proves nothing.
    """
    path = shutil.which(command)
    if path:
        return path
    reason = f"{command} is not installed; on Debian: apt-get install {debian_package}"
    if os.environ.get("CI", "").lower() in {"true", "1"}:
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)
