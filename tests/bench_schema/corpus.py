"""Bench files: of examples/, of the pages, and of the texts in the tests that the program takes."""

import pathlib
import re
import subprocess

import yaml

from words import ROOT

# YAML as version 1.2 has it, and editors too: yes and no are words, 1:80 is a text.
READS = {"tag:yaml.org,2002:bool": r"^(?:true|True|TRUE|false|False|FALSE)$",
         "tag:yaml.org,2002:int": r"^[-+]?[0-9]+$",
         "tag:yaml.org,2002:float": r"^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$",
         "tag:yaml.org,2002:null": r"^(?:~|null|Null|NULL|)$"}


class Loader(yaml.SafeLoader):
    yaml_implicit_resolvers = {}


class Dumper(yaml.SafeDumper):
    yaml_implicit_resolvers = {}


for tag, pattern in READS.items():
    for kind in (Loader, Dumper):
        kind.add_implicit_resolver(tag, re.compile(pattern), None)
# SafeLoader's own integers know octals and sixties.
Loader.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))
Loader.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


def load(text):
    return yaml.load(text, Loader)


def dump(data):
    return yaml.dump(data, Dumper=Dumper, allow_unicode=True, sort_keys=False, width=10000)


STRANGE = "q" * 20  # no key is near it


def strange(data):
    """The same with a key in each group that the program can not know."""
    if isinstance(data, dict):
        return {**{key: strange(value) for key, value in data.items()}, STRANGE: "1"}
    return [strange(item) for item in data] if isinstance(data, list) else data


class Program:
    """The program as a judge of files; `parts` reads a file and solves nothing."""

    def __init__(self, path):
        self.path = str(pathlib.Path(path).resolve())

    def faults(self, text, command="parts"):
        """What it says of a file that it refuses; None of one that it takes."""
        run = subprocess.run([self.path, command, "-"], input=text, capture_output=True, text=True)
        if run.returncode == 2:
            return run.stderr
        if run.returncode > 1:
            raise SystemExit(f"ended with {run.returncode}:\n{text}")
        return None

    def takes(self, data):
        if self.faults(dump(data)) is not None:
            return False
        # `prove` reads the readings. Strange keys in them stop it before it solves.
        faults = self.faults(dump({**data, "readings": strange(data["readings"])}), "prove") \
            if data.get("readings") else ""
        return len(re.findall(r"^\S.*:\d+:\d+: ", faults, re.M)) == faults.count(STRANGE + "' is not a key")


def blocks(page):
    """The blocks of YAML in a page; one that gives its key again stands for several."""
    out = []
    for block in re.findall(r"^```yaml\n(.*?)^```$", page.read_text(), re.M | re.S):
        keys = re.findall(r"^\w+:", block, re.M)
        starts = [m.start() for m in re.finditer(f"^{keys[0]}", block, re.M)]
        out += [block[a:b] for a, b in zip(starts, [*starts[1:], len(block)])]
    return out


def literals(source):
    """C++ texts, adjacent ones joined, and raw ones."""
    code = source.read_text()
    raw = re.findall(r'R"(\w*)\((.*?)\)\1"', code, re.S)
    out = [text for _, text in raw]
    plain = r'"(?:[^"\\\n]|\\.)*"'
    for run in re.findall(rf"{plain}(?:\s*{plain})*", code):
        parts = re.findall(plain, run)
        out.append("".join(bytes(part[1:-1], "utf-8").decode("unicode_escape") for part in parts
                           if part.isascii()))
    return [text for text in out if re.match(r"\s*[a-z_]+: ", text)]


BASE = {"standtrue": 1, "size": "1960 x 640 x 870 mm", "timber": "C24 45 x 95 mm",
        "top": "18 mm spruce plywood"}


def whole(text):
    """The text as a bench, filled up where it is a part of one; None where it is no group of keys."""
    try:
        data = load(text)
    except (yaml.YAMLError, ValueError):
        return None
    if not isinstance(data, dict) or not all(isinstance(key, str) for key in data):
        return None
    usual = BASE if "parts" not in data else {"standtrue": 1}
    return {**usual, **data}


def benches(program):
    """Name and data of every bench that the program takes."""
    found = [(path.name, load(path.read_text())) for path in sorted((ROOT / "examples").glob("*.yaml"))]
    pages = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
    texts = [(page.name, block) for page in pages for block in blocks(page)]
    sources = sorted(path for path in (ROOT / "tests").rglob("*.[ch]pp") if "frame" not in path.name)
    texts += [(path.name, text) for path in sources for text in literals(path)]
    texts += [(path.name, path.read_text()) for path in sorted((ROOT / "tests" / "messages").glob("b*.yaml"))]
    texts.append(("every_key.yaml", (pathlib.Path(__file__).parent / "every_key.yaml").read_text()))
    seen = set()
    for name, text in texts:
        for part in [text] if "---" not in text else text.split("---\n"):
            data = whole(part)
            again = dump(data) if data else ""
            if not data or again in seen:
                continue
            seen.add(again)
            if program.takes(data):
                found.append((name, data))
    return found
