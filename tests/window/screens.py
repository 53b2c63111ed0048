"""Takes pictures of the workbench for people to look at: screens.py FOLDER [PNG].

Into FOLDER go the window at two sizes, light and dark, in the states a person meets most. With PNG, the picture that the README and the
metainfo show is written there as well. Needs a compositing manager (xcompmgr) for soft corners; without one menus have square corners.
"""
import os
import shutil
import subprocess
import sys

FOLDER = os.path.abspath(sys.argv[1])
SHOWN = os.path.abspath(sys.argv[2]) if len(sys.argv) > 2 else None
SIZES = [(1280, 800), (1920, 1080)]

if "HOOPWRIGHT_DESK_OUT" not in os.environ and "HOOPWRIGHT_SIZE" not in os.environ:
    # One desk for each size.
    os.makedirs(FOLDER, exist_ok=True)
    for size in SIZES:
        environment = {**os.environ, "HOOPWRIGHT_SIZE": "%dx%d" % size}
        status = subprocess.run([sys.executable, *sys.argv], env=environment).returncode
        if status:
            sys.exit(status)
    sys.exit(0)

import desk  # noqa: E402

SIZE = tuple(map(int, os.environ["HOOPWRIGHT_SIZE"].split("x")))
desk.run_on_desk(*SIZE)
if shutil.which("xcompmgr"):
    compositor = subprocess.Popen(["xcompmgr", "-n"], stderr=subprocess.DEVNULL)
else:
    compositor = None

import window  # noqa: E402
from window import until  # noqa: E402
