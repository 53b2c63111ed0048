"""Files dragged into the window from another program's window."""
import contextlib
import os
import re
import subprocess

import desk
from window import until, xdo


@contextlib.contextmanager
def dragged_from_outside(window, files, onto):
    """Files are dragged from another program's window to a place on the screen; it hands them over when they are dropped, and then ends."""
    outside = subprocess.Popen(["/usr/bin/python3", os.path.join(os.path.dirname(os.path.abspath(__file__)), "outside.py"), *files],
                               preexec_fn=desk.end_with_parent)
    try:
        found = xdo("search", "--sync", "--onlyvisible", "--name", "^Files from outside$").split()[-1]
        place = xdo("getwindowgeometry", "--shell", found)
        x, y, width, height = (int(re.search(rf"^{word}=(-?\d+)$", place, re.MULTILINE)[1]) for word in ("X", "Y", "WIDTH", "HEIGHT"))
        held_over((x + width / 2, y + height * 0.75), onto)
        yield
    finally:
        outside.terminate()
        outside.wait()
    # Keys go nowhere until the window manager has turned from the window that went.
    until(lambda: window.active() in window.on_screen(), "the window has the keys again")


def held_over(start, end):
    """As a person drags: over the place the hand stops and stirs before it lets go, so that the program has time to say that it takes what is dropped."""
    words = ["mousemove", round(start[0]), round(start[1]), "mousedown", 1]
    for step in range(1, 21):
        words += ["mousemove", *(round(a + (b - a) * step / 20) for a, b in zip(start, end)), "sleep", "0.012"]
    for stir in (1, 0, 1, 0, 1, 0):
        words += ["mousemove", round(end[0]) + stir, round(end[1]), "sleep", "0.08"]
    xdo(*words, "mouseup", 1)
