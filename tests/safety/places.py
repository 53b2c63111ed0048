"""Where the commands write: a device, a pipe and a folder are refused and stay what they are; a link stays a link, and what it leads to is replaced whole."""
import json
import os
import shutil
import stat
import subprocess
import sys
import tempfile

import hostile

program = os.path.abspath(sys.argv[1])
folder = tempfile.mkdtemp(prefix="hoopwright-places-")
checks = []


def run(*words):
    return subprocess.run([program, *words], capture_output=True, text=True, errors="replace", cwd=folder, timeout=120,
                          env={**os.environ, "XDG_STATE_HOME": folder, "LC_ALL": "C.UTF-8"})


def hold(what, holds, more=""):
    checks.append(holds)
    print(f"{'ok' if holds else 'not ok'} {len(checks)} - {what}")
    for line in str(more).splitlines() if not holds else ():
        print(f"# {line}")


def kind(path):
    return stat.S_IFMT(os.lstat(path).st_mode)


scene, _ = hostile.write(folder)
stitched = os.path.join(folder, "stitched.hoopscene")
with open(os.path.join(folder, "fig.csv"), "w", encoding="utf-8") as out:
    out.write("x_mm,y_mm,action,thread\n-9,0,stitch,moss\n9,0,stitch,moss\n9,9,end,moss\n")
with open(scene, encoding="utf-8") as given, open(stitched, "w", encoding="utf-8") as out:
    one = json.load(given)
    one["motifs"] = [{**one["motifs"][0], "artwork": {"path": "fig.csv", "kind": "needles"}}]
    json.dump(one, out)
endings = {"sheet": ".pdf", "templates": ".pdf", "picture": ".svg", "needles": ".csv"}
more = {"needles": ("--hooping", "1")}
for command, ending in endings.items():
    pipe, there, link, far = (os.path.join(folder, command + name + ending) for name in ("-pipe", "-folder", "-link", "-far"))
    device = os.path.join(folder, command + "-device" + ending)
    os.mkfifo(pipe)
    os.mkdir(there)
    os.symlink("/dev/null", device)
    with open(far, "w", encoding="utf-8") as out:
        out.write("the old one")
    os.symlink(far, link)
    for path, said in ((pipe, "this is a pipe, not a file"), (there, "this is a folder, not a file"), (device, "this is a device, not a file")):
        before = kind(path)
        done = run(command, stitched, *more.get(command, ()), "-o", path, "--time", "0.2")
        hold(f"{command}: {said}", done.returncode == 2 and said in done.stderr and done.stderr.count("\n") == 1 and kind(path) == before,
             f"{done.returncode} {done.stderr}")
    done = run(command, stitched, *more.get(command, ()), "-o", link, "--time", "0.2")
    with open(far, "rb") as written:
        hold(f"{command}: what a link leads to is replaced, and the link stays", kind(link) == stat.S_IFLNK and not written.read().startswith(b"the old"),
             f"{done.returncode} {done.stderr}")
hold("the devices are as they were", stat.S_ISCHR(os.stat("/dev/null").st_mode))
hold("nothing half written is left", not [name for name in os.listdir(folder) if name.startswith(".hoopwright-")], os.listdir(folder))

# A scene may not allow itself files elsewhere, and no option of a command does: only the person does, in the window, or by what she chose there before.
for command in ("check", "plan", "templates"):
    text = run(command, "--help").stdout
    hold(f"{command} has no option to allow a scene's files elsewhere", "--allow" not in text and "elsewhere" not in text, text)
print(f"1..{len(checks)}")
shutil.rmtree(folder)
sys.exit(not all(checks))
