"""The program is built so that a mistake ends it and is of no use to whoever wrote the file: what readelf(1) says of the finished file.

PIE, RELRO, BIND_NOW: System V gABI and the GNU extensions of it, as `man ld` describes -pie and -z relro, -z now; canaries and fortified calls by the names
that GCC and the C library give them (`man gcc`, -fstack-protector-strong; `man feature_test_macros`, _FORTIFY_SOURCE)."""
import re
import subprocess
import sys

program, fortified = sys.argv[1], sys.argv[2] == "fortified"


def readelf(*words):
    return subprocess.run(["readelf", "--wide", *words, program], capture_output=True, text=True, check=True).stdout


segments, dynamic, symbols = readelf("--segments"), readelf("--dynamic"), readelf("--dyn-syms")
stack = next(line for line in segments.splitlines() if "GNU_STACK" in line)
checks = [
    ("it lies elsewhere each time it starts", "DYN (Position-Independent Executable" in readelf("--file-header")),
    ("its tables are read-only once it runs", "GNU_RELRO" in segments),
    ("all its calls are bound before it begins", "BIND_NOW" in dynamic and re.search(r"\bFlags:.*\bNOW\b.*\bPIE\b", dynamic) is not None),
    ("its stack holds no code", "RWE" not in stack),
    ("no part of it is both written and run", not any(re.search(r"LOAD.*RWE", line) for line in segments.splitlines())),
    ("it looks for paths of libraries nowhere of its own", "RPATH" not in dynamic and "RUNPATH" not in dynamic),
    ("a spoiled stack ends it", "__stack_chk_fail" in symbols),
    ("calls that write too much end it", not fortified or re.search(r"__(mem|str|s|sn|vsn|f|v)\w*_chk\b", symbols.replace("__stack_chk", "")) is not None),
]
print(f"1..{len(checks)}")
for number, (what, holds) in enumerate(checks, 1):
    print(f"{'ok' if holds else 'not ok'} {number} - {what}")
sys.exit(not all(holds for _, holds in checks))
