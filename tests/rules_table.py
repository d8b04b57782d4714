#!/usr/bin/env python3
"""Makes or checks docs/rules.md: every rule that the checks go by, where it comes from, the file
that follows it and the tests that try it.

    python3 tests/rules_table.py [--write] docs/rules.md

It reads the comments of the rooms. A rule is a comment that ends in lines

    /// Source (second hand): EN 1995-1-1, 6.1.6, eq. (6.11) and (6.12).

and belongs to what is declared under it. Without --write it fails where the page is not what the
comments say now; always where a source does not say how it is known, where a rule has no test, and
where a check of src/check/check_all.cpp or check_members.cpp says no rule.
"""

import re
import sys
from dataclasses import dataclass, field
from pathlib import Path

root = Path(__file__).resolve().parent.parent
rooms = ("reference", "bench", "model", "solve", "check")
order = rooms + ("decide", "report", "app")
statuses = {
    "seen": "the document itself was read",
    "second hand": "restated by a textbook, a handbook or in another's data",
    "from memory": "not seen; to be held against the text",
    "common practice": "no document",
    "ours": "our own choice or derivation",
}
eurocodes = ("EN 1990", "EN 1993-1-1", "EN 1995-1-1")
problems = []


@dataclass
class Source:
    status: str
    document: str
    place: str


@dataclass
class Rule:
    name: str
    says: str
    sources: list
    where: Path  # of the comment
    file: Path   # that follows it
    tests: list = field(default_factory=list)


def read(path):
    return path.read_text(encoding="utf-8")


def shown(path):
    return path.relative_to(root).as_posix()


# --- Comments ------------------------------------------------------------------------------------

def comment_blocks(text):
    """Each run of /// lines, joined, with the declaration under it and the number of its line."""
    lines = text.split("\n")
    i = 0
    while i < len(lines):
        if not lines[i].lstrip().startswith("///"):
            i += 1
            continue
        start, words = i, []
        while i < len(lines) and lines[i].lstrip().startswith("///"):
            words.append(lines[i].strip()[3:].strip())
            i += 1
        declared = []
        for line in lines[i:i + 12]:
            declared.append(line.split("//")[0].strip())
            if re.search(r"[;{]\s*$", declared[-1]) or not line.strip():
                break
        yield " ".join(words), " ".join(declared), start + 1


def name_of(declared):
    """Of a type or a function; nothing where a comment stands over something else."""
    declared = re.sub(r"\[\[\w+\]\]|template\s*<[^>]*>", "", declared).strip()
    if declared.startswith("namespace"):
        return None
    of_type = re.match(r"(?:struct|class|enum class)\s+(\w+)", declared)
    if of_type:
        return of_type.group(1)
    of_function = re.search(r"(\w+)\s*\(", declared)
    return of_function.group(1) if of_function else None


def sources_of(comment, place):
    found = []
    for part in re.split(r"(?=\bSource\b ?(?:\([^)]*\))?:)", comment)[1:]:
        head, text = part.split(":", 1)
        status = re.search(r"\(([^)]*)\)", head)
        if not status or status.group(1) not in statuses:
            problems.append(f"{place}: this source does not say how it is known, as in "
                            f"'Source (second hand): ...'; one of {', '.join(statuses)}")
            continue
        text = text.strip().rstrip(".")
        if status.group(1) in ("ours", "common practice"):
            found.append(Source(status.group(1), "", text))
        else:
            document, _, clause = text.partition(", ")
            found.append(Source(status.group(1), document, clause))
    return found


def says(comment):
    """The rule without its sources: its first sentence, and more where that is short."""
    text = re.split(r"\s*\bSource\b ?\(", comment)[0].strip()
    kept = ""
    for sentence in re.split(r"(?<=[.;:])\s+(?=[A-ZΑ-Ωσ_])", text):
        if kept and len(kept) + len(sentence) > 230:
            break
        kept = f"{kept} {sentence}".strip()
    return kept.rstrip(".:;,")


