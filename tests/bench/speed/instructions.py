"""Instructions of `standtrue check`, counted by valgrind's callgrind, and which functions of ours they are
spent in."""

import collections
import concurrent.futures
import re
import subprocess
import sys


class Profile:
    """What callgrind wrote: instructions of each function itself, and of each call from one to another
    with all that it calls."""

    def __init__(self, text):
        self.own, self.calls, self.total = collections.Counter(), collections.Counter(), 0
        names, caller, callee, is_call = {}, None, None, False
        for line in text.splitlines():
            named = re.match(r"(c?fn)=\((\d+)\)(?: (.*))?", line)
            if named:
                kind, number, name = named.groups()
                name = names.setdefault(number, re.sub(r"'\d+$", "", name or ""))
                caller, callee = (name, callee) if kind == "fn" else (caller, name)
            elif line.startswith("calls="):
                is_call = True
            elif re.match(r"[+*\d-]", line):
                cost = int(line.split()[1])
                if not is_call:
                    self.own[caller] += cost
                elif caller != callee:
                    self.calls[caller, callee] += cost
                is_call = False
        self.total = sum(self.own.values())
        self.callees = collections.defaultdict(list)
        for (caller, callee), cost in self.calls.items():
            self.callees[caller].append((callee, cost))

    def inclusive(self, name):
        return min(self.total, self.own[name] + sum(cost for _, cost in self.callees[name]))

    def without_ours(self):
        """Of each function of a library: which part of what it costs, with all that it calls, is spent in
        libraries, for some call us back."""
        parts = {name: 1.0 for name in [*self.own, *self.callees] if not is_ours(name)}
        for _ in range(50):
            for name in parts:
                all_of_it = self.own[name] + sum(cost for _, cost in self.callees[name])
                libraries = self.own[name] + sum(cost * parts.get(callee, 0.0)
                                                 for callee, cost in self.callees[name])
                parts[name] = libraries / all_of_it if all_of_it else 0.0
        return parts

    def with_libraries(self):
        """Instructions of each function of ours with the libraries that it calls, but not with others of
        ours."""
        parts = self.without_ours()
        return {name: self.own[name] + sum(cost * parts.get(callee, 0.0) for callee, cost in self.callees[name])
                for name in self.own if is_ours(name)}

    def heaviest(self, number):
        """(name, its share with libraries, its share with all that it calls), overloads together."""
        found = collections.defaultdict(lambda: [0.0, 0.0])
        for name, cost in self.with_libraries().items():
            shares = found[readable(name)]
            shares[0] += cost / self.total
            shares[1] = max(shares[1], self.inclusive(name) / self.total)
        return sorted(((name, *shares) for name, shares in found.items()), key=lambda row: -row[1])[:number]

    def rooms(self):
        """Shares of the rooms, with the libraries that they call."""
        found = collections.Counter()
        for name, cost in self.with_libraries().items():
            found[readable(name).split("::")[0]] += cost / self.total
        return found


def is_ours(name):
    return re.match(r"(?:\w[\w: *&]* )?standtrue::", name.replace("(anonymous namespace)::", "")) is not None


def readable(name):
    """`solve::Factor::Factor`: without arguments, templates and what only tells namespaces apart."""
    name = re.sub(r" \[clone [^]]*\]", "", name.replace("(anonymous namespace)::", ""))
    while (bare := re.sub(r"<[^<>]*>|\([^()]*\)(?: const)?", "", name)) != name:
        name = bare
    return re.sub(r"::\{lambda.*", ", a lambda", name.split(" ")[-1].replace("standtrue::", ""))


def profile(program, root, example, out):
    run = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={out}", program, "check",
                          f"examples/{example}.yaml"],
                         cwd=root, capture_output=True, text=True, env={"PATH": "/usr/bin:/bin"})
    if run.returncode not in (0, 1):  # 1: the bench does not stand
        sys.exit(f"benchmarks: under valgrind the check of {example} ended with {run.returncode}:\n{run.stderr}")
    return Profile(out.read_text())


def count(program, root, build, examples):
    """Two at a time, for other work does not change a count; the first twice, to see that."""
    asked = [*examples, examples[0]]
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        jobs = [pool.submit(profile, program, root, example, build / f"callgrind.{i}")
                for i, example in enumerate(asked)]
        *profiles, again = [job.result() for job in jobs]
    return profiles, again
