"""Writes libFuzzer's dictionary: the words that the pages of the file formats print as code, and units.

    python3 tests/fuzz/words.py FILE
"""

import pathlib
import re
import sys

DOCS = pathlib.Path(__file__).resolve().parents[2] / "docs"
MORE = ["1e308", "1e-320", "-0", "1/64", "35 1/2 in", "6 ft 2 in", "1 in 80", "100 m", "1 mm", "kN m/rad", "kg/m3",
        "N/mm2", "lb/ft2", "rpm", " x ", ": ", "- ", "[", "]", "{", "}", "\\x0a  ", "\\xc3\\x97", "\\xe2\\x80\\xb3"]


def words():
    found = set()
    for page in ("bench-file.md", "frame-case.md"):
        text = (DOCS / page).read_text()
        found.update(re.findall(r"`([^`\n]+)`", text))
        for block in re.findall(r"```yaml\n(.*?)```", text, re.S):
            found.update(re.findall(r"[A-Za-z_0-9]+:", block))
    return sorted(word for word in found if len(word) < 60)


def quoted(word):
    return '"' + word.replace("\\", "\\\\").replace('"', '\\"').encode("ascii", "ignore").decode() + '"'


if __name__ == "__main__":
    lines = [quoted(word) for word in words()] + [f'"{word}"' for word in MORE]
    pathlib.Path(sys.argv[1]).write_text("\n".join(lines) + "\n")
