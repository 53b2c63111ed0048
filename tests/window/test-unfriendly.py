"""What the window makes of what nobody sound would give it: settings that are none, calls over the bus, names that are more than names."""
import contextlib
import json
import os
import re
import subprocess

import scenes
from window import SLOWER, check, run_checks, screenshot, until

QUIET = os.environ.get("HOOPWRIGHT_QUIET_LIBRARY")
PICTURES = os.environ.get("HOOPWRIGHT_PICTURES")  # a folder, to look at what the names look like
LONG = "A" * 10000
ODD = f"""[org/hoopwright/Hoopwright]
unit='furlong'
paper='{LONG}'
paper-kind=uint32 4294967295
paper-look=uint32 77
paper-nested='perhaps'
paper-unit='ell'
paper-language='../../../etc/passwd'
printer='{LONG}'
printer-stretch={{'': (nan, -1.0), '{LONG}': (1e300, 0.0)}}
printer-setups={{'': ('A99', {{'': '', 'scale': 'much'}})}}
window-size=(-5, 2147483647)
window-maximized=7
side-pane-open=nothing
motif-folder='/nowhere/\\\\u0001/..'
last-folder='{LONG}'
own-hoops=[('{LONG}', nan, inf, -inf, 0.0, 1e300, true), ('', 100.0, 100.0, 140.0, 140.0, 2.0, true), ('Small\\\\nand \\u202eturned', 80.0, 80.0, 120.0, 120.0, 2.0, false)]
hints-put-away=['', '{LONG}']
no-such-key='x'
"""


def settings(content):
    """A folder for settings whose store holds this; a folder in its place for None."""
    there = scenes.folder()
    store = os.path.join(there, "glib-2.0", "settings", "keyfile")
    os.makedirs(store if content is None else os.path.dirname(store))
    if content is not None:
        with open(store, "wb") as out:
            out.write(content)
    return {"GSETTINGS_BACKEND": "keyfile", "XDG_CONFIG_HOME": there, "XDG_STATE_HOME": scenes.folder()}


def works(open_window, environment, complaint=None):
    """A scene is planned and printed, the hoops are looked at, and the program ends well."""
    folder = scenes.folder()
    path, paper = scenes.write(folder, scenes.harbour()), os.path.join(folder, "harbour.pdf")
    window = open_window(path, environment=environment, complaint=complaint)
    window.until_plan("^3 hoopings, proven fewest")
    window.key("ctrl+p")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper), "the paper is written")
    window.key("Escape")
    window.menu("Hoops…")
    window.find("push button", re.compile("^(Done|Close|Use)"))
    window.key("Escape")
    window.key("ctrl+q")
    assert window.ended() == 0


@check
def odd_settings_are_passed_over(open_window):
    works(open_window, settings(ODD.encode()))


@check
def a_store_of_settings_that_is_none_is_borne(open_window):
    for content in (b"\x00\xff not a store [", None):
        works(open_window, settings(content), "Failed to write keyfile|Failed to read keyfile")


KEPT = b"""[org/hoopwright/Hoopwright]
printer-stretch={'': (1.01, 1.0)}
"""
# Files may be written by root whoever owns them and whatever their modes say; not by one who has given that up.
MODES_HOLD = ("setpriv", "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-dac_override,-dac_read_search") if os.geteuid() == 0 else ()


@contextlib.contextmanager
def not_to_be_written(folder):
    """A folder and all in it, for as long as this goes on."""
    inside = [os.path.join(there, name) for there, folders, files in os.walk(folder) for name in folders + files]
    for path in [folder, *inside]:
        os.chmod(path, 0o500 if os.path.isdir(path) else 0o400)
    refused = subprocess.run([*MODES_HOLD, "touch", os.path.join(folder, "new")], capture_output=True).returncode != 0
    try:
        assert refused, "the modes hold for the program"
        yield
    finally:
        for path in [folder, *inside]:
            os.chmod(path, 0o700)


def saves_and_ends(window, path):
    with open(path, "rb") as scene:
        before = scene.read()
    window.key("ctrl+a", "Right", "ctrl+s")
    until(lambda: open(path, "rb").read() != before, "the scene is saved")
    window.key("ctrl+q")
    assert window.ended() == 0
    with open(path, encoding="utf-8") as scene:
        assert [motif["position"] for motif in json.load(scene)["motifs"]] != [motif["position"] for motif in scenes.harbour()["motifs"]]


def printing(window):
    window.key("ctrl+p")
    window.unfold("Is your printer true to size?")
    window.until_reads("across measured$")


@check
def settings_that_may_not_be_written_are_read_and_what_is_chosen_holds_until_the_end(open_window):
    environment = settings(KEPT)
    store = environment["XDG_CONFIG_HOME"]
    path = scenes.write(scenes.folder(), scenes.harbour())
    with not_to_be_written(store):
        window = open_window(path, environment=environment, before=MODES_HOLD)
        window.until_plan("^3 hoopings, proven fewest")
        printing(window)
        window.until_reads("^PDF files: everything is drawn 1.0 % longer across, as it is down.$")
        window.fill_in("Measured across", "176.4")
        window.fill_in("Measured down", "244.9")
        window.until_reads("^PDF files: everything is drawn 2.0 % longer across, 2.0 % shorter down.$")
        window.key("Escape")
        window.gone("push button", "Save as PDF…")
        printing(window)
        assert window.reads("^PDF files: everything is drawn 2.0 % longer across, 2.0 % shorter down.$")
        window.key("Escape")
        window.gone("push button", "Save as PDF…")
        saves_and_ends(window, path)
    with open(os.path.join(store, "glib-2.0", "settings", "keyfile"), "rb") as kept:
        assert kept.read() == KEPT


