"""Factor and 500 right-hand sides by SciPy, in every way that it has, on a matrix that `same_matrix` wrote.

    python3 scipy_solves.py FILE TRIES            every way, once
    python3 scipy_solves.py FILE TRIES WAY ...    these, so often

Prints a JSON object: for each way its least times (of the processor, ms) of factor and solve, and how far K x
is from f as a part of f.
"""

import json
import sys
import time

import numpy as np
import scipy.linalg
import scipy.sparse
from scipy.sparse.csgraph import reverse_cuthill_mckee
from scipy.sparse.linalg import splu, spsolve

orderings = ("COLAMD", "MMD_AT_PLUS_A", "MMD_ATA", "NATURAL")


def super_lu(K, ordering, symmetric):
    options = {"diag_pivot_thresh": 0.0, "options": {"SymmetricMode": True}} if symmetric else {}
    return lambda: splu(K, permc_spec=ordering, **options), lambda lu, F: lu.solve(F)


def in_one(K, ordering):
    return lambda: None, lambda _, F: spsolve(K, F, permc_spec=ordering)


def dense(K):
    return (lambda: scipy.linalg.cho_factor(K.toarray(), check_finite=False),
            lambda made, F: scipy.linalg.cho_solve(made, F, check_finite=False))


def banded(K):
    def factor():
        order = reverse_cuthill_mckee(K, symmetric_mode=True)
        lower = scipy.sparse.tril(K[order][:, order]).tocoo()
        band = np.zeros((int((lower.row - lower.col).max()) + 1, K.shape[0]))
        band[lower.row - lower.col, lower.col] = lower.data
        return scipy.linalg.cholesky_banded(band, lower=True, check_finite=False), order

    def solve(made, F):
        band, order = made
        X = np.empty_like(F)
        X[order] = scipy.linalg.cho_solve_banded((band, True), F[order], check_finite=False)
        return X

    return factor, solve


def ways(K):
    found = {f"splu, {ordering}{', symmetric' if symmetric else ''}": super_lu(K, ordering, symmetric)
             for ordering in orderings for symmetric in (False, True)}
    found.update({f"spsolve, {ordering}": in_one(K, ordering) for ordering in orderings})
    return {**found, "dense Cholesky": dense(K), "banded Cholesky": banded(K)}


def once(K, F, factor, solve):
    start = time.process_time()
    made = factor()
    between = time.process_time()
    X = solve(made, F)
    end = time.process_time()
    off = np.linalg.norm(K @ X - F) / np.linalg.norm(F)
    return 1e3 * (between - start), 1e3 * (end - between), off


def main():
    file, tries, *wanted = sys.argv[1:]
    rows, columns, values = np.fromfile(file).reshape(-1, 3).T
    K = scipy.sparse.csc_matrix((values, (rows.astype(int), columns.astype(int))))
    F = np.asfortranarray(np.random.default_rng(1).uniform(-1.0, 1.0, (K.shape[0], 500)))
    found = {}
    for name, (factor, solve) in ways(K).items():
        if not wanted or name in wanted:
            times = [once(K, F, factor, solve) for _ in range(int(tries) if wanted else 1)]
            took = [min(some) for some in zip(*times)]
            found[name] = {"factor": took[0], "solve": took[1], "off": times[-1][2]}
    json.dump(found, sys.stdout)


if __name__ == "__main__":
    main()
