"""The paper: what it says, that it is whole, and that it is always the same."""

import re
from collections.abc import Iterable
from decimal import Decimal

import pytest
from pypdfium2 import PdfDocument

from benchassist.job.order import PolarPrism
from benchassist.records.ink import RIGHT
from benchassist.records.overview import code_text, verdict
from benchassist.records.pdf import record_pdf
from benchassist.records.pen import Pen
from benchassist.records.record import Deed, FindingLine, Imprint, Record, SlipLine
from benchassist.records.tables import part_blocks
from benchassist.records.words import amount
from benchassist.store.settings import Workshop
from benchassist.verdicts.finding import State
from tests.records import bench


def pages(content: bytes) -> list[str]:
    """The text of each page, its line breaks taken for spaces."""
    document = PdfDocument(content)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def text(record: Record) -> str:
    return " ".join(pages(record_pdf(record)))


def squeezed(words: str) -> str:
    """Without spaces: where a line breaks, a reader of the text cannot know them."""
    return "".join(words.split())


def missing(record: Record, wanted: Iterable[str]) -> list[str]:
    said = squeezed(text(record))
    return [words for words in wanted if squeezed(words) not in said]


def test_the_same_record_gives_the_same_bytes() -> None:
    assert record_pdf(bench.record()) == record_pdf(bench.record())


def test_another_record_gives_other_bytes() -> None:
    other = bench.record().with_(job_number="FH-9")
    assert record_pdf(other) != record_pdf(bench.record())


def test_every_finding_is_told_with_its_numbers_word_and_sentence() -> None:
    record = bench.record()
    for finding in record.findings:
        word = finding.state.word
        numbers = (amount(finding.ordered, finding.unit), amount(finding.found, finding.unit))
        assert missing(record, (finding.what, word, finding.sentence, *numbers)) == []


def test_order_readings_answers_and_names_are_told() -> None:
    wanted = (
        "Marit Oduya",
        "Fernhollow Spectacle Workshop, 3 Alder Lane",
        "single vision, standard plastic n 1.50",
        "oval, acetate, full rim, 52 □ 18",
        "1.00 Δ base in",
        "sphere lines −2.00 D, cylinder lines −2.00 D (meter 1)",
        "−1.50 +1.00 × 95",
        "Return to lab",
        "The right axis is turned.",
        "Remark: One was loose.",
        "Measured: right gap 1.5 mm. To be looked at again after: Screws.",
        "Tighten it (screwdriver).",
        "demonstration lenses",
        "Attempt 1: return to lab, Ilse Varga, 20 November 2026, 09:00 UTC: Lenses exchanged.",
        "Judged by House rules. 1 row from memory.",
        "House rules, first edition, table 1",
        "Cylinder axis: memory (a, b). Only for this test.",
        "https://example.org/axis",
        "optician, 24 November 2026, 12:30 UTC",
        "Typed names, not electronic signatures.",
        "5a" * 32,
        *bench.record().cautions,
    )
    assert missing(bench.record(), wanted) == []


def test_each_page_says_job_attempt_and_which_page_it_is() -> None:
    told = pages(record_pdf(bench.record()))
    assert 2 <= len(told) <= 4
    for number, page in enumerate(told, start=1):
        assert f"page {number} of {len(told)}" in page
        assert "Job FH-1 · attempt 2" in page


def test_fonts_are_embedded_and_no_other_is_named() -> None:
    content = record_pdf(bench.record())
    named = set(re.findall(rb"/BaseFont /([A-Za-z0-9+-]+)", content))
    assert named
    assert all(re.fullmatch(rb"[A-Z]{6}\+Lato-(Regular|SemiBold)", name) for name in named)
    assert content.count(b"/FontFile2") >= 2
    assert b"Helvetica" not in content


def test_title_author_and_language_are_in_the_document() -> None:
    content = record_pdf(bench.record())
    about = PdfDocument(content).get_metadata_dict()
    assert about["Title"] == "Record of spectacles, job FH-1, attempt 2"
    assert about["Author"] == "Fernhollow Spectacle Workshop"
    assert b"/Lang" in content


