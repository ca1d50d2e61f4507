"""A gauge says what was found, against which limit, in words and on its scale."""

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from benchassist.optics.eye import Eye
from benchassist.ui.drawings.gauge import Gauge
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding, State


def finding(
    difference: str | None = "0.03", state: State = State.WITHIN, limit: str | None = "0.12"
) -> Finding:
    return Finding(
        key="right.cylinder",
        prompt="right.distance",
        what="Cylinder",
        state=state,
        sentence="",
        eye=Eye.RIGHT,
        ordered=Decimal("-0.75"),
        found=None if difference is None else Decimal("-0.75") + Decimal(difference),
        difference=None if difference is None else Decimal(difference),
        limit=None if limit is None else Decimal(limit),
        unit="D",
        guard=Decimal("0.03"),
    )


def drawn(gauge: Gauge) -> QImage:
    gauge.resize(264, gauge.sizeHint().height())
    return gauge.grab().toImage()


def bead_at(gauge: Gauge, theme: Theme, state: State) -> float:
    """The middle of what has the colour of the state on the line of the scale."""
    image = drawn(gauge)
    colour = theme.state_colour(state)
    y = 44 * image.height() // 96
    xs = [x for x in range(image.width()) if image.pixelColor(x, y) == colour]
    return sum(xs) / len(xs) / image.width()


@pytest.fixture
def gauge(theme: Theme, qtbot: QtBot) -> Gauge:
    made = Gauge(theme)
    qtbot.addWidget(made)
    return made


def test_an_empty_gauge_says_so(gauge: Gauge) -> None:
    assert gauge.accessibleDescription() == "Not read yet."
    drawn(gauge)


def test_the_description_tells_all_that_the_picture_shows(gauge: Gauge) -> None:
    gauge.set_finding(finding())
    assert gauge.accessibleName() == "Cylinder"
    assert gauge.accessibleDescription() == (
        "Right cylinder: within. Found \N{MINUS SIGN}0.72 D. Ordered \N{MINUS SIGN}0.75 D. "
        "Limit plus or minus 0.12 D."
    )


def test_read_first_keeps_the_order_to_itself(gauge: Gauge) -> None:
    gauge.set_finding(finding(None, State.MISSING), hide_ordered=True)
    assert "0.75" not in gauge.accessibleDescription()
    hidden = drawn(gauge)
    gauge.set_finding(finding(None, State.MISSING))
    assert drawn(gauge) != hidden


def test_the_bead_lies_where_the_difference_is(gauge: Gauge, theme: Theme) -> None:
    places = []
    for difference in ("-0.09", "0", "0.09"):
        gauge.set_finding(finding(difference))
        places.append(bead_at(gauge, theme, State.WITHIN))
    assert places[0] < places[1] < places[2]
    assert places[1] == pytest.approx(0.5, abs=0.01)
    assert places[1] - places[0] == pytest.approx(places[2] - places[1], abs=0.01)


@pytest.mark.parametrize("way", [1, -1])
def test_far_beyond_the_limit_the_bead_stays_on_the_scale(
    gauge: Gauge, theme: Theme, way: int
) -> None:
    places = []
    for size in (1, 7):
        gauge.set_finding(finding(str(way * size), State.OUTSIDE))
        places.append(bead_at(gauge, theme, State.OUTSIDE))
    assert places[0] == places[1]
    assert (places[0] > 0.9) if way > 0 else (places[0] < 0.1)


def test_each_state_is_drawn_differently(gauge: Gauge) -> None:
    pictures = []
    for state in State:
        gauge.set_finding(finding(state=state))
        pictures.append(drawn(gauge))
    for number, one in enumerate(pictures):
        assert all(one != other for other in pictures[number + 1 :])


@pytest.mark.parametrize(
    ("unit", "found", "words"),
    [
        ("mm", "33", "Found 33.0 mm."),
        ("°", "165", "Found 165°."),
        ("Δ", "0.5", "Found 0.50 Δ."),
        ("mm", "-1.5", "Found \N{MINUS SIGN}1.5 mm."),
    ],
)
def test_each_unit_is_written_as_the_trade_writes_it(
    gauge: Gauge, unit: str, found: str, words: str
) -> None:
    made = Finding(
        "pair.x", "pair.x", "Distance", State.WITHIN, "", found=Decimal(found), unit=unit
    )
    gauge.set_finding(made)
    assert words in gauge.accessibleDescription()
    assert gauge.accessibleDescription().startswith("Distance: within.")


def test_without_a_limit_there_is_no_scale(gauge: Gauge) -> None:
    gauge.set_finding(finding(state=State.NONE, limit=None, difference=None))
    assert "Limit" not in gauge.accessibleDescription()
    drawn(gauge)


def test_it_fits_the_strip(gauge: Gauge) -> None:
    assert gauge.minimumSizeHint().width() <= 200
    assert 80 <= gauge.sizeHint().height() <= 96


def test_a_long_title_is_shown_whole_in_smaller_type(gauge: Gauge) -> None:
    """What differs only in its last words is still told apart."""
    pictures = []
    for ending in ("power", "cylinder"):
        gauge.set_finding(replace(finding(), what=f"Meridian of the highest {ending}"))
        gauge.resize(200, 96)
        pictures.append(gauge.grab().toImage())
    assert pictures[0] != pictures[1]


@pytest.mark.parametrize(
    ("probability", "words"),
    [
        ("0.962", "96 % likely within the limit."),
        ("0.999", "over 99 % likely within the limit."),
        ("1", "over 99 % likely within the limit."),
        ("0.003", "under 1 % likely within the limit."),
    ],
)
def test_how_likely_it_is_within_is_told_and_never_as_certain(
    gauge: Gauge, probability: str, words: str
) -> None:
    plain = drawn(gauge)
    gauge.set_finding(replace(finding(), probability=Decimal(probability)))
    assert gauge.toolTip().endswith(words)
    assert gauge.accessibleDescription().endswith(words)
    assert drawn(gauge) != plain


def test_what_is_read_again_says_why_though_it_is_likely(gauge: Gauge) -> None:
    close = replace(finding(state=State.CLOSE), probability=Decimal("0.9"))
    gauge.set_finding(close)
    assert gauge.toolTip().endswith(
        "90 % likely within the limit. Not sure enough to be called within."
    )
    gauge.set_finding(finding())
    assert gauge.toolTip() == ""
