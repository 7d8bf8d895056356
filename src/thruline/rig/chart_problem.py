"""What is wrong inside one chart, as a value."""

from dataclasses import dataclass

from thruline.base.address import Address


@dataclass(frozen=True, slots=True)
class ChartProblem:
    """A place in a chart that contradicts another, or the standard.

    `says` is what was found, `do` what to do about it; both are for people.
    """

    address: Address
    says: str
    do: str

    def __str__(self) -> str:
        return f"{self.says}; {self.do}"
