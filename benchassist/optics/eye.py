"""Which eye a lens is for."""

from enum import StrEnum


class Eye(StrEnum):
    """The wearer's right or left eye.

    Angles follow ISO 8429: facing the wearer, 0 degrees at the observer's right, counting
    counter-clockwise, alike for both eyes. The nose of a right lens therefore lies towards
    0 degrees and that of a left lens towards 180 degrees.
    """

    RIGHT = "right"
    LEFT = "left"

    @property
    def nasal_sign(self) -> int:
        """+1 where nasal is towards +x (right eye), -1 where it is towards -x (left eye)."""
        return 1 if self is Eye.RIGHT else -1

    @property
    def other(self) -> "Eye":
        """The fellow eye."""
        return Eye.LEFT if self is Eye.RIGHT else Eye.RIGHT