# --- Sources of the program ----------------------------------------------------------------------

def units_of(text):
    """Top-level pieces of a .cpp by name: functions, types, tables."""
    units, piece = {}, ""
    for line in text.split("\n"):
        if not piece and not re.match(r"(?!namespace|using)[^\s#/}]", line):
            continue
        piece += line.split("// ")[0] + "\n"
        if piece.count("{") != piece.count("}") or not re.search(r"[;}]\s*$", piece):
            continue
        name = name_of(piece.split("{")[0])
        name = name or (re.findall(r"(\w+)(?:\[\])?\s*[={;]", piece) or [""])[0]
        units[name] = units.get(name, "") + piece
        piece = ""
    return units


def defines(text, name):
    if name not in text:
        return False
    for at in re.finditer(rf"^[^\s#/].*?(?<!::)\b{name}\(", text, re.M):
        ends = re.search(r"[;{]", text[at.end():])
        if ends and ends.group() == "{":
            return True
    return False


def file_of(name, header, room):
    """The .cpp that defines it, else the header."""
    for path in sorted((root / "src" / room).glob("*.cpp")):
        text = sources[path]
        if defines(text, name) or re.search(rf"^[^\s#/][^(\n]*\b{name}::\w+\(", text, re.M):
            return path
    return header


def read_rules():
    rules = []
    for room in rooms:
        headers = sorted((root / "include" / "standtrue" / room).glob("*.hpp"))
        own = sorted(p for p in (root / "src" / room).iterdir() if p.suffix in (".hpp", ".cpp"))
        for path in headers + own:
            for comment, declared, line in comment_blocks(read(path)):
                if not re.search(r"\bSource\b ?(\([^)]*\))?:", comment):
                    continue
                place = f"{shown(path)}:{line}"
                name = name_of(declared)
                if not name:
                    problems.append(f"{place}: a source that belongs to no function or type")
                    continue
                file = path if path.suffix == ".cpp" else file_of(name, path, room)
                rules.append(Rule(name, says(comment), sources_of(comment, place), path, file))
    return rules


# --- Tests ---------------------------------------------------------------------------------------

def code_of(text):
    return re.sub(r'//[^\n]*|"(?:\\.|[^"\\\n])*"', '""', text)


def calls(code, name):
    """With arguments, by its full name where the caller has one of its own that is called so."""
    if name not in code:
        return False
    if name[0].isupper():  # a type
        return re.search(rf"\b{name}\b", code) is not None
    has_own = re.search(rf"\bauto {name} =|^ +(?!return)[\w:<>\[\] ]+ {name}\([^;\n]*\) (?:const )?\{{",
                        code, re.M)
    prefix = r"(?:\w+::)+" if has_own else r"(?<![\w.])(?<!->)(?:\w+::)*"
    return re.search(rf"{prefix}{name}\s*\((?!\s*\))|check::{name}\b", code) is not None


def room_of(file):
    return order.index(file.parent.name)


def tests_of(names, ids, file):
    """Those that call one of the names, ask for a finding by its id, or bear the file's name."""
    found = []
    for path, (code, text) in tests.items():
        of = path.parent.name
        if of in order and order.index(of) < room_of(file):
            continue
        if (any(calls(code, n) for n in names) or
                any(f'"{i}{"" if "/" in i else "/"}' in text for i in ids) or
                (path.parent.name == file.parent.name and path.stem == file.stem + "_test")):
            found.append(path)
    return found


# --- Checks --------------------------------------------------------------------------------------

def literal(expression):
    """The text of an expression: its literals, with ... for what is put between them."""
    parts = re.findall(r'"((?:\\.|[^"\\])*)"|(\b[a-z_][\w.]*\b)', expression)
    text = ""
    for words, variable in parts:
        if variable:
            text += "" if variable in ("fmt", "format", "std", "string") else "…"
        else:
            text += re.sub(r"\{[^}]*\}", "…", words.replace('\\"', '"'))
    return re.sub(r"…+", "…", text)


