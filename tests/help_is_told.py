#!/usr/bin/env python3
"""Holds the manual page and the completions of the shells to what the program takes.

    python3 tests/help_is_told.py PROGRAM

The program itself is asked: which commands it lists, which options each of them takes, which pictures and
tables there are. Its help must tell all of them, docs/standtrue.1 and src/packaging/completion/ too, and no
others. bash is asked for its completions; zsh and fish are asked where they are installed, else their files
are read. groff and mandoc must find no fault in the page, where they are installed.
"""

import pathlib
import re
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
SHELLS = ROOT / "src" / "packaging" / "completion"
PAGE = ROOT / "docs" / "standtrue.1"
VALUES = {"--mesh": {"standard", "fine"}, "--bound": {"soft", "mean", "stiff"}}
problems = []


def same(where, got, wanted):
    if set(got) == set(wanted):
        return
    lacks, more = set(wanted) - set(got), set(got) - set(wanted)
    problems.append(f"{where}: lacks {sorted(lacks)}, has {sorted(more)} that the program does not")


def run(*words, **more):
    return subprocess.run(words, capture_output=True, text=True, **more)


# --- What the program takes ------------------------------------------------------------------------

def listed_after(text, words):
    return {name.strip() for name in re.search(rf"^{words}: (.*)$", text, re.M)[1].split(",")}


class Truth:
    def __init__(self, program):
        self.help = {"": run(program, "--help").stdout}
        self.commands = re.findall(r"^  standtrue (\w+) [F\[]", self.help[""], re.M)
        for command in self.commands:
            self.help[command] = run(program, command, "--help").stdout
        every = {option for text in self.help.values() for option in re.findall(r"--[a-z]+", text)}
        self.options = {command: {"--help"} for command in self.commands}
        for command in self.commands:
            for option in every - {"--help", "--version"}:
                answer = run(program, command, option)  # no file: it is refused in any case
                if f"does not know '{option}'" not in answer.stderr and answer.returncode == 2:
                    self.options[command].add(option)
        self.all_options = set().union(*self.options.values(), {"--version"})
        self.groups = listed_after(run(program, "tables", "no such").stderr, "The groups")
        bench = str(ROOT / "examples" / "too-slender.yaml")
        self.pictures = listed_after(run(program, "draw", bench, "no such").stderr, "The pictures")


def hold_help(truth):
    for command in truth.commands:
        told = set(re.findall(r"^  (--[a-z]+)", truth.help[command], re.M))
        told |= set(re.findall(r"; (--[a-z]+) ", truth.help[command]))
        same(f"standtrue {command} --help", told | {"--help"}, truth.options[command])


# --- The manual page -------------------------------------------------------------------------------

def hold_page(truth):
    text = PAGE.read_text().replace("\\-", "-")
    plain = re.sub(r"\\f[BIR]", "", text)
    heads = re.findall(r"^\.TP\n\\fB(\S+?)\\fR", text, re.M)
    same("docs/standtrue.1, commands", [h for h in heads if h.islower() and h.isalpha()], truth.commands)
    same("docs/standtrue.1, options", [h for h in heads if h.startswith("--")], truth.all_options)
    pictures = re.search(r"The names:\n(.*?)\.\n", plain, re.S)[1]
    same("docs/standtrue.1, pictures", re.split(r",\s*", pictures), truth.pictures)
    of_check = re.search(r"Options:\n(.*?)\.\n", plain, re.S)[1]
    same("docs/standtrue.1, check", {*re.split(r",\s*", of_check), "--help"}, truth.options["check"])
    shared = {"--json", "--report", "--date", "--width", "--help"}
    for command in heads[heads.index("ply"):heads.index("odds") + 1]:
        same(f"docs/standtrue.1, {command}", shared | ({"--seed"} if command == "odds" else set()),
             truth.options[command])
    for words in (["groff", "-ww", "-man", "-Tutf8"], ["mandoc", "-T", "lint", "-W", "warning"]):
        if shutil.which(words[0]):
            answer = run(*words, str(PAGE))
            told = answer.stderr + (answer.stdout if words[0] == "mandoc" else "")
            if told:
                problems.append(f"{words[0]}: {told}")


