"""The commands reach for nothing but what they were given: no network, no file a drawing or a PDF names."""
import os
import shutil
import subprocess
import sys
import tempfile

import hostile

program, shim = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
folder = tempfile.mkdtemp(prefix="hoopwright-quiet-")
log = os.path.join(folder, "log")
checks = []


def run(*words, before=()):
    return subprocess.run([*before, *words], capture_output=True, text=True, errors="replace", cwd=folder, timeout=120,
                          env={**os.environ, "LD_PRELOAD": shim, "HOOPWRIGHT_QUIET_LOG": log, "XDG_STATE_HOME": folder, "LC_ALL": "C.UTF-8"})


def noted():
    if not os.path.exists(log):
        return []
    with open(log, encoding="utf-8", errors="replace") as kept:
        lines = kept.read().splitlines()
    os.remove(log)
    return lines


def hold(what, holds, more=""):
    checks.append(holds)
    print(f"{'ok' if holds else 'not ok'} {len(checks)} - {what}")
    for line in str(more).splitlines() if not holds else ():
        print(f"# {line}")


scene, artwork = hostile.write(folder)

# What keeps watch sees what it is to see.
run("/usr/bin/python3", "-c", "import socket; socket.socket(socket.AF_INET).connect(('127.0.0.1', 9))")
run("/usr/bin/python3", "-c", "import socket; socket.create_connection(('garden.example', 80))")
run("/usr/bin/python3", "-c", "open('do-not-read.svg').read()")
seen = noted()
hold("what keeps watch sees sockets, names and files", ["socket ", "getaddrinfo garden.example", "open do-not-read.svg"] == seen, seen)

reached, failed = [], []
for name in artwork:
    done = run(program, "outline", name)
    reached += [f"{name}: {line}" for line in noted()]
    if name == "entity.svg":  # an entity from elsewhere is a reason to refuse the drawing: nothing would be where its author meant it
        failed += [] if done.returncode == 2 and "this is no SVG drawing" in done.stderr else [f"{name}: {done.stdout}"]
    elif done.returncode != 0 or '"rings"' not in done.stdout:
        failed.append(f"{name}: {done.stderr}")
hold("a drawing's or a PDF's references are passed over", not reached, "\n".join(reached))
hold("and its outline is found all the same", not failed, "\n".join(failed))

for words, status in ((("check", scene), 0), (("plan", scene, "--time", "0.2"), 0), (("picture", scene, "-o", "orchard.svg", "--time", "0.2"), 0),
                      (("sheet", scene, "-o", "orchard.pdf", "--time", "0.2"), 0), (("templates", scene, "-o", "templates.pdf", "--time", "0.2"), 0)):
    done = run(program, *words)
    seen = noted()
    hold(f"{words[0]} reaches for nothing outside the scene's folder", done.returncode == status and not seen, f"{done.returncode} {done.stderr}\n" + "\n".join(seen))
hold("and each artwork elsewhere is told of", run(program, "check", scene).stdout.count("outside the scene's folder") == 4, run(program, "check", scene).stdout)

without = ("unshare", "--map-root-user", "--net")
if shutil.which("unshare") and subprocess.run([*without, "true"], capture_output=True).returncode == 0:
    done = run(program, "check", scene, before=without)
    hold("where there is no network at all the answer is the same", done.stdout == run(program, "check", scene).stdout and done.returncode == 0, done.stderr)
else:
    checks.append(True)
    print(f"ok {len(checks)} - where there is no network at all the answer is the same # SKIP unshare(1) may not take the network away here")
print(f"1..{len(checks)}")
shutil.rmtree(folder)
sys.exit(not all(checks))
