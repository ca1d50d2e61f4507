"""Bench cases written as text: what was ordered, what was read, what is expected.

    set     ansi-z80.1-2015
    lens    progressive
    order   R +2.00 -1.00 x 90 add 2.00 pd 31.5 height 20 prism 1 in
    verify  R +1.87 -0.94 x 92
    read    R +2.00 -1.00 x 94 add 2.12 prism 1.25 in 0.5 up
    expect  R axis: outside, limit 3, row A5

A lens is described by `index 1.50`, `carries front` (the addition) and `worn 10 5 12` (tilt,
face form, vertex distance); `meter bench-2 display 0.01 zero 0.06 known 0.03` was checked, and
`on bench-2` after readings names it. `add 2.12 front` was read with the front on the stop.
`verify` is the maker's verification power; `drum -1.00 -2.00 x 90` reads a manual meter.
Without `decision guarded` only the limit itself decides.
"""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from tests.verdicts.jobs import (
    components,
    display,
    drum,
    found_in,
    guarded_limits,
    job_of,
    plain_limits,
    power,
    shown_add,
)

EYES = {"R": "right", "L": "left", "pair": "pair"}
BASES = {
    "in": ("base_in", 1),
    "out": ("base_in", -1),
    "up": ("base_up", 1),
    "down": ("base_up", -1),
}
_FIELDS = {
    "pd": "distance_pd",
    "near-pd": "near_pd",
    "base": "base_curve",
    "thick": "centre_thickness",
}


class BenchCase:
    """One case; `holds` judges it and compares."""

    def __init__(self, text: str) -> None:
        self.order: dict[str, Any] = {"right": {}, "left": {}}
        self.attempt: dict[str, Any] = {
            "right": {"distance": [], "near": [], "prism": []},
            "left": {"distance": [], "near": [], "prism": []},
            "pair": {"right": {}, "left": {}},
        }
        self.order["frame"] = {}
        self.attempt["instruments"] = {}
        self.expected: list[tuple[str, str, dict[str, str]]] = []
        self.is_guarded = False
        for line in filter(None, map(str.strip, text.splitlines())):
            word, _, rest = line.partition(" ")
            getattr(self, f"take_{word}")(rest.strip())

    def take_set(self, rest: str) -> None:
        self.order["rule_set"] = rest

    def take_lens(self, rest: str) -> None:
        self.order["design"] = rest

    def take_index(self, rest: str) -> None:
        self.order["index"] = rest

    def take_carries(self, rest: str) -> None:
        self.order["addition_surface"] = rest

    def take_worn(self, rest: str) -> None:
        tilt, form, self.order["vertex_distance"] = rest.split()
        self.order["frame"] = {"tilt": tilt, "face_form": form}

    def take_meter(self, rest: str) -> None:
        name, speech, step, *more = rest.split()
        told = dict(zip(more[::2], more[1::2], strict=True))
        self.attempt["instruments"][name] = {
            "name": name,
            "speech": speech,
            "step": step,
            "checked": "2026-03-02T08:00:00Z",
            "zero": told.get("zero", "0"),
            "known_lens_error": told.get("known"),
        }

    def take_decision(self, rest: str) -> None:
        self.is_guarded = rest == "guarded"

    def take_order(self, rest: str) -> None:
        eye, *words = rest.split()
        lens = self.order[EYES[eye]]
        for name, value in self.parts(words):
            lens[_FIELDS.get(name, name)] = value

    def take_verify(self, rest: str) -> None:
        eye, *words = rest.split()
        self.order[EYES[eye]]["verification"] = dict(self.parts(words))

    def take_read(self, rest: str) -> None:
        eye, *words = rest.split()
        readings, layout = self.attempt[EYES[eye]], self.attempt["pair"][EYES[eye]]
        for name, value in self.parts(words):
            if name == "power":
                axis, cylinder = value["axis"], value["cylinder"] or "0"
                readings["distance"].append(display(value["sphere"], cylinder, axis))
            elif name == "drum":
                readings["distance"].append(value)
            elif name == "add":
                readings["near"].append(shown_add(value))
            elif name == "surface":
                readings["near"][-1]["surface"] = value
            elif name == "on":
                for reading in (*readings["distance"], *readings["near"], *readings["prism"]):
                    reading["meter"] = value
            elif name == "prism":
                readings["prism"].append({"prism": value})
            else:
                field = _FIELDS.get(name, name)
                layout.setdefault(field, []).append(value)

    def take_expect(self, rest: str) -> None:
        subject, _, outcome = rest.partition(":")
        eye, name = subject.split()
        state, *more = (part.strip() for part in outcome.split(","))
        details = dict(part.split(" ", 1) for part in more)
        self.expected.append((f"{EYES[eye]}.{name}", state, details))

    def parts(self, words: list[str]) -> Iterator[tuple[str, Any]]:
        """The named parts of a line: power, drum, prism and single values."""
        rest = list(words)
        while rest:
            word = rest.pop(0)
            if word == "drum":
                lines = [rest.pop(0), rest.pop(0)]
                yield "drum", drum(lines[0], lines[1], self.axis(rest))
            elif word == "prism":
                amounts = {"base_in": Decimal(0), "base_up": Decimal(0)}
                while len(rest) > 1 and rest[1] in BASES:
                    field, sign = BASES[rest[1]]
                    amounts[field] = sign * Decimal(rest[0])
                    del rest[:2]
                yield "prism", components(str(amounts["base_in"]), str(amounts["base_up"]))
            elif word in {"front", "back"}:
                yield "surface", word
            elif word[0] in "+-0123456789":
                signed = bool(rest) and rest[0][0] in "+-"
                cylinder = rest.pop(0) if signed else None
                yield "power", power(word, cylinder, self.axis(rest))
            else:
                yield word, rest.pop(0)

    @staticmethod
    def axis(rest: list[str]) -> str | None:
        if not rest or rest[0] != "x":
            return None
        del rest[0]
        return rest.pop(0)

    def holds(self) -> None:
        """Judge the case; every expectation is met."""
        rule_set = self.order["rule_set"]
        limits = guarded_limits(rule_set) if self.is_guarded else plain_limits(rule_set)
        findings = found_in(job_of(self.order, self.attempt), limits)
        assert self.expected
        for key, state, details in self.expected:
            finding = findings[key]
            assert finding.state.value == state, finding.sentence
            for name, value in details.items():
                self.check(finding, name, value)

    @staticmethod
    def check(finding: Any, name: str, value: str) -> None:
        if name == "row":
            assert finding.rule.row == value
        elif name == "unit":
            assert finding.unit == value
        elif name == "says":
            assert value in finding.sentence, finding.sentence
        elif value == "unknown":
            assert getattr(finding, name) is None
        else:
            assert getattr(finding, name) == Decimal(value), finding.sentence
