"""What the program `speed` says: for each of its functions and what it was given, the least time of all
repetitions. Of what has one thread it is the processor's time, which other work disturbs less."""

import json
import subprocess
import sys


class Timed:
    def __init__(self, entry):
        to_ms = {"ns": 1e-6, "us": 1e-3, "ms": 1.0, "s": 1e3}
        by_the_clock = entry["name"].endswith("/real_time")
        self.ms = entry["real_time" if by_the_clock else "cpu_time"] * to_ms[entry["time_unit"]]
        self.entry = entry  # its counters stand in it under their own names


def run(speed, names, repetitions, out):
    """{(name, what it was given): Timed}; that is the example, or family and size as `finer/50`."""
    subprocess.run([speed, f"--benchmark_filter=^({'|'.join(names)})(/|$)", "--benchmark_min_time=0.1",
                    f"--benchmark_repetitions={repetitions}", f"--benchmark_out={out}",
                    "--benchmark_out_format=json"],
                   check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    found = {}
    for entry in json.loads(out.read_text())["benchmarks"]:
        if entry["run_type"] != "iteration":
            continue  # means and medians
        if entry.get("error_occurred"):
            sys.exit(f"benchmarks: {entry['name']}: {entry['error_message']}")
        function, *given = [part for part in entry["name"].split("/") if ":" not in part]
        if function == "command":
            function = given[0]
        given = entry.get("label") or "/".join(given[:2])
        timed = Timed(entry)
        if (function, given) not in found or timed.ms < found[function, given].ms:
            found[function, given] = timed
    return found
