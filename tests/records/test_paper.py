"""Blocks break over pages as a reader expects."""

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.records.ink import BODY, LEFT
from benchassist.records.paper import Block, gap, paginate, paragraph
from benchassist.records.pen import Pen

ROOM = 100.0


def heights(pages: Sequence[Sequence[Block]]) -> list[float]:
    return [sum(block.height for block in page) for page in pages]


@st.composite
def blocks(draw: st.DrawFn) -> tuple[Block, ...]:
    head = Block(draw(st.floats(1, 10)))
    kinds = st.tuples(st.floats(1, 60), st.booleans(), st.booleans(), st.booleans())
    return tuple(
        Block(height, keeps=keeps, head=(head,) if headed else (), is_gap=is_gap)
        for height, keeps, headed, is_gap in draw(st.lists(kinds, max_size=30))
    )


@settings(max_examples=60)
@given(blocks())
def test_nothing_is_lost_turned_round_or_off_the_page(given_blocks: tuple[Block, ...]) -> None:
    pages = paginate(given_blocks, ROOM)
    placed = [id(block) for page in pages for block in page]
    for block in given_blocks:
        assert block.is_gap or placed.count(id(block)) == 1
    order = [id(block) for block in given_blocks if id(block) in placed]
    assert [each for each in placed if each in set(order)] == order
    assert all(height <= ROOM + 0.001 for height in heights(pages))


@settings(max_examples=60)
@given(blocks())
def test_no_page_begins_with_a_gap(given_blocks: tuple[Block, ...]) -> None:
    assert not any(page[0].is_gap for page in paginate(given_blocks, ROOM))


def test_a_heading_goes_with_what_follows() -> None:
    filler, title, text = Block(80), Block(15, keeps=True), Block(10)
    assert paginate((filler, title, text), ROOM) == ((filler,), (title, text))


def test_a_table_head_is_repeated_on_the_next_page() -> None:
    head = Block(10, keeps=True)
    first, second = Block(80, head=(head,)), Block(40, head=(head,))
    assert paginate((head, first, second), ROOM) == ((head, first), (head, second))


def test_a_run_taller_than_a_page_is_cut() -> None:
    run = tuple(Block(40, keeps=True) for _ in range(4))
    assert [len(page) for page in paginate(run, ROOM)] == [2, 2]


def test_no_blocks_make_no_page() -> None:
    assert paginate((), ROOM) == ()
    assert paginate((gap(8),), ROOM) == ()


def test_a_paragraph_keeps_its_first_and_its_last_two_lines_together() -> None:
    pen = Pen("", "", "")
    lines = paragraph(pen, "spectacle " * 60, BODY, x=LEFT, room=200)
    keeps = [line.keeps for line in lines]
    assert len(lines) > 4
    assert keeps == [True, *[False] * (len(lines) - 3), True, False]


def test_an_empty_text_makes_no_paragraph() -> None:
    assert paragraph(Pen("", "", ""), "") == ()
