"""Locks on open files that the system lets go of when their process ends, however it does."""

from __future__ import annotations

import os
import sys

if sys.platform == "win32":
    import msvcrt

    # A region that is locked can't be read by others, so one far beyond the end is taken.
    _BEYOND = 2**30

    def lock(handle: int) -> None:
        """Lock an open file, waiting for who has it a moment."""
        os.lseek(handle, _BEYOND, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)

    def try_lock(handle: int) -> bool:
        """Lock an open file unless another has; return whether it is locked now."""
        os.lseek(handle, _BEYOND, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def lock(handle: int) -> None:
        """Lock an open file, waiting for who has it a moment."""
        fcntl.flock(handle, fcntl.LOCK_EX)

    def try_lock(handle: int) -> bool:
        """Lock an open file unless another has; return whether it is locked now."""
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
