"""Files dragged into the window from another program's window."""
import contextlib
import os
import re
import subprocess

import desk
from window import xdo


@contextlib.contextmanager
def dragged_from_outside(window, files, onto):
    """Files are dragged from another program's window to a place on the screen; it hands them over when they are dropped, and then ends."""
    outside = subprocess.Popen(["/usr/bin/python3", os.path.join(os.path.dirname(os.path.abspath(__file__)), "outside.py"), *files],
                               preexec_fn=desk.end_with_parent)
    try:
        found = xdo("search", "--sync", "--onlyvisible", "--name", "^Files from outside$").split()[-1]
        place = xdo("getwindowgeometry", "--shell", found)
        x, y, width, height = (int(re.search(rf"^{word}=(-?\d+)$", place, re.MULTILINE)[1]) for word in ("X", "Y", "WIDTH", "HEIGHT"))
        window.drag((x + width / 2, y + height * 0.75), onto, steps=20)
        yield
    finally:
        outside.terminate()
        outside.wait()