def reached(units, name):
    """The pieces of a file that a function uses, itself first."""
    found, todo = [], [name]
    while todo:
        unit = todo.pop()
        if unit in found or unit not in units:
            continue
        found.append(unit)
        todo += [other for other in units if re.search(rf"\b{other}\b", units[unit])]
    return [units[unit] for unit in found]


quoted = r'"(?:\\.|[^"\\])*"'
expression = rf'(?:{quoted}|\((?:{quoted}|[^")])*\)|[^";,(){{}}])*'


def rule_texts(piece):
    texts = re.findall(rf'\babout\(\s*\w+,\s*{quoted},\s*((?:{quoted}\s*)+)', piece)
    for assigned in re.findall(rf"\.rule\s*=\s*({expression})", piece):
        either = re.match(rf"[^\"?]*\?\s*((?:{quoted}\s*)+):\s*((?:{quoted}\s*)+)", assigned)
        texts += either.groups() if either else [assigned]
    return [text for text in map(literal, texts) if re.search(r"\w", text)]


def ids_of(piece):
    """What comes before the slash in the names of findings; a whole name where it is one."""
    ids = re.findall(r'\babout\(\s*\w+,\s*"([^"]*)"', piece)
    for call in re.findall(r'\bid_of\(([^;]*?)\)', piece) + re.findall(r'\.id\s*=\s*([^;,]*)', piece):
        ids += re.findall(r'"([a-z][a-z/-]*)"', call)
    ids += re.findall(r'"([a-z]+(?:-[a-z]+)*/[a-z-]*)[{"]', piece)
    return [i.rstrip("/") for i in ids]


def passed_ids(piece):
    """Of a file that hands its ids on: words that tests ask for."""
    return [w for w in re.findall(r'"([a-z]+(?:-[a-z]+)*)"', piece) if f'"{w}/' in all_tests]


@dataclass
class Check:
    name: str
    file: Path
    texts: list
    ids: list
    formulas: list
    tests: list


def read_checks(rules):
    found = []
    with_source = {r.name for r in rules}
    lists = [root / "src/check" / name for name in ("check_members.cpp", "check_all.cpp")]
    listed = [name for file in lists for name in re.findall(r"\badd\((\w+)\(", read(file))]
    for name in [name for name in listed if name != "check_members"]:
        file = file_of(name, None, "check")
        if file is None:
            problems.append(f"src/check/check_all.cpp: {name} is defined nowhere in src/check")
            continue
        units = units_of(sources[file])
        pieces = reached(units, name)
        texts = list(dict.fromkeys(t for p in pieces for t in rule_texts(p)))
        ids = list(dict.fromkeys([i for p in pieces for i in ids_of(p)] or
                                 [i for p in pieces for i in passed_ids(p)]))
        if not texts:  # handed on in a struct: what names a document
            texts = [t for p in pieces for t in re.findall(r'"((?:EN|NDS|ASCE|Wood)[^"]*)"', p)]
        if not texts:  # set for what other files find
            texts = rule_texts(sources[file])
        if not texts:
            problems.append(f"{shown(file)}: {name} gives its findings no rule")
        if name not in with_source:
            problems.append(f"{name}: the comment of its declaration has no source")
        code = code_of("\n".join(pieces))
        formulas = sorted({r.name for r in rules if r.name != name and calls(code, r.name) and
                           (r.name not in units or r.file == file)})
        found.append(Check(name, file, texts, ids, formulas, tests_of([name], ids, file)))
    return found


def find_tests(rules, checks):
    ids = {c.name: c.ids for c in checks}
    for rule in rules:
        names = [rule.name]
        if rule.where.suffix == ".cpp":  # inside: by what its file gives to others
            names += [n for n in units_of(sources[rule.file].split("}  // namespace\n")[-1])
                      if re.fullmatch(r"\w+", n)]
        own = [i for n in names for i in ids.get(n, [])]
        rule.tests = tests_of(names, own, rule.file)
        if not rule.tests:
            problems.append(f"{shown(rule.where)}: no test calls {rule.name}")