def test_the_square_code_names_no_wearer() -> None:
    assert code_text(bench.record()) == "FH-1 5a5a5a5a5a5a5a5a"


def test_a_history_that_does_not_fit_together_is_told_on_the_paper() -> None:
    record = bench.record()
    wanted = ("Do not rely on this record", "Entry 4 was changed.", "clock was set back")
    assert missing(record, wanted) == list(wanted)
    deed = Deed(
        person=bench.OPTICIAN,
        first=bench.MADE_AT,
        last=bench.MADE_AT,
        edits=1,
        parts=("order",),
    )
    doubtful = record.imprint.with_(
        damage="Entry 4 was changed.", clock_ran_back=True, deeds=(deed,)
    )
    assert missing(record.with_(imprint=doubtful), wanted) == []


def test_the_journal_is_told_where_there_is_one() -> None:
    deed = Deed(
        person=bench.OPTICIAN,
        first=bench.MADE_AT,
        last=bench.MADE_AT,
        edits=12,
        parts=("order", "right lens"),
    )
    imprint = Imprint(
        workshop=Workshop(),
        made_at=bench.MADE_AT,
        digest="0" * 64,
        digest_of="journal",
        deeds=(deed,),
    )
    record = bench.record().with_(imprint=imprint)
    wanted = ("12 entries: order, right lens", "journal's last digest", "Workshop not named")
    assert missing(record, wanted) == []


@pytest.mark.parametrize(
    ("outcome", "state", "title"),
    [
        (None, State.MISSING, "Not decided"),
        ("release", State.WITHIN, "Release"),
        ("release with accepted deviation", State.CLOSE, "Release with accepted deviation"),
        ("return to lab", State.OUTSIDE, "Return to lab"),
        ("hold", State.CLOSE, "Hold"),
    ],
)
def test_each_outcome_is_told_large(outcome: str | None, state: State, title: str) -> None:
    record = bench.record()
    decided = record.with_(decision=record.decision.with_(outcome=outcome))
    assert (verdict(decided).state, verdict(decided).title) == (state, title)
    assert missing(decided, (title,)) == []


def test_an_outcome_without_a_name_is_only_proposed() -> None:
    record = bench.record()
    undecided = record.with_(decision=record.decision.with_(dispensed=None))
    assert verdict(undecided).title == "Proposed: return to lab"


def test_a_remark_of_the_supervisor_is_told_when_sent_back() -> None:
    record = bench.record()
    signature = record.decision.dispensed
    assert signature is not None
    back = signature.with_(remark="Read the axis again.")
    decision = record.decision.with_(outcome=None, dispensed=None, sent_back=back)
    sent = record.with_(decision=decision)
    assert missing(sent, ("Sent back by Ilse Varga: Read the axis again.",)) == []


def many(record: Record, number: int, **changes: object) -> Record:
    """The record with so many more findings on the right lens."""
    part = record.parts[1]
    sample = part.findings[0]
    more: tuple[FindingLine, ...] = tuple(
        sample.with_(**({"key": f"right.{each}", "what": f"Quantity {each}"} | changes))
        for each in range(number)
    )
    parts = (*record.parts[:1], part.with_(findings=more), *record.parts[2:])
    return record.with_(parts=parts)


def test_many_findings_run_over_pages_under_a_repeated_head() -> None:
    told = pages(record_pdf(many(bench.record(), 120)))
    heads = [page for page in told if "Quantity Ordered Found" in page]
    assert len(heads) >= 4
    assert missing(many(bench.record(), 120), (f"Quantity {each}" for each in range(120))) == []


def test_long_texts_wrap_inside_the_page() -> None:
    long = "An exceptionally long remark about the spectacles. " * 39
    name = "Fernhollowbridgewateralderlanemillstone " * 3
    record = bench.record()
    record = many(record, 2, sentence=long.strip(), what=name.strip())
    record = record.with_(
        order=record.order.with_(wearer=name.strip(), remark=long.strip()),
        decision=record.decision.with_(reason=long.strip()),
    )
    content = record_pdf(record)
    assert missing(record, (long, name)) == []
    for page in PdfDocument(content):
        places = page.get_textpage()
        boxes = [places.get_rect(each) for each in range(places.count_rects())]
        assert all(right <= RIGHT + 1 and bottom > 20 for _, bottom, right, _ in boxes)


