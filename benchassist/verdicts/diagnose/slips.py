"""All common slips, the simplest first: pair rules before those of a single lens."""

from benchassist.verdicts.diagnose.near_slips import NEAR_SLIPS
from benchassist.verdicts.diagnose.pair_slips import LENS_PAIR_SLIPS
from benchassist.verdicts.diagnose.place_slips import PLACE_SLIPS
from benchassist.verdicts.diagnose.power_slips import WRITTEN_SLIPS
from benchassist.verdicts.diagnose.prism_slips import PRISM_PAIR_SLIPS, PRISM_SLIPS
from benchassist.verdicts.diagnose.slip import Slip
from benchassist.verdicts.diagnose.worn_slips import WORN_SLIPS

SLIPS: tuple[Slip, ...] = (
    *LENS_PAIR_SLIPS,
    *PRISM_PAIR_SLIPS,
    *PLACE_SLIPS,
    *WRITTEN_SLIPS,
    *WORN_SLIPS,
    *NEAR_SLIPS,
    *PRISM_SLIPS,
)
"""Every slip that is looked for, in the order in which those that fit are listed."""