# --- The page ------------------------------------------------------------------------------------

def link(path):
    name = path.name.removesuffix("_test.cpp") if "tests" in path.parts else path.name
    return f"[{name}](../{shown(path)})"


def links(paths):
    near = [p for p in paths if p.parent.name in rooms + ("tests",)] or paths
    return ", ".join(link(p) for p in near)


def cell(text):
    return text.replace("|", "\\|")


def by_clause(source):
    numbers = re.search(r"[A-Z]?\d+(?:\.\d+)*", source.place)
    parts = numbers.group().split(".") if numbers else ["~"]
    return [(int(p), "") if p.isdigit() else (10**6, p) for p in parts], source.place


def page_of(rules, checks):
    rows = [(source, rule) for rule in rules for source in rule.sources]
    counts = {status: sum(s.status == status for s, _ in rows) for status in statuses}
    out = ["# Rules", "",
           "What the checks go by: clause, formula, file and tests, and how each rule is known. Made by",
           "`tests/rules_table.py --write docs/rules.md` from the comments over the functions; a test "
           "keeps it", "current. Of single numbers `standtrue tables` says the same.", "",
           "| how known | rules | |", "|---|---|---|"]
    out += [f"| {status} | {counts[status]} | {what} |" for status, what in statuses.items()]
    out += [f"| together | {len(rows)} | of {len(rules)} functions |", "", "## Findings", "",
            "In the order in which they are made. The rule is as a finding says it (`--detail`, "
            "`--json`).", "", "| rule of the finding | findings | check | goes by | file | tests |",
            "|---|---|---|---|---|---|"]
    for check in checks:
        for text in check.texts or ["-"]:
            ids = ", ".join(f"`{i}`" if "/" in i else f"`{i}/…`" for i in check.ids)
            out.append(f"| {cell(text)} | {ids} | `{check.name}` | "
                       f"{', '.join(f'`{f}`' for f in check.formulas)} | {link(check.file)} | "
                       f"{links(check.tests)} |")

    def table(title, wanted, with_document=False):
        chosen = [(s, r) for s, r in rows if wanted(s)]
        if not chosen:
            return
        chosen.sort(key=lambda row: (row[0].document if with_document else "", by_clause(row[0]),
                                     row[1].name))
        head = "document | place" if with_document else "clause"
        out.extend(["", f"## {title}", "", f"| {head} | rule | what it says | how known | file | tests |",
                    "|---" * (7 if with_document else 6) + "|"])
        for s, r in chosen:
            first = f"{s.document} | {s.place}" if with_document else s.place
            out.append(f"| {first} | `{r.name}` | {cell(r.says)} | {s.status} | {link(r.file)} | "
                       f"{links(r.tests)} |")

    for document in eurocodes[::-1]:
        table(document, lambda s: s.document == document)
    table("Other documents", lambda s: s.document and s.document not in eurocodes, True)
    table("Without a document", lambda s: not s.document)
    return "\n".join(out) + "\n"


sources = {p: read(p) for room in rooms for p in sorted((root / "src" / room).glob("*.cpp"))}
tests = {p: (code_of(read(p)), read(p)) for p in sorted((root / "tests").rglob("*_test.cpp"))}
tests |= {p: ("", read(p)) for p in sorted((root / "tests").glob("*.py"))
          if p.resolve() != Path(__file__).resolve()}
all_tests = "\n".join(text for _, text in tests.values())


def main():
    page = Path(sys.argv[-1])
    rules = read_rules()
    checks = read_checks(rules)
    find_tests(rules, checks)
    if problems:
        sys.exit("\n".join(problems))
    made = page_of(rules, checks)
    if "--write" in sys.argv:
        page.write_text(made, encoding="utf-8")
    elif not page.exists() or read(page) != made:
        sys.exit(f"{page} is not what the comments say now: review the change, then "
                 f"python3 tests/rules_table.py --write {page}")


main()