# --- The shells ------------------------------------------------------------------------------------

def bash(*words):
    script = (f'source {SHELLS}/standtrue.bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _standtrue; '
              r'printf "%s\n" "${COMPREPLY[@]}"')
    out = run("bash", "--norc", "-c", script, "bash", *words, cwd=ROOT / "examples").stdout.split("\n")
    return {word.replace("\\ ", " ") for word in out if word}


def fish(*words):
    line = " ".join(words)
    script = f"source {SHELLS}/standtrue.fish; complete -C '{line}'"
    answer = run("fish", "--no-config", "-c", script, cwd=ROOT / "examples").stdout
    return {line.split("\t")[0].replace("\\ ", " ") for line in answer.split("\n") if line}


def zsh(*words):
    """With what it would hand to zsh's own functions."""
    stubs = ("_describe() { print -rl -- ${${(P)2}%%:*} }; _files() { }; "
             "_arguments() { print -rl -- \"$@\" };")
    script = f"{stubs} words=(\"$@\"); CURRENT=$#; asks() {{ source {SHELLS}/_standtrue }}; asks"
    told = run("zsh", "-f", "-c", script, "zsh", *words).stdout
    out = set()
    for line in told.split("\n"):
        choice = re.search(r":\((.*)\)$", line)
        if choice and words[-1] == "" and words[-2] in line:
            return set(choice[1].split())
        out.add(re.sub(r"\[.*", "", line))
    return {word for word in out if word and not word.startswith(":")}


def hold_shell(truth, name, ask):
    same(f"{name}, commands", {w for w in ask("standtrue", "") if not w.startswith("--")}, truth.commands)
    for command in truth.commands:
        same(f"{name}, {command}", ask("standtrue", command, "--"), truth.options[command])
    for option, values in VALUES.items():
        command = "check" if option == "--mesh" else "model"
        same(f"{name}, {option}", ask("standtrue", command, option, ""), values)
    if name == "zsh":
        return
    benches = {path.name for path in (ROOT / "examples").glob("*.yaml")}
    same(f"{name}, files", {word for word in ask("standtrue", "check", "") if not word.endswith("/")
                            and (ROOT / "examples" / word).is_file()}, benches)
    same(f"{name}, pictures", ask("standtrue", "draw", "too-slender.yaml", "") - benches - folders(),
         truth.pictures)
    same(f"{name}, tables", ask("standtrue", "tables", ""), truth.groups)


def folders():
    here = [path for path in (ROOT / "examples").iterdir() if path.is_dir()]
    return {path.name for path in here} | {path.name + "/" for path in here}


def hold_text(truth, name):
    """A shell that is not here: its file has all the words."""
    text = (SHELLS / name).read_text()
    long = "-l {}" if name.endswith("fish") else "--{}"
    for word in [*truth.commands, *truth.pictures, *truth.groups]:
        if not re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text):
            problems.append(f"{name} lacks '{word}'")
    for option in truth.all_options:
        if long.format(option[2:]) not in text:
            problems.append(f"{name} lacks {option}")


def main():
    truth = Truth(str(pathlib.Path(sys.argv[1]).resolve()))
    hold_help(truth)
    hold_page(truth)
    hold_shell(truth, "bash", bash)
    for name, ask, file in (("fish", fish, "standtrue.fish"), ("zsh", zsh, "_standtrue")):
        hold_text(truth, file)
        if shutil.which(name):
            hold_shell(truth, name, ask)
    if problems:
        sys.exit("\n".join(problems))
    print(f"help_is_told: {len(truth.commands)} commands, {len(truth.all_options)} options")


main()
