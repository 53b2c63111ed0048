"""Runs a program on a desk of its own: python3 on-desk.py PROGRAM [ARGUMENT...]. Nobody sees its windows (tests/window/desk.py)."""
import os
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "window"))
import desk  # noqa: E402

desk.run_on_desk()
os.execv(sys.argv[1], sys.argv[1:])
