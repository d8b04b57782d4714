"""What oracle_suitesparse (suitesparse.cpp), built beside the program, says of the sparse solves."""

import os
import re
import subprocess
from pathlib import Path

from case_file import Difference
from rows import summed

why = "condition of the matrix (its diagonal between 1/2 and 2) x 2.2e-16, twice"


def built_beside(program):
    return Path(os.environ.get("STANDTRUE_SUITESPARSE",
                               Path(program).resolve().parent / "tests/oracles/oracle_suitesparse"))


def run(program, root):
    oracle = built_beside(program)
    if not oracle.exists():
        raise ImportError(f"{oracle} is not built (libsuitesparse-dev)")
    said = subprocess.run([oracle, Path(root) / "examples"], capture_output=True, text=True)
    lines = re.findall(r"^(frame|whole) (.+) unknowns=(\d+) loads=(\d+) condition=\S+ "
                       r"cholmod=(\S+) umfpack=(\S+) allowed=(\S+)", said.stdout, re.M)
    if said.returncode not in (0, 1) or not lines:
        raise RuntimeError(f"oracle_suitesparse: {said.stdout}{said.stderr}")
    rows = []
    for kind, what in (("frame", "sparse solves of three benches, sheets condensed"),
                       ("whole", "three benches whole, every mesh node, nothing condensed")):
        here = [line for line in lines if line[0] == kind]
        unknowns = max(int(line[2]) for line in here)
        differences = [Difference(f"{kind} {name} by {by}", 0.0, 0.0, float(off), float(allowed))
                       for _, name, _, _, cholmod, umfpack, allowed in here
                       for by, off in (("CHOLMOD", cholmod), ("UMFPACK", umfpack))]
        row = summed(f"{what}: up to {unknowns} unknowns, soft and stiff, every load case",
                     "SuiteSparse's CHOLMOD and UMFPACK" + (", the same matrix" if kind == "frame" else
                                                            ", added up for the test"), why, differences)
        row.values = 2 * sum(int(line[2]) * int(line[3]) for line in here)
        row.missed += said.returncode == 1 and not row.missed and kind == "frame"
        rows.append(row)
    return rows
