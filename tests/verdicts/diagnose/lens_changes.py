"""Slips of one lens, made on what it shows."""

from decimal import Decimal

from hypothesis import assume

from tests.verdicts.diagnose.pairs import Shown


def cylinder_sign(lens: Shown) -> None:
    lens.cylinder = -lens.cylinder


def sphere_sign(lens: Shown) -> None:
    lens.sphere = -lens.sphere


def both_signs(lens: Shown) -> None:
    lens.sphere, lens.cylinder = -lens.sphere, -lens.cylinder


def quarter_turn(lens: Shown) -> None:
    lens.turned(Decimal(90))


def mirrored(lens: Shown) -> None:
    lens.axis = 180 - lens.axis or Decimal(180)


def axis_kept(lens: Shown) -> None:
    axis = lens.axis
    lens.transposed()
    lens.axis = axis


def sphere_kept(lens: Shown) -> None:
    sphere = lens.sphere
    lens.transposed()
    lens.sphere = sphere


def sign_kept(lens: Shown) -> None:
    lens.transposed()
    lens.cylinder = -lens.cylinder


def last_digit_first(lens: Shown) -> None:
    digits = f"{int(lens.axis):03}"
    axis = int(digits[1] + digits[2] + digits[0])
    assume(0 < axis <= 180)
    lens.axis = Decimal(axis)


def cylinder_first(lens: Shown) -> None:
    assume(lens.sphere)
    lens.sphere, lens.cylinder = lens.cylinder, lens.sphere


def cylinder_left_out(lens: Shown) -> None:
    lens.cylinder = Decimal(0)


def one_more(lens: Shown) -> None:
    lens.sphere += 1


def point_moved(lens: Shown) -> None:
    assume(lens.sphere and abs(lens.sphere) <= 3)
    lens.sphere *= 10


def added(lens: Shown) -> None:
    lens.sphere += lens.add


def taken_off(lens: Shown) -> None:
    lens.sphere -= lens.add


def near_total(lens: Shown) -> None:
    assume(0 <= lens.sphere + lens.add <= 10)
    lens.add += lens.sphere


def add_low(lens: Shown) -> None:
    lens.add -= Decimal("0.5")


def other_engraving(lens: Shown) -> None:
    lens.engraved += Decimal("0.5")


def other_lens(lens: Shown) -> None:
    lens.add += Decimal("0.5")
    lens.engraved = lens.add


def corridor(lens: Shown) -> None:
    lens.sphere += Decimal("0.37")
    lens.add -= Decimal("0.37")


def base_in_reversed(lens: Shown) -> None:
    lens.base_in = -lens.base_in


def base_up_reversed(lens: Shown) -> None:
    lens.base_up = -lens.base_up


def head_down(lens: Shown) -> None:
    lens.base_in, lens.base_up = -lens.base_in, -lens.base_up


def directions(lens: Shown) -> None:
    lens.base_in, lens.base_up = lens.base_up, lens.base_in


def no_prism(lens: Shown) -> None:
    lens.base_in = lens.base_up = Decimal(0)


def near_distance(lens: Shown) -> None:
    lens.pd = lens.near_pd


def no_inset(lens: Shown) -> None:
    lens.near_pd = lens.pd


def half_way(lens: Shown) -> None:
    lens.height = Decimal(19)
