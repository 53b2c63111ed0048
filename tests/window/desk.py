"""A desk of its own for each test: a display without a screen, a session bus, a window manager and private folders.

run_on_desk() puts the calling script on such a desk: it starts the display, then runs the script again inside it. The desk is gone
when the script ends; nothing of the person's own session is seen or touched.
"""
import ctypes
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time

TOOLS = ["Xvfb", "openbox", "xdotool", "xprop", "import", "dbus-daemon"]

WINDOW_MANAGER = """<?xml version="1.0"?>
<openbox_config xmlns="http://openbox.org/3.4/rc">
  <focus><focusNew>yes</focusNew><followMouse>no</followMouse></focus>
  <placement><policy>Smart</policy><center>yes</center></placement>
  <keyboard>
    <keybind key="C-A-m"><action name="ToggleMaximize"/></keybind>
  </keyboard>
  <mouse>
    <context name="Client">
      <mousebind button="Left" action="Press"><action name="Focus"/><action name="Raise"/></mousebind>
      <mousebind button="Right" action="Press"><action name="Focus"/><action name="Raise"/></mousebind>
    </context>
  </mouse>
  <applications>
    <application class="*" type="normal"><decor>no</decor></application>
    <application class="*" type="dialog"><decor>no</decor></application>
  </applications>
</openbox_config>
"""


def end_with_parent():
    """Asks the system to end this process when the one that started it is gone, however that came about."""
    ctypes.CDLL(None).prctl(1, signal.SIGTERM)  # PR_SET_PDEATHSIG


def run_on_desk(width=1280, height=800):
    """Returns at once when already on a desk; otherwise never returns."""
    if "HOOPWRIGHT_ON_DESK" in os.environ:
        end_with_parent()
        return

    missing = [tool for tool in TOOLS if not shutil.which(tool)]
    if missing:
        print(f"1..0 # SKIP a desk needs {', '.join(missing)}")
        sys.exit(0)

    home = tempfile.mkdtemp(prefix="hoopwright-desk-")
    runtime = os.path.join(home, "run")
    os.mkdir(runtime, 0o700)
    environment = dict(os.environ)
    for unwanted in ("WAYLAND_DISPLAY", "DBUS_SESSION_BUS_ADDRESS", "AT_SPI_BUS_ADDRESS", "XAUTHORITY", "GTK_THEME", "GTK_A11Y", "GTK_MODULES",
                     "LANGUAGE", "LC_MESSAGES"):
        environment.pop(unwanted, None)
    environment.update(
        HOME=home, XDG_RUNTIME_DIR=runtime,
        XDG_CONFIG_HOME=home + "/config", XDG_DATA_HOME=home + "/data", XDG_CACHE_HOME=home + "/cache", XDG_STATE_HOME=home + "/state",
        GDK_BACKEND="x11", GSK_RENDERER="cairo", GSETTINGS_BACKEND="memory", GTK_USE_PORTAL="0", LC_ALL="C.UTF-8",
        NO_AT_BRIDGE="0")
    os.makedirs(home + "/config/openbox")
    os.makedirs(home + "/config/gtk-4.0")
    with open(home + "/config/gtk-4.0/settings.ini", "w", encoding="utf-8") as out:
        out.write("[Settings]\ngtk-enable-animations=0\n")
    manager_file = home + "/config/openbox/desk.xml"
    with open(manager_file, "w", encoding="utf-8") as out:
        out.write(WINDOW_MANAGER)

    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    started = []
    try:
        display = ["Xvfb", "-screen", "0", f"{width}x{height}x24", "-nolisten", "tcp", "-noreset", "-displayfd"]
        environment["DISPLAY"] = ":" + started_and_told(display, environment, started)
        bus = ["dbus-daemon", "--session", "--nofork", "--print-address"]
        environment["DBUS_SESSION_BUS_ADDRESS"] = started_and_told(bus, environment, started)
        environment["HOOPWRIGHT_WINDOW_MANAGER"] = manager_file
        environment["HOOPWRIGHT_ON_DESK"] = "1"
        status = subprocess.run([sys.executable] + sys.argv, env=environment, preexec_fn=end_with_parent).returncode
    finally:
        for process in reversed(started):
            process.terminate()
            process.wait()
        shutil.rmtree(home, ignore_errors=True)
    sys.exit(status)


def started_and_told(words, environment, started):
    """Starts what tells on a file descriptor, given as its last word, where it is to be found; returns what it told."""
    reader, writer = os.pipe()
    started.append(subprocess.Popen([*words, str(writer)], env=environment, pass_fds=[writer], preexec_fn=end_with_parent,
                                    stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL))
    os.close(writer)
    with os.fdopen(reader) as told:
        place = told.readline().strip()
    if not place:
        print(f"Bail out! {words[0]} could not be started.")
        sys.exit(1)
    return place


def start_window_manager():
    # It dies where a slow program keeps it waiting, as a watched one does, and is started anew.
    again = 'until openbox --config-file "$0"; do sleep 0.2; done'
    manager = subprocess.Popen(["sh", "-c", again, os.environ["HOOPWRIGHT_WINDOW_MANAGER"]],
                               preexec_fn=end_with_parent, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    deadline = time.monotonic() + 10
    while time.monotonic() < deadline:
        seen = subprocess.run(["xprop", "-root", "_NET_SUPPORTING_WM_CHECK"], capture_output=True, text=True).stdout
        if "window id" in seen:
            return manager
        time.sleep(0.05)
    raise RuntimeError("the window manager did not start")
