"""House rules tighten or switch off, and never loosen."""

from decimal import Decimal
from pathlib import Path

import pytest

from benchassist.limits.house import HouseRule, HouseRules, with_house_rules
from benchassist.limits.house_file import HOUSE_FILE, house_file_text, read_house_rules
from benchassist.limits.load import Limits, load_limits, tightenable
from benchassist.limits.rule import Evidence
from benchassist.limits.words import allowed_words, cell_words
from benchassist.wrong import BenchError

ISO = "iso-21987-2017"
HEAD = 'workshop = "Fernhollow Spectacle Workshop"\n'
AXIS = """
[[tighten]]
rule_set = "iso-21987-2017"
row = "I3"
when.cylinder = "> 0.75  <= 1.5"
limit = "3"
unit = "°"
reason = "axes are remade here from 3 degrees on."
"""
SHARE = """
[[tighten]]
rule_set = "iso-21987-2017"
row = "I5-v"
percent = "80"
reason = "many wearers of strong lenses"
"""
OFF = """
[[off]]
rule_set = "iso-21987-2017"
row = "I9"
reason = "no calliper at this bench"
"""


def with_rules(folder: Path, text: str, rule_set: str = ISO) -> Limits:
    path = folder / HOUSE_FILE
    path.write_text(text, encoding="utf-8")
    return load_limits(rule_set, house=path)


def limit(limits: Limits, quantity: str, **looked_up: str) -> Decimal:
    row = limits.rules.row(quantity, "single-vision")
    assert row is not None
    values = {name: Decimal(value) for name, value in looked_up.items()}
    found = row.band(values).limit(values)
    assert found is not None
    return found.value


def refusal(folder: Path, text: str) -> str:
    with pytest.raises(BenchError) as caught:
        with_rules(folder, text)
    return caught.value.sentence


def test_one_cell_is_tightened_and_the_others_are_not(tmp_path: Path) -> None:
    limits = with_rules(tmp_path, HEAD + AXIS)
    assert limit(limits, "axis", cylinder="0.76") == 3
    assert limit(limits, "axis", cylinder="1.50") == 3
    assert limit(limits, "axis", cylinder="0.75") == 6
    assert limit(limits, "axis", cylinder="1.51") == 3
    assert limit(limits, "axis", cylinder="2.51") == 2


def test_a_tightened_rule_says_whose_it_is_and_keeps_its_source(tmp_path: Path) -> None:
    row = with_rules(tmp_path, HEAD + AXIS).rules.row("axis")
    assert row is not None
    rule = row.band({"cylinder": Decimal(1)}).rule
    assert rule.title == "Cylinder axis (house rule of Fernhollow Spectacle Workshop)"
    assert rule.edition == "House rule of Fernhollow Spectacle Workshop, on ISO 21987:2017"
    assert rule.evidence is Evidence.HOUSE
    assert rule.note.startswith(
        "House rule of Fernhollow Spectacle Workshop: 3 ° instead of 4 °, because axes are "
        "remade here from 3 degrees on. Read in one"
    )
    assert len(rule.sources) == 3
    assert row.band({"cylinder": Decimal(2)}).rule.evidence is Evidence.READ


def test_the_rule_set_says_so_once(tmp_path: Path) -> None:
    limits = with_rules(tmp_path, HEAD + AXIS + SHARE)
    assert limits.rule_set.title == (
        "ISO 21987:2017, with house rule of Fernhollow Spectacle Workshop"
    )
    assert "2 tightened by the house" in limits.rule_set.evidence
    other = with_rules(tmp_path, HEAD + AXIS, "ansi-z80.1-2015")
    assert "house" not in other.rule_set.title


def test_a_share_tightens_also_what_grows(tmp_path: Path) -> None:
    limits = with_rules(tmp_path, HEAD + SHARE)
    assert limit(limits, "prism-vertical", prism="0", power="5") == Decimal("0.40")
    assert limit(limits, "prism-vertical", prism="0", power="10") == Decimal("0.80")
    assert limit(limits, "prism-vertical", prism="3", power="10") == Decimal("1.00")


def test_a_bench_limit_takes_its_good_zone_along(tmp_path: Path) -> None:
    text = '[[tighten]]\nrule_set = "bench"\nrow = "skew"\nlimit = "0.4"\nunit = "mm"\n'
    row = with_rules(tmp_path, f'{HEAD}{text}reason = "we can"').bench.row("skew")
    assert row is not None
    assert (row.bands[0].base, row.bands[0].good) == (Decimal("0.4"), Decimal("0.4"))


def test_on_the_limit_is_no_loosening(tmp_path: Path) -> None:
    same = AXIS.replace('limit = "3"', 'limit = "4"')
    assert limit(with_rules(tmp_path, HEAD + same), "axis", cylinder="1") == 4
    whole = SHARE.replace("80", "100")
    assert limit(with_rules(tmp_path, HEAD + whole), "prism-vertical", prism="0", power="1")


