"""Shares of inks by general-purpose solvers, for tests/reference/leastSquares.test.ts.

With a path: makes cases (seeded), solves them and writes them there. Without one: reads cases as JSON, writes the answers.
A case: `bare` and `inks` (linear light, 0 to 1) and a `target`. Wanted: shares of the inks, at least 0 and in sum at most 1, for which
bare + sum(share * (ink - bare)) is nearest to the target; what is left of 1 is bare.

Solved twice by scipy.optimize: `nnls` (Lawson and Hanson's, on the inks and a slack, the sum held by a heavy row) and
`minimize` with method SLSQP (D. Kraft's sequential least squares, the sum as an inequality). Both are kept; they must agree.
"""

import json
import sys

import numpy
import scipy
from scipy.optimize import minimize, nnls

HEAVY = 1e4


def answer(case):
    bare = numpy.array(case["bare"])
    span = numpy.array(case["inks"]).T - bare[:, None]
    want = numpy.array(case["target"]) - bare
    n = span.shape[1]
    rows = numpy.vstack([numpy.hstack([span, numpy.zeros((3, 1))]), HEAVY * numpy.ones((1, n + 1))])
    active, _ = nnls(rows, numpy.append(want, HEAVY))
    best = None
    for start in (numpy.zeros(n), numpy.full(n, 1 / (n + 1))):
        found = minimize(
            lambda s: ((span @ s - want) ** 2).sum(),
            start,
            jac=lambda s: 2 * span.T @ (span @ s - want),
            bounds=[(0, 1)] * n,
            constraints={"type": "ineq", "fun": lambda s: 1 - s.sum(), "jac": lambda s: -numpy.ones(n)},
            method="SLSQP",
            options={"ftol": 1e-16, "maxiter": 1000},
        )
        if best is None or found.fun < best.fun:
            best = found
    return {
        "nnls": [round(float(v), 9) for v in active[:n]],
        "slsqp": [round(float(v), 9) for v in best.x],
        "missNnls": round(float(numpy.linalg.norm(span @ active[:n] - want)), 9),
        "missSlsqp": round(float(numpy.linalg.norm(span @ best.x - want)), 9),
    }


def cases():
    random = numpy.random.default_rng(1974)
    made = []
    for n in (1, 2, 3, 4, 5, 6, 8):
        for k in range(8):
            bare, inks = random.random(3), random.random((n, 3))
            # Half of the targets are mixtures, the others any colour, most of them out of reach.
            shares = random.dirichlet(numpy.ones(n + 1))
            target = shares[0] * bare + shares[1:] @ inks if k % 2 else random.random(3)
            made.append({key: numpy.round(value, 6).tolist() for key, value in (("bare", bare), ("inks", inks), ("target", target))})
    return made


if __name__ == "__main__":
    if len(sys.argv) > 1:
        solved = [{**case, **answer(case)} for case in cases()]
        head = {"source": f"scipy {scipy.__version__}, scipy.optimize.nnls and minimize (SLSQP), by leastSquares.py; seed 1974"}
        lines = ",\n    ".join(json.dumps(case) for case in solved)
        with open(sys.argv[1], "w", encoding="utf-8") as file:
            file.write(f'{{\n  "source": {json.dumps(head["source"])},\n  "cases": [\n    {lines}\n  ]\n}}\n')
    else:
        json.dump([answer(case) for case in json.load(sys.stdin)], sys.stdout)
