"""Instructions of `standtrue check`, counted by valgrind's callgrind, and which functions of ours they are
spent in."""

import collections
import concurrent.futures
import re
import subprocess
import sys

rooms = ("quantity", "document", "reference", "bench", "model", "solve", "check", "decide", "report", "app")


def readable(name):
    """`solve::Factor::solve`: without what it returns, arguments, templates and our own outer namespace; and
    whether it is ours. Overloads become one."""
    bare = re.sub(r" ?\[[^]]*\]", "", name.replace("(anonymous namespace)::", ""))
    while (less := re.sub(r"<[^<>]*>|\([^()]*\)(?: const)?", "", bare)) != bare:
        bare = less
    full, *inner = bare.split("::{lambda", 1)
    full = full.split(" ")[-1] + (", a lambda" if inner else "")
    return (full.removeprefix("standtrue::"), True) if full.startswith("standtrue::") else (name, False)


class Profile:
    """What callgrind wrote: instructions of each function itself, and of each call from one to another
    with all that it calls. Functions of ours go by their readable names."""

    def __init__(self, text):
        self.own, self.ours, calls = collections.Counter(), set(), collections.Counter()
        names, caller, callee, is_call = {}, None, None, False
        for line in text.splitlines():
            named = re.match(r"(c?fn)=\((\d+)\)(?: (.*))?", line)
            if named:
                name = self.named(names, named[2], named[3])
                caller, callee = (name, callee) if named[1] == "fn" else (caller, name)
            elif line.startswith("calls="):
                is_call = True
            elif re.match(r"[+*\d-]", line):
                cost = int(line.split()[1])
                if not is_call:
                    self.own[caller] += cost
                elif caller != callee:
                    calls[caller, callee] += cost
                is_call = False
        self.total = sum(self.own.values())
        self.callees = collections.defaultdict(list)
        for (caller, callee), cost in calls.items():
            self.callees[caller].append((callee, cost))

    def named(self, names, number, name):
        """A name stands in full where it comes first; `'2` at its end is a call by itself."""
        if name is not None:
            names[number], is_ours = readable(re.sub(r"'\d+$", "", name))
            if is_ours:
                self.ours.add(names[number])
        return names[number]

    def with_all(self, name):
        return min(self.total, self.own[name] + sum(cost for _, cost in self.callees[name]))

    def parts_of_libraries(self):
        """Of each function of a library: which part of what it costs, with all that it calls, is spent in
        libraries, for some call us back."""
        parts = {name: 1.0 for name in [*self.own, *self.callees] if name not in self.ours}
        for _ in range(50):
            for name in parts:
                libraries = self.own[name] + sum(cost * parts.get(callee, 0.0)
                                                 for callee, cost in self.callees[name])
                parts[name] = libraries / max(1, self.own[name] + sum(cost for _, cost in self.callees[name]))
        return parts

    def with_libraries(self):
        """Shares of the functions of ours with the libraries that they call, but not with others of ours."""
        parts = self.parts_of_libraries()
        return {name: (self.own[name] + sum(cost * parts.get(callee, 0.0)
                                            for callee, cost in self.callees[name])) / self.total
                for name in self.ours}

    def heaviest(self, number):
        """(name, its share with libraries, its share with all that it calls)"""
        found = sorted(self.with_libraries().items(), key=lambda pair: -pair[1])
        return [(name, share, self.with_all(name) / self.total) for name, share in found[:number]]

    def by_room(self):
        found = collections.Counter()
        for name, share in self.with_libraries().items():
            found[name.split("::")[0]] += share
        return found


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
