"""What an oracle hands over to docs/verification.md."""

from dataclasses import dataclass


@dataclass
class Row:
    """One line of the summary. `worst` and `allowed` are parts of the largest of a kind."""

    what: str  # of the program
    against: str
    values: int
    worst: float
    allowed: float  # the largest of the tolerances
    used: float  # the largest part of its own tolerance that a difference is
    why: str  # where the tolerance comes from
    missed: int = 0  # differences beyond their own tolerance


def summed(what, against, why, differences):
    """A row of many differences; prints those that are off."""
    missed = [d for d in differences if not d.off <= d.allowed]
    for d in sorted(missed, key=lambda d: -d.off)[:8]:
        print(f"  OFF by {d.off:.1e}, {d.allowed:.1e} allowed: {d.asked}: {d.wanted:.9g} wanted, "
              f"{d.found:.7g} found")
    return Row(what, against, len(differences), max(d.off for d in differences),
               max(d.allowed for d in differences), max(d.off / d.allowed for d in differences), why, len(missed))
