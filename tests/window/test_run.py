"""The program as it is started from a terminal, for real and offscreen."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.window.chores import environment

ROOT = Path(__file__).parents[2]
PATIENCE_S = 60

PROGRAM = """
import sys
from wirer.window import studies

def settle(self, answer):
    took(self, answer)
    if not self.is_working:
        print("ready", self._session.name, flush=True)
        if sys.argv[1] == "close":
            self.parent().close()

took = studies.Studies._take
studies.Studies._take = settle

if __name__ == "__main__":
    from wirer.window.run import run
    sys.exit(run(sys.argv[2:]))
"""


def start(tmp_path: Path, *arguments: str) -> subprocess.Popen[str]:
    script = tmp_path / "program.py"
    script.write_text(PROGRAM, encoding="utf-8")
    surroundings = {**environment(ROOT), "XDG_CONFIG_HOME": str(tmp_path / "config")}
    return subprocess.Popen(
        [sys.executable, str(script), *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=tmp_path,
        env=surroundings,
    )


def test_it_opens_each_file_and_ends_with_its_last_window(tmp_path: Path, small_file: Path) -> None:
    with start(tmp_path, "close", str(small_file), str(small_file)) as program:
        out, err = program.communicate(timeout=PATIENCE_S)
    assert out.splitlines() == ["ready Small"] * 2
    assert err == ""
    assert program.returncode == 0
    assert (tmp_path / "config" / "wirer" / "window.ini").is_file()


@pytest.mark.parametrize("how", ["kill", "interrupt"])
@pytest.mark.skipif(sys.platform == "win32", reason="signals as POSIX has them")
def test_killed_it_leaves_no_process_behind(tmp_path: Path, small_file: Path, how: str) -> None:
    with start(tmp_path, "stay", str(small_file)) as program:
        assert program.stdout is not None
        assert program.stdout.readline() == "ready Small\n"
        program.send_signal(signal.SIGKILL if how == "kill" else signal.SIGINT)
        # The pipes are shared with the worker: they end only when it is gone too.
        _, err = program.communicate(timeout=PATIENCE_S)
    assert "Traceback" not in err
    assert program.returncode != 0
