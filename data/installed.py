"""The program installed under another root (DESTDIR) runs from there, and the desktop finds what came with it.

Usage: installed.py BUILD-FOLDER PREFIX
"""
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

build, prefix = sys.argv[1:]
APP = "org.hoopwright.Hoopwright"


def run(*words, **environment):
    """Without anything of the person's own, and without the build folder's help."""
    clean = {key: value for key, value in os.environ.items() if not re.match("HOOPWRIGHT|XDG_|GSETTINGS|LANG|LC_|GTK_|DESTDIR|MESON", key)}
    clean.update(HOME=folder, LC_ALL="C.UTF-8", GSETTINGS_BACKEND="memory", **environment)
    return subprocess.run(words, capture_output=True, text=True, timeout=120, env=clean, cwd=folder)


def png_size(path):
    with open(path, "rb") as picture:
        head = picture.read(24)
    assert head[:8] == b"\x89PNG\r\n\x1a\n", head
    return int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")


def key_file(path):
    group, found = None, {}
    for line in open(path, encoding="utf-8"):
        if line.startswith("["):
            group = line.strip()[1:-1]
        elif "=" in line and not line.startswith("#"):
            key, _, value = line.partition("=")
            found[group, key.strip()] = value.strip()
    return found


def checks():
    done = run("meson", "install", "-C", build, "--no-rebuild", "--quiet", "--destdir", root)
    yield "it is installed", done.returncode == 0, done
    share = root + prefix + "/share"
    program = root + prefix + "/bin/hoopwright"
    scene = share + "/hoopwright/demo/walled-garden.hoopscene"
    for place in (f"applications/{APP}.desktop", f"metainfo/{APP}.metainfo.xml", f"dbus-1/services/{APP}.service", "thumbnailers/hoopwright.thumbnailer",
                  f"mime/packages/{APP}.xml", f"glib-2.0/schemas/{APP}.gschema.xml", f"icons/hicolor/scalable/apps/{APP}.svg",
                  f"icons/hicolor/symbolic/apps/{APP}-symbolic.svg", "man/man1/hoopwright.1", "bash-completion/completions/hoopwright",
                  "hoopwright/demo/orchard-frieze.hoopscene", "help/C/hoopwright/index.page", "help/de/hoopwright/figures/table.png", "locale/de/LC_MESSAGES/hoopwright.mo"):
        yield f"{place} is there", os.path.isfile(f"{share}/{place}"), place
    # What a package's installation does.
    for trigger in (["glib-compile-schemas", share + "/glib-2.0/schemas"], ["update-mime-database", share + "/mime"],
                    ["update-desktop-database", share + "/applications"]):
        done = run(*trigger)
        assert done.returncode == 0, done

    done = run(program, "plan", scene)
    yield "the demo scene is planned", done.returncode == 0 and json.loads(done.stdout)["status"] == "optimal", done
    done = run(program, "templates", scene, "-o", "templates.pdf")
    with open(folder + "/templates.pdf", "rb") as paper:
        yield "its templates are written", done.returncode == 0 and paper.read(5) == b"%PDF-", done
    done = run(program, "picture", scene, "--width", "500", "-o", "picture.png")
    yield "its picture is painted", done.returncode == 0 and png_size(folder + "/picture.png")[0] == 500, done

    thumbnailer = key_file(share + "/thumbnailers/hoopwright.thumbnailer")
    given = {"%s": "256", "%o": folder + "/small", "%i": scene, "%u": "file://" + scene}
    words = [given.get(word, word) for word in shlex.split(thumbnailer["Thumbnailer Entry", "Exec"])]
    done = run(*words, PATH=os.path.dirname(program) + ":" + os.environ["PATH"])
    yield "a file manager gets the scene's small picture", done.returncode == 0 and png_size(folder + "/small") == (256, 197), done
    yield "nothing else is left beside it", sorted(os.listdir(folder)) == ["picture.png", "small", "templates.pdf"], os.listdir(folder)
    done = run("gio", "info", "-a", "standard::content-type", scene, XDG_DATA_DIRS=share)
    kind = done.stdout.partition("content-type: ")[2].strip()
    yield "the file manager knows it for a scene", kind + ";" == thumbnailer["Thumbnailer Entry", "MimeType"], done

    entry = key_file(f"{share}/applications/{APP}.desktop")
    service = key_file(f"{share}/dbus-1/services/{APP}.service")
    yield "the desktop may start it by its name", entry["Desktop Entry", "DBusActivatable"] == "true" and service["D-BUS Service", "Name"] == APP \
        and shlex.split(service["D-BUS Service", "Exec"])[0] == prefix + "/bin/hoopwright", service
    actions = [name for name in entry["Desktop Entry", "Actions"].split(";") if name]
    yield "the menu's actions are the program's options", \
        actions and all(entry[f"Desktop Action {name}", "Exec"] == f"hoopwright --{name}" for name in actions), entry
    yield "German is spoken in the menu", bool(entry.get(("Desktop Entry", "GenericName[de]"))), entry
    done = run(program, "--help", LANGUAGE="de")
    yield "and on the terminal", "Befehle" in done.stdout, done.stdout
    done = run("gsettings", "--schemadir", share + "/glib-2.0/schemas", "get", APP, "unit")
    yield "what is to be remembered is described", done.stdout.strip() == "'mm'", done

    for language in ("C", "de"):
        guide = f"{share}/hoopwright/help/{language}"
        if not os.path.isdir(guide):
            continue
        pages = [name for name in os.listdir(guide) if name.endswith(".html")]
        yield f"the guide can be read in a browser ({language})", {"index.html", "first-scene.html", "words.html"} <= set(pages), pages
        missing = []
        for page in pages:
            text = open(f"{guide}/{page}", encoding="utf-8").read()
            links = re.findall(r'(?:src|href)="([^"#:]+)(?:#[^"]*)?"', text)
            missing += [(page, link) for link in links if not os.path.isfile(f"{guide}/{link}")]
        yield f"and everything it refers to is there ({language})", not missing, missing


number = failed = 0
with tempfile.TemporaryDirectory() as top:
    root, folder = top + "/root", top + "/home"
    os.mkdir(folder)
    if not shutil.which("meson"):
        print("1..0 # SKIP there is no meson to install with")
        sys.exit(0)
    for number, (name, good, why) in enumerate(checks(), 1):
        print(f"{'ok' if good else 'not ok'} {number} - {name}")
        if not good:
            failed = 1
            print(f"# {why}")
print(f"1..{number}")
sys.exit(failed)
