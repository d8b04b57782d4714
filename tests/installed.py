#!/usr/bin/env python3
"""Installs a build, builds examples/cpp on what was installed, and holds its answer to the program's.

    python3 tests/installed.py CMAKE BUILD FOLDER COMPILER

BUILD is the build folder; all is done in FOLDER, which is made anew. The pages that an installation
has are looked for too; and the Debian package of the program is made of BUILD, where dpkg-dev is there.
"""

import json
import pathlib
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
BENCH = ROOT / "examples" / "too-slender.yaml"
HAS = ("bin/standtrue", "share/man/man1/standtrue.1", "share/standtrue/bench.schema.json",
       "share/bash-completion/completions/standtrue", "share/zsh/vendor-completions/_standtrue",
       "share/fish/vendor_completions.d/standtrue.fish", "share/doc/standtrue/docs/bench-file.md",
       "share/doc/standtrue/examples/too-slender.yaml", "share/doc/standtrue/LICENSE")

PACKAGED = ("bin/standtrue", "share/man/man1/standtrue.1.gz", "share/standtrue/bench.schema.json",
            "share/doc/standtrue/copyright", "share/doc/standtrue/changelog.gz",
            "share/doc/standtrue/changelog.Debian.gz", "share/doc/standtrue/docs/tutorial.md")


def run(*words, **more):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, **more)
    if done.returncode > 1:
        sys.exit(f"{' '.join(map(str, words))}\nended with {done.returncode}:\n{done.stdout}{done.stderr}")
    return done


def must(*words):
    done = run(*words)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, words))}\n{done.stdout}{done.stderr}")


def main():
    cmake, build, folder = (pathlib.Path(word) for word in sys.argv[1:4])
    shutil.rmtree(folder, ignore_errors=True)
    prefix, example = folder / "prefix", folder / "example"
    must(cmake, "--install", build, "--prefix", prefix)
    lacks = [name for name in HAS if not (prefix / name).exists()]
    if lacks:
        sys.exit(f"the installation lacks {', '.join(lacks)}")

    must(cmake, "-G", "Ninja", "-S", ROOT / "examples" / "cpp", "-B", example,
         f"-DCMAKE_PREFIX_PATH={prefix}", "-DCMAKE_BUILD_TYPE=Debug", f"-DCMAKE_CXX_COMPILER={sys.argv[4]}")
    must(cmake, "--build", example)
    with BENCH.open() as text:
        answer = run(example / "largest_ratio", stdin=text)
    told = json.loads(run(prefix / "bin" / "standtrue", "check", BENCH, "--json").stdout)
    judged = [finding for finding in told["findings"] if finding["ratio"]["mean"] is not None]
    worst = max(judged, key=lambda finding: finding["ratio"]["mean"])
    wanted = [f"{told['verdict'].replace('_', ' ')}: {told['summary']}",
              f"{worst['ratio']['mean']:.6g} times the limit: {worst['sentence']}"]
    if answer.stdout.splitlines() != wanted:
        sys.exit(f"the example says\n{answer.stdout}{answer.stderr}\nand the program\n" + "\n".join(wanted))
    print(answer.stdout, end="")
    if shutil.which("dpkg-shlibdeps"):
        package(cmake, build, folder)


def package(cmake, build, folder):
    must(cmake, "--build", build, "--target", "debian_files")
    must(cmake.parent / "cpack", "-G", "DEB", "--config", build / "CPackConfig.cmake", "-B", folder,
         "-D", "CPACK_COMPONENTS_ALL=program;debian")
    made = next(folder.glob("standtrue_*.deb"))
    held = run("dpkg", "-c", made).stdout
    lacks = [name for name in PACKAGED if f" ./usr/{name}\n" not in held]
    depends = run("dpkg", "-f", made, "Depends").stdout
    lacks += [name for name in ("libfmt", "libyaml-cpp") if name not in depends]
    if lacks:
        sys.exit(f"{made.name} lacks {', '.join(lacks)}")
    print(f"{made.name}: {depends}", end="")


main()