def test_prism_of_the_pair_is_told_with_its_base() -> None:
    of_pair = {"unit": "Δ", "ordered": Decimal(0), "found": Decimal("-0.02"), "good": None}
    sideways = {"key": "pair.prism-horizontal", "difference": Decimal("-0.021")}
    upright = {"key": "pair.prism-vertical", "difference": Decimal("-0.03")}
    bound = {"limit": Decimal("0.02"), "sentence": "None ordered, limit 0.02 Δ."}
    told = text(many(bench.record(), 1, **of_pair, **sideways, **bound))
    assert "none 0.02 Δ out 0.021 Δ out 0.02 Δ" in told
    assert "none 0.02 Δ down right 0.03 Δ 0.02 Δ" in text(
        many(bench.record(), 1, **of_pair, **upright, **bound)
    )


def test_up_to_where_it_is_good_is_told() -> None:
    record = many(bench.record(), 1, good=Decimal("0.5"), unit="mm", limit=Decimal(1))
    assert missing(record, ("limit ±4°. Good to 0.5 mm.",)) == []


def test_a_long_prism_of_the_order_stays_on_the_page() -> None:
    order = bench.order()
    prism = PolarPrism(amount=Decimal("2.06"), base=Decimal(194))
    lens = order.left.with_(prism=prism, add=Decimal(2), intermediate=Decimal(1))
    record = bench.record().with_(order=order.with_(left=lens))
    assert missing(record, ("2.06 Δ base 194° (= 2.00 in, 0.50 down)",)) == []
    page = PdfDocument(record_pdf(record))[0].get_textpage()
    boxes = [page.get_rect(each) for each in range(page.count_rects())]
    assert max(right for _, _, right, _ in boxes) <= RIGHT + 1


def test_distance_and_near_are_drawn_below_the_lenses() -> None:
    order = bench.order()
    near = order.right.with_(near_pd=Decimal("29.4"))
    record = bench.record().with_(order=order.with_(right=near))
    assert missing(record, ("29.4",)) == []
    assert missing(bench.record(), ("29.4",)) == ["29.4"]


def test_a_heading_stays_with_the_first_row_of_its_table() -> None:
    right = many(bench.record(), 1).parts[1].with_(readings=())
    blocks = part_blocks(Pen("", "", ""), right)
    first_row = next(place for place, block in enumerate(blocks) if block.head)
    assert first_row > 2
    assert all(block.keeps for block in blocks[:first_row])


def test_an_empty_order_still_makes_a_paper() -> None:
    record = bench.record()
    bare = record.with_(
        order=type(record.order)(),
        parts=(),
        rules=(),
        cautions=(),
        earlier=(),
        counts=(),
        spots=(),
    )
    wanted = ("Wearer not named", "Lenses not described", "Frame not described")
    assert missing(bare, wanted) == []


def without_slips(record: Record) -> Record:
    return record.with_(parts=tuple(each.with_(slips=()) for each in record.parts))


def test_what_may_have_happened_is_asked_below_the_table() -> None:
    record = without_slips(bench.record())
    slip = SlipLine(keys=("right.axis",), about="Right axis", sentence="Turned? Look again.")
    part = record.parts[1].with_(slips=(slip,))
    asked = record.with_(parts=(*record.parts[:1], part, *record.parts[2:]))
    told = text(asked)
    heading = "What may have happened (questions, not causes)"
    assert f"{heading} Right axis: Turned? Look again." in told
    assert heading not in text(record)


def test_a_caution_of_what_does_not_apply_is_noted() -> None:
    wanted = {"state": State.NONE, "sentence": "One lens carries most of the prism."}
    assert "noted" not in text(many(bench.record(), 1, **wanted))
    told = text(many(bench.record(), 1, is_told=True, **wanted))
    assert "noted" in told
    assert "One lens carries most of the prism." in told


def test_why_an_addition_was_read_so_is_told_after_its_sentence() -> None:
    assert (
        missing(many(bench.record(), 1, method="The back is usual."), ("The back is usual.",))
        == []
    )