@check
def where_no_settings_may_be_made_a_choice_holds_until_the_end(open_window):
    environment = {"GSETTINGS_BACKEND": "keyfile", "XDG_CONFIG_HOME": scenes.folder(), "XDG_STATE_HOME": scenes.folder()}
    path = scenes.write(scenes.folder(), scenes.harbour())
    with not_to_be_written(environment["XDG_CONFIG_HOME"]):
        window = open_window(path, environment=environment, before=MODES_HOLD, complaint="Failed to create .*: Permission denied")
        window.until_plan("^3 hoopings, proven fewest")
        printing(window)
        window.fill_in("Measured across", "176.4")
        window.fill_in("Measured down", "244.9")
        window.until_reads("^PDF files: everything is drawn 2.0 % longer across, 2.0 % shorter down.$")
        window.key("Escape")
        window.gone("push button", "Save as PDF…")
        saves_and_ends(window, path)
    assert not os.listdir(environment["XDG_CONFIG_HOME"])


def bus(method, *arguments):
    name = "/org/hoopwright/Hoopwright"
    patience = int(20 * SLOWER)
    return subprocess.run(["gdbus", "call", "--session", "--timeout", str(patience), "--dest", "org.hoopwright.Hoopwright", "--object-path", name,
                           "--method", method, *arguments], capture_output=True, text=True, timeout=3 * patience)


@check
def calls_over_the_bus_do_no_harm(open_window):
    log = os.path.join(scenes.folder(), "log")
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path, environment={"LD_PRELOAD": QUIET, "HOOPWRIGHT_QUIET_LOG": log, "XDG_STATE_HOME": scenes.folder()},
                         complaint="g_action|g_simple_action|parameter")
    window.until_plan("^3 hoopings, proven fewest")
    for address, said in (("http://127.0.0.1:9/far.hoopscene", "^This place cannot be read directly"),
                          ("smb://garden.example/share/far.svg", "^This place cannot be read directly"),
                          ("file:///dev/zero", "this is a device, not a file"),
                          ("file:///tmp", "this is a folder, not a file"),
                          ("file:///tmp/%FF%FE.hoopscene", "there is no such file"),
                          ("file:///tmp/" + LONG + ".hoopscene", "cannot be read|no such file"),
                          ("", "cannot be read directly|this is a folder|no such file")):
        frames = len(window.frames())
        done = bus("org.freedesktop.Application.Open", str([address]), "{}")
        assert done.returncode == 0, done.stderr
        until(lambda: len(window.frames()) > frames, "it gets a window that says so")
        window.until_reads(said)
        window.key("ctrl+w")
        until(lambda: len(window.frames()) == frames, "which closes again")
    for method, arguments in (("org.gtk.Actions.Activate", ("no-such-action", "[]", "{}")),
                              ("org.gtk.Actions.Activate", ("quit", "[<'now'>, <7>]", "{}")),
                              ("org.freedesktop.Application.ActivateAction", ("new-scene", "[<uint32 7>]", "{}")),
                              ("org.gtk.Actions.SetState", ("quit", "<true>", "{}"))):
        bus(method, *arguments)
    window.alive()
    assert window.reads("^3 hoopings, proven fewest")
    with open(log, "a+", encoding="utf-8") as kept:
        kept.seek(0)
        assert not kept.read(), "nothing reached for the network"


@check
def a_hundred_scenes_at_once_do_not_open_a_hundred_windows(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path, environment={"XDG_STATE_HOME": scenes.folder()})
    window.until_plan("^3 hoopings, proven fewest")
    assert bus("org.freedesktop.Application.Open", str(["file:///nowhere/a.hoopscene"] * 100), "{}").returncode == 0
    window.until_reads("More than 20 scenes at once")
    assert len(window.frames()) <= 21, len(window.frames())


NAMES = {"markup": "<b>Fig</b> &amp; <span size='999999'>", "lines": "Fig\nand\r\nplum\tdown", "turned": "Fig \u202ecsv.exe\u202c \u2066x", "long": "Fig " * 2500,
         "control": "Fig \u0007\u001b[2J\u0000".replace("\u0000", "")}


@check
def names_are_shown_as_they_are_and_shortened(open_window):
    for number, (kind, name) in enumerate(NAMES.items()):
        scene = scenes.harbour()
        scene["name"] = name
        scene["hoops"][0]["name"] = name
        for motif in scene["motifs"]:
            motif["name"] = name
            motif["threads"][0]["name"] = name
        folder = scenes.folder()
        path, paper = scenes.write(folder, scene), os.path.join(folder, "paper.pdf")
        window = open_window(path, environment={"XDG_STATE_HOME": scenes.folder()})
        window.until_plan("^3 hoopings, proven fewest")
        window.key("ctrl+a")
        if kind == "markup":
            assert window.reads(re.escape(name)), "the letters of the markup are read"
        if PICTURES:
            screenshot(os.path.join(PICTURES, f"{kind}.png"))
        x, y, width, height = window.box(window.main)
        assert window.size()[0] <= 1400, (kind, window.size())
        window.key("ctrl+p")
        window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
        until(lambda: os.path.exists(paper), "the paper is written")
        if PICTURES:
            subprocess.run(["pdftoppm", "-r", "50", "-png", paper, os.path.join(PICTURES, kind)], check=True)
        text = subprocess.run(["pdftotext", "-layout", paper, "-"], check=True, capture_output=True, text=True).stdout
        assert "Fig" in text and "\u001b" not in text and "\u202e" not in text, kind
        window.key("Escape")
        window.key("ctrl+q")
        assert window.ended() == 0


run_checks()
