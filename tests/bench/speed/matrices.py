"""Factor and 500 right-hand sides on one matrix by the program, by SciPy and by SuiteSparse's CHOLMOD: in
turns, the least of all turns, the processor's time, one thread each."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

here = Path(__file__).resolve().parent
turns, tries, plain = 3, 3, "the BLAS that is installed"


def open_blas(build):
    """Folder of an OpenBLAS, for Debian's plain BLAS is slow and that would flatter us: the installed
    one, else one unpacked beside the build, else none."""
    own = build / "openblas"
    found = [*Path("/usr/lib").glob("*/openblas-*/libblas.so.3"), *own.glob("usr/lib/*/openblas-*/libblas.so.3")]
    if not found:
        own.mkdir(exist_ok=True)
        fetched = subprocess.run(["apt-get", "-q", "download", "libopenblas0-serial"], cwd=own,
                                 capture_output=True)
        for package in own.glob("*.deb"):
            subprocess.run(["dpkg", "-x", package, own], check=fetched.returncode == 0)
            package.unlink()
        found = [*own.glob("usr/lib/*/openblas-*/libblas.so.3")]
    return found[0].parent if found else None


def environments(build):
    """By the name of the BLAS."""
    alone = {**os.environ, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
    better = open_blas(build)
    found = {plain: alone}
    if better is not None:
        found["OpenBLAS"] = {**alone, "LD_LIBRARY_PATH": str(better)}
    return found


def ours_and_cholmod(program, example, mesh, file, environment):
    said = subprocess.run([program, example, str(mesh), file, str(tries)], env=environment, check=True,
                          capture_output=True, text=True).stdout
    size = {name: int(value) for name, value in re.findall(r"(unknowns|entries)=(\d+)", said)}
    times = {name: {"factor": float(factor), "solve": float(solve), "off": float(off)} for
             name, factor, solve, off in re.findall(r"(.+): factor=(\S+) solve=(\S+) off=(\S+)", said)}
    return size, times


def by_scipy(file, ways, environment):
    said = subprocess.run([sys.executable, here / "scipy_solves.py", file, str(tries), *ways], env=environment, check=True,
                          capture_output=True, text=True).stdout
    return json.loads(said)


class Compared:
    """One matrix: the least times of each way."""

    def __init__(self, example, mesh):
        self.example, self.mesh, self.size, self.ways = example, mesh, {}, {}

    def add(self, times, blas):
        for name, found in times.items():
            if not found["off"] < 1e-6:
                sys.exit(f"benchmarks: {name} does not solve {self.example}: {found['off']}")
            kept = self.ways.setdefault(name, {**found, "blas": blas, "total": float("inf")})
            total = found["factor"] + found["solve"]
            if total < kept["total"]:
                kept.update(found, blas=blas, total=total)

    def ranked(self, *starts):
        """The ways whose name starts so with their names, the quickest first."""
        return sorted(((way, name) for name, way in self.ways.items() if name.startswith(starts)),
                      key=lambda pair: pair[0]["total"])

    def best(self, *starts):
        return self.ranked(*starts)[0]


def compare(build, example, mesh):
    """All of SciPy's ways once, then the three best of these in turn with the others."""
    compared, file = Compared(example, mesh), build / "same_matrix"
    program, under = build / "tests/bench/speed/same_matrix", environments(build)
    compared.size, _ = ours_and_cholmod(program, example, mesh, file, under[plain])  # writes the file
    for blas, environment in under.items():
        compared.add(by_scipy(file, [], environment), blas)
    likely = [name for _, name in compared.ranked("")[:3]]
    for blas, environment in [*under.items()] * turns:
        _, times = ours_and_cholmod(program, example, mesh, file, environment)
        compared.add(times, blas)
        compared.add(by_scipy(file, likely, environment), blas)
    return compared
