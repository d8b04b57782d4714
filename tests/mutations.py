#!/usr/bin/env python3
"""How strong the tests are: small faults are put into a room's code one at a time, and its tests must fail.

    python3 tests/mutations.py FOLDER [--rooms solve,check] [--faults 60] [--seed 1] [--list]

FOLDER is where the sources are copied to and built (the first time some minutes); the tree that this is run in
stays as it is. For each fault the room's own tests run first, then those of `decide` and the examples. A fault that
does not compile, or that makes the same program as before, is not counted. What survives is printed with its line:
either no test looks there, or the change makes no difference (a bound that no bench comes near). No build runs this;
sixty faults take about an hour on two cores.
"""
import argparse
import hashlib
import pathlib
import random
import re
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent

# A fault: what is found, what stands there instead. Operators have a blank on either side, as clang-format
# leaves them, so that none is a sign, a template or a pointer.
FAULTS = [
    (r" \+ ", " - "), (r" - ", " + "), (r" \* ", " / "), (r" / ", " * "),
    (r" < ", " <= "), (r" <= ", " < "), (r" > ", " >= "), (r" >= ", " > "),
    (r" < ", " > "), (r" > ", " < "), (r" == ", " != "), (r" != ", " == "),
    (r" && ", " || "), (r" \|\| ", " && "), (r" \+= ", " -= "), (r" -= ", " += "),
    (r"std::max\(", "std::min("), (r"std::min\(", "std::max("), (r"std::abs\(", "("),
    (r"\btrue\b", "false"), (r"\bfalse\b", "true"), (r"\bcontinue;", "break;"),
    (r"(?<![\w.])(\d+\.\d+)(?![\w.])", None),
]
SKIPPED = re.compile(r"^\s*(//|#|\*|using |namespace |template|static_assert)|\bexpects\(|f\.working|fmt::format")


def other_number(text):
    """A hundredth more is below many a tolerance, a tenth is not."""
    value = float(text)
    return "1.0" if value == 0.0 else repr(value * 1.1)


def without_strings(line):
    """The line with what stands in quotes and after // blanked, as long as before."""
    line = re.sub(r'"(\\.|[^"\\])*"', lambda m: '"' + " " * (len(m.group()) - 2) + '"', line)
    return re.sub(r"//.*", lambda m: " " * len(m.group()), line)


def faults_of(path):
    found = []
    for number, line in enumerate(path.read_text().splitlines()):
        if SKIPPED.search(line):
            continue
        code = without_strings(line)
        for pattern, instead in FAULTS:
            for match in re.finditer(pattern, code):
                new = other_number(match.group()) if instead is None else instead
                if new != match.group():
                    found.append((path, number, match.start(), match.end(), new))
    return found


def mutated(text, fault):
    _, number, start, end, new = fault
    lines = text.split("\n")
    lines[number] = lines[number][:start] + new + lines[number][end:]
    return "\n".join(lines), lines[number].strip()


class Tree:
    """A copy of the sources and its build."""

    def __init__(self, folder):
        self.folder = folder
        if folder.exists():
            shutil.rmtree(folder / "src", ignore_errors=True)
        names = ["CMakeLists.txt", "CMakePresets.json", "src", "include", "tests", "reference", "examples", "docs",
                 "README.md", "LICENSE", "CHANGELOG.md"]
        for name in names:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, folder / name, dirs_exist_ok=True,
                                ignore=shutil.ignore_patterns("node_modules", "__pycache__"))
            else:
                folder.mkdir(parents=True, exist_ok=True)
                shutil.copy2(source, folder / name)
        self.build = folder / "build" / "dev"
        # Most of the time goes into compiling.
        subprocess.run(["cmake", "--preset", "dev", "-DCMAKE_CXX_FLAGS_RELEASE=-O1"], cwd=folder, check=True,
                       stdout=subprocess.DEVNULL)

    def builds(self, target):
        done = subprocess.run(["cmake", "--build", self.build, "--target", target], capture_output=True, text=True)
        return done.returncode == 0

    def fingerprint(self, target):
        return hashlib.sha256((self.build / "tests" / target).read_bytes()).hexdigest()

    def passes(self, target):
        try:
            done = subprocess.run([self.build / "tests" / target, "-aa=1"], capture_output=True, timeout=900)
            return done.returncode == 0
        except subprocess.TimeoutExpired:
            return False


def outcome(tree, room, fault, whole):
    path = tree.folder / fault[0].relative_to(ROOT)
    text = path.read_text()
    path.write_text(mutated(text, fault)[0])
    try:
        target = f"test_{room}"
        if not tree.builds(target):
            return "invalid"
        if tree.fingerprint(target) == whole[target]:
            return "same"
        if not tree.passes(target):
            return "killed"
        if not tree.builds("test_decide") or not tree.passes("test_decide"):
            return "killed by decide"
        return "survived"
    finally:
        path.write_text(text)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--rooms", default="solve,check")
    parser.add_argument("--faults", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--list", action="store_true", help="how many faults there are, and end")
    args = parser.parse_args()
    rooms = args.rooms.split(",")
    all_faults = {room: [f for path in sorted((ROOT / "src" / room).glob("*.cpp")) for f in faults_of(path)]
                  for room in rooms}
    for room in rooms:
        print(f"{room}: {len(all_faults[room])} faults could be put in")
    if args.list:
        return 0
    tree = Tree(args.folder.resolve())
    whole = {}
    for room in rooms + ["decide"]:
        target = f"test_{room}"
        if not tree.builds(target):
            sys.exit(f"{target} does not build without a fault")
        whole[target] = tree.fingerprint(target)
    draw = random.Random(args.seed)
    counts = {room: {} for room in rooms}
    drawn = [(room, f) for room in rooms for f in draw.sample(all_faults[room], args.faults // len(rooms))]
    for room, fault in drawn:
        found = outcome(tree, room, fault, whole)
        counts[room][found] = counts[room].get(found, 0) + 1
        place = f"{fault[0].relative_to(ROOT)}:{fault[1] + 1}"
        line = mutated(fault[0].read_text(), fault)[1]
        print(f"{found:16} {place}: '{line}' with '{fault[4].strip()}' at {fault[2] + 1}", flush=True)
    for room in rooms:
        c = counts[room]
        killed = c.get("killed", 0) + c.get("killed by decide", 0)
        judged = killed + c.get("survived", 0)
        print(f"{room}: {killed} of {judged} found ({c.get('killed', 0)} by the room's own tests); "
              f"{c.get('invalid', 0)} did not compile, {c.get('same', 0)} made no difference")
    return 0


if __name__ == "__main__":
    sys.exit(main())
