"""What the data files say of one another and of the program is true."""

import re
import tomllib
from pathlib import Path

import pytest

from benchassist.geometry.views import view
from benchassist.guide.flow import steps_for
from benchassist.guide.load import load_guide
from benchassist.job.plan import front_plan
from benchassist.limits.load import load_limits, rule_sets
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.ui.drawings.hint import PICTURES
from benchassist.ui.stylesheet import SHEET
from benchassist.ui.theme import Scheme


def tables(root: Path, folder: str) -> dict[str, dict[str, object]]:
    """Every TOML file of a folder below resources/, as it stands there."""
    return {
        path.name: tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted((root / "resources" / folder).rglob("*.toml"))
    }


def test_every_row_of_limits_says_where_it_is_from(root: Path) -> None:
    for name, table in tables(root, "limits").items():
        listed = table.get("sources", {})
        rows = table.get("row", [])
        assert isinstance(listed, dict)
        assert isinstance(rows, list)
        for row in rows:
            if "like" not in row:
                assert row["evidence"], (name, row["id"])
                assert row["sources"], (name, row["id"])
                assert set(row["sources"]) <= set(listed), (name, row["id"])


def test_every_source_is_listed_because_something_names_it(root: Path) -> None:
    for name, table in tables(root, "limits").items():
        text = (root / "resources/limits" / name).read_text(encoding="utf-8")
        listed = table.get("sources", {})
        assert isinstance(listed, dict)
        assert [source for source in listed if f'"{source}"' not in text] == [], name


@pytest.mark.parametrize("rule_set", [one.id for one in rule_sets()])
def test_every_rule_set_on_offer_loads(rule_set: str) -> None:
    assert load_limits(rule_set).rule_set.caution


def test_every_prompt_says_how_we_know() -> None:
    assert [prompt.id for prompt in load_guide().prompts if not prompt.evidence] == []


def test_every_picture_of_a_hint_is_drawn_and_every_drawing_is_used() -> None:
    assert {prompt.picture for prompt in load_guide().prompts} - {""} == {
        picture.name for picture in PICTURES
    }


@pytest.mark.parametrize("file", demo_files(), ids=lambda file: file.stem)
def test_every_prompt_of_a_job_has_its_place_on_the_drawing(file: Path) -> None:
    job = load_job_file(file)
    plan = front_plan(job.order)
    lost = [
        (prompt.id, spot)
        for step in steps_for(job, load_guide())
        for prompt in step.prompts
        for spot in prompt.spots
        if view(plan, prompt.view).spot(spot) is None
    ]
    assert lost == []


def test_the_style_sheet_shows_every_icon_in_both_schemes(root: Path) -> None:
    icons = {path.stem for path in (root / "resources/icons").glob("*.svg")}
    shown = re.findall(r'url\("\$(\w+)"\)', SHEET)
    assert icons == {f"{name}-{scheme}" for name in shown for scheme in Scheme}