def test_a_switched_off_row_keeps_its_figures_and_says_why(tmp_path: Path) -> None:
    row = with_rules(tmp_path, HEAD + OFF).rules.row("thickness")
    assert row is not None
    assert row.bands[0].base == Decimal("0.3")
    assert row.bands[0].rule.off == (
        "not judged by house rule of Fernhollow Spectacle Workshop: no calliper at this bench"
    )


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (
            HEAD + AXIS.replace('limit = "3"', 'limit = "4.1"'),
            "tighten number 1 would loosen row I3 (Cylinder axis) from 4 ° to 4.1 °",
        ),
        (
            HEAD + AXIS + SHARE.replace("80", "101"),
            "ordered prism removed) to 101 % of what it allows",
        ),
        (AXIS, "the head has no workshop"),
        (HEAD + "[[loosen]]\n", "the head has the unknown field loosen"),
        (HEAD + '[tighten]\nrow = "I3"\n', "has 'tighten' not written as [[tighten]]"),
        (HEAD + AXIS.replace('"I3"', '"I99"'), "names the row I99, which ISO 21987:2017"),
        (HEAD + AXIS.replace("iso-21987-2017", "iso-1"), "names the rule set iso-1"),
        (HEAD + AXIS.replace("iso-21987-2017", "lens-meter"), "errors of the lens meter"),
        (HEAD + AXIS.replace("0.75", "0.70"), "on row I3 fits none of its cells"),
        (HEAD + AXIS.replace('"°"', '"mm"'), "on row I3 fits none of its cells"),
        (HEAD + AXIS.replace("when.cylinder", "when"), "has 'when' not written as"),
        (HEAD + AXIS + 'percent = "90"', "needs either 'limit' or 'percent'"),
        (HEAD + AXIS.replace('limit = "3"', ""), "needs either 'limit' or 'percent'"),
        (HEAD + AXIS.replace('"3"', "3"), "needs 'limit' as a figure in quotes, not 3"),
        (HEAD + AXIS.replace('"3"', '"-3"'), "needs 'limit' as a figure in quotes"),
        (HEAD + AXIS.replace('"3"', '"few"'), "needs 'limit' as a figure in quotes"),
        (HEAD + AXIS + 'colour = "red"', "has the unknown field colour"),
        (HEAD + OFF.replace("reason", "because"), "has the unknown field because"),
        (HEAD + OFF.replace('reason = "no calliper at this bench"', ""), "has no reason"),
        (
            HEAD + SHARE.replace('percent = "80"', 'limit = "0.1"\nunit = "Δ"'),
            "needs a share in per cent: that limit grows with the power",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_whole(tmp_path: Path, text: str, why: str) -> None:
    sentence = refusal(tmp_path, text)
    assert why in sentence
    assert sentence.endswith("None of them is in force.")


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    assert "cannot be read" in refusal(tmp_path, "workshop = ")


def test_there_need_be_no_house_rules(tmp_path: Path) -> None:
    assert load_limits(ISO, house=tmp_path / HOUSE_FILE) == load_limits(ISO)


@pytest.mark.parametrize("text", [AXIS, SHARE, OFF, AXIS + SHARE + OFF])
def test_what_is_written_is_what_was_read(tmp_path: Path, text: str) -> None:
    path = tmp_path / HOUSE_FILE
    path.write_text(HEAD + text, encoding="utf-8")
    house = read_house_rules(path)
    assert len(house.rules) == text.count("reason")
    path.write_text(house_file_text(house), encoding="utf-8")
    assert read_house_rules(path) == house


def test_every_cell_of_every_table_can_be_named_written_and_tightened(tmp_path: Path) -> None:
    path = tmp_path / HOUSE_FILE
    files = tightenable()
    named = 0
    for file in files.values():
        for row in file.rows:
            for band in row.bands:
                if band.base is None:
                    continue
                rule = HouseRule(
                    file.id, row.id, "here", frozenset(band.spans), percent=Decimal(50)
                )
                path.write_text(house_file_text(HouseRules("Us", (rule,))), encoding="utf-8")
                changed = with_house_rules(files, read_house_rules(path))[file.id]
                after = next(one for one in changed.rows if one.id == row.id)
                assert after.bands[row.bands.index(band)].base == band.base / 2
                named += 1
    assert named > 200


@pytest.mark.parametrize(
    ("row", "cell", "for_which", "allows"),
    [
        ("I1-A", 1, "power over 3.00 D, up to 6.00 D", "0.12 D"),
        ("I1-B", 0, "power up to 3.00 D; cylinder up to 0.75 D", "0.09 D"),
        ("I5-v", 1, "prism up to 2.00 Δ; power over 5.00 D", "0.1 Δ for each D of power"),
    ],
)
def test_a_cell_in_words(row: str, cell: int, for_which: str, allows: str) -> None:
    rows = {one.id: one for one in tightenable()[ISO].rows}
    band = rows[row].bands[cell]
    assert (cell_words(band), allowed_words(band)) == (for_which, allows)
