"""Runs a program on a desk of its own: python3 on-desk.py PROGRAM [ARGUMENT...]. Nobody sees its windows (tests/window/desk.py).

HOOPWRIGHT_WATCHED_BY names what watches the program, with words of its own between spaces; the desk itself is not watched.
"""
import os
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "window"))
import desk  # noqa: E402

desk.run_on_desk()
started = os.environ.get("HOOPWRIGHT_WATCHED_BY", "").split() + sys.argv[1:]
os.execvp(started[0], started)
