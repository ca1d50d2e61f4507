"""What the world did wrong, in a sentence one can show."""


class BenchError(Exception):
    """A fault of the world, not of the program: a full disk, a cut file, a newer database.

    Its text is one or more whole sentences for the person at the bench, without jargon.
    """

    @property
    def sentence(self) -> str:
        """The sentence to show."""
        return str(self.args[0])
