"""What no text for a wearer may claim: every example is found, and the file holds together."""

import shutil
from pathlib import Path

import pytest

from benchassist.assets import asset
from benchassist.records.claims import Claim, load_claims, unsupported
from benchassist.wrong import BenchError

CLAIMS = load_claims()


@pytest.mark.parametrize("claim", CLAIMS, ids=[claim.id for claim in CLAIMS])
def test_the_search_for_a_claim_finds_it(claim: Claim) -> None:
    assert claim.evidence
    for example in claim.examples:
        assert claim.is_in(example)
        assert claim.is_in(example.upper())
        assert unsupported(example, CLAIMS).startswith("nothing supports the claim '")


def test_a_harmless_text_is_let_through() -> None:
    assert unsupported("Please come back on Thursday, half past ten.", CLAIMS) == ""


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"unbreakable|', '"(unbreakable|', "in claim 'unbreakable', patterns '(unbreakable"),
        ('says = "Lenses or', 'tells = "Lenses or', "in claim 'unbreakable', says: "),
    ],
)
def test_a_claim_that_cannot_be_searched_for(
    tmp_path: Path, old: str, new: str, words: str
) -> None:
    shutil.copytree(asset("handover"), tmp_path, dirs_exist_ok=True)
    file = tmp_path / "unsupported.toml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(BenchError) as refused:
        load_claims(tmp_path)
    assert words in refused.value.sentence
    assert "\n" not in refused.value.sentence
