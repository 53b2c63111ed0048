"""Every view of the program, brought up without a word of any language: by the window's actions, as they stand on the session bus. Tests that hold for all
of them walk them with Views."""
import json
import os
import signal
import time

import gi

import scenes
from window import until, xdo

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, Gio, GLib  # noqa: E402

NAME = "org.hoopwright.Hoopwright"
DIALOGS = ["new-scene", "edit-cloth", "edit-hoops", "threads-at-hand", "mark-list", "day-log", "print", "take-along", "about", "help",
           "show-help-overlay", "add-motif", "save-as"]
OWN_DIALOGS = [name for name in DIALOGS if name not in ("add-motif", "save-as", "show-help-overlay")]  # those are GTK's own, from within
BUOY = (460, 340)
WITNESS = os.environ.get("HOOPWRIGHT_WITNESS_LIBRARY", "")


def environment(folder, **more):
    """What a program with the witness inside is started with."""
    return {"LD_PRELOAD": WITNESS, "HOOPWRIGHT_WITNESS": os.path.join(folder, "witness.json"), **more}


class Views:
    def __init__(self, open_window, scene=True, **more):
        self.folder = scenes.folder()
        self.report = os.path.join(self.folder, "witness.json")
        self.scene = scenes.harbour() if scene is True else scene
        self.path = scenes.write(self.folder, self.scene) if self.scene else None
        self.window = open_window(*([self.path] if self.path else []), environment=environment(self.folder, **more))
        bus = Gio.bus_get_sync(Gio.BusType.SESSION)
        self.actions = Gio.DBusActionGroup.get(bus, NAME, "/org/hoopwright/Hoopwright/window/1")
        until(self._has_actions, "the window's actions are on the bus")
        if self.path:
            until(lambda: self.actions.get_action_enabled("next-hooping"), "there is a plan", 30)

    def _has_actions(self):
        self.actions.list_actions()
        while GLib.MainContext.default().iteration(False):
            pass
        return "print" in self.actions.list_actions()

    def end(self):
        """The program is one for all its windows: a second one waits for the first to be gone."""
        self.window.end()

    def do(self, action, parameter=None):
        self._has_actions()
        until(lambda: self._has_actions() and self.actions.get_action_enabled(action), f"{action} can be done")
        self.actions.activate_action(action, parameter)
        while GLib.MainContext.default().iteration(False):
            pass

    def _report_as_it_is(self):
        if not os.path.exists(self.report):
            return None
        told = os.stat(self.report)
        return told.st_ino, told.st_mtime_ns

    def witness(self):
        """What the witness sees now, once two looks in a row are the same."""
        seen = []

        def same():
            before = self._report_as_it_is()
            os.kill(self.window.process.pid, signal.SIGUSR2)
            until(lambda: self._report_as_it_is() != before, "the witness tells")
            with open(self.report, encoding="utf-8") as told:
                seen.append(json.load(told))
            if len(seen) > 1 and seen[-1] == seen[-2]:
                return True
            time.sleep(0.06)
            return False

        until(same, "the view stands still")
        return seen[-1]

    def _close_dialogs(self):
        for _ in range(8):
            if len(self.window.frames()) == 1:
                return
            before = len(self.window.frames())
            self.window.key("Escape")
            try:
                until(lambda: len(self.window.frames()) < before, "a dialog closes", 1.5)
                continue
            except AssertionError:
                pass
            xdo("getactivewindow", "windowquit")
            until(lambda: len(self.window.frames()) < before, "a dialog closes", 5)

    def dialogs(self, names=OWN_DIALOGS):
        """Yields the name of each dialog while it is there, with its frame."""
        for name in names:
            before = [frame for frame in self.window.frames()]
            self.do(name)
            until(lambda: len(self.window.frames()) > len(before), f"the dialog of {name} opens")
            time.sleep(0.1)
            yield name, self.window.frames()[-1]
            self._close_dialogs()

    def unfold_all(self):
        """Opens every section of the side pane."""
        pane = self.window.look("scroll pane", None, self.window.main)[0]
        for heading in self.window.look(("push button", "toggle button"), None, pane):
            states = heading.get_state_set()
            if states.contains(Atspi.StateType.EXPANDABLE) and not states.contains(Atspi.StateType.EXPANDED):
                self.window.do(heading)

    def select_motif(self):
        self.window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
        self.window.click_cloth(BUOY)

    def machine(self):
        """Goes to the machine with the first hooping and yields each step's number."""
        self.do("next-hooping")
        self.do("begin-hooping")
        for step in range(5):
            time.sleep(0.15)
            yield step
            self.window.key("Return")
        self.do("at-machine")
