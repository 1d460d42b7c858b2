"""`wirer want`: what every setting gives, as wanted sounds to edit."""

from __future__ import annotations

import json
from pathlib import Path

from tests.command.support import printed, run

EXAMPLE = (
    Path(__file__).parents[2] / "resources" / "examples" / "03-two-humbuckers-selector-split.wirer"
)


def test_it_prints_the_present_table_as_the_wanted_of_a_document(tmp_path: Path) -> None:
    rows = json.loads("{" + printed("want", str(EXAMPLE)) + "}")["wanted"]
    assert {"setting": {"S": "middle", "T": "down"}, "sound": "N ∥ B"} in rows
    document = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    job = tmp_path / "job.wirer"
    job.write_text(json.dumps({**document, "wanted": rows}), encoding="utf-8")
    assert run("check", str(job)).exit_code == 0


def test_a_sound_that_was_edited_is_what_the_check_then_asks_for(tmp_path: Path) -> None:
    rows = json.loads("{" + printed("want", str(EXAMPLE)) + "}")["wanted"]
    rows[0]["sound"] = "N + B"
    document = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    job = tmp_path / "job.wirer"
    job.write_text(json.dumps({**document, "wanted": rows}), encoding="utf-8")
    result = run("check", str(job))
    assert result.exit_code == 1
    assert "Wanted N + B" in result.stdout
