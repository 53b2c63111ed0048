"""The workbench's window, driven as a person would drive it: pointer and keys by xdotool, what it says by the accessibility tree.

A test file declares its checks with @check and ends with run_checks(). Every check gets a program of its own. Conditions are waited for with a
deadline, never slept for. When a check fails, a picture of the screen is kept in the folder HOOPWRIGHT_FAILURES names.
"""
import contextlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import traceback

import desk

desk.run_on_desk()

import sight  # noqa: E402

from tree import TEXT, Atspi, GLib, Program, ask_all  # noqa: E402

PROGRAM = os.environ.get("HOOPWRIGHT", "hoopwright")
FAILURES = os.environ.get("HOOPWRIGHT_FAILURES", tempfile.gettempdir())
PATIENCE = 60.0  # seconds; far more than anything takes, on a busy machine too
WATCHED = float(os.environ.get("HOOPWRIGHT_PATIENCE", 0))  # times as long, where valgrind or sanitizers watch the program (watched.sh)
SLOWER = WATCHED or 1
# Where the build counts what is run, or the program is watched, the witness ends it so that it writes its counts, or that memory that is lost is looked for.
COUNTED = {"LD_PRELOAD": os.environ["HOOPWRIGHT_WITNESS_LIBRARY"]} if WATCHED or "HOOPWRIGHT_COUNTED" in os.environ else {}


class Gone(Exception):
    """The program ended, or a part of its window did."""


def until(condition, what, patience=PATIENCE):
    """Polls condition until it gives something true, and returns that."""
    deadline = time.monotonic() + patience * SLOWER
    pause = 0.01
    while True:
        try:
            result = condition()
        except GLib.Error:  # the widget went away while it was looked at
            result = None
        if result:
            return result
        if time.monotonic() > deadline:
            raise AssertionError(f"waited in vain: {what}")
        time.sleep(pause)
        pause = min(1.3 * pause, 0.1)  # looking costs the program time that it may need to get there


def xdo(*words):
    """The pointer and the keys. A watched program has longer to see each step of a drag."""
    words = [float(word) * SLOWER if before == "sleep" else word for before, word in zip(("", *words), words)]
    return subprocess.run(["xdotool", *map(str, words)], check=True, capture_output=True, text=True).stdout


def screenshot(path):
    subprocess.run(["import", "-silent", "-window", "root", path], check=True)


class Window:
    """One running workbench."""

    def __init__(self, *arguments, environment=None, filled=True, process=None, complaint=None, before=()):
        """filled: the window is made to fill the screen; process: one that runs already; complaint: what the libraries may write on the terminal;
        before: the words of a program that starts this one in its place."""
        self.complaint = complaint
        self.folder = tempfile.mkdtemp(prefix="hoopwright-check-")
        self.said = open(os.path.join(self.folder, "said"), "w+", encoding="utf-8")
        self.process = process or subprocess.Popen([*before, PROGRAM, *arguments], stdout=self.said, stderr=self.said, cwd=self.folder,
                                        preexec_fn=desk.end_with_parent,
                                        env={**os.environ, "XDG_STATE_HOME": self.folder, **COUNTED, **(environment or {})})
        self.application = until(self._application, "the program joins the accessibility tree")
        until(self.frames, "a window opens")
        self.main = self.frames()[0]
        until(self.on_screen, "the window is on the screen")
        self.below = None
        if filled:
            self.fill_screen()

    # --- the program as such

    def _application(self):
        self.alive()
        return Program.of_process(self.process.pid)

    def alive(self):
        if self.process.poll() is not None:
            raise Gone(f"the program ended with {self.process.returncode}: {self.words()[-2000:]}")

    def words(self):
        """What the program wrote on its terminal."""
        self.said.flush()
        with open(self.said.name, encoding="utf-8") as written:
            return written.read()

    def ended(self, patience=PATIENCE):
        """Waits for the program to end by itself and returns its exit status."""
        try:
            return self.process.wait(patience * SLOWER)
        except subprocess.TimeoutExpired:
            raise AssertionError("the program did not end") from None

    def close(self):
        self.end()
        self.said.close()
        shutil.rmtree(self.folder, ignore_errors=True)

    def end(self):
        if self.process.poll() is None and COUNTED:  # what watches or counts tells when the program is asked to end
            os.kill(self.process.pid, signal.SIGTERM)
            with contextlib.suppress(AssertionError, subprocess.TimeoutExpired):
                self.process.wait(PATIENCE * WATCHED if WATCHED else 5)
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()

    def fill_screen(self):
        """Without borders and shadows, so that places in the window are places on the screen."""
        screen = xdo("getdisplaygeometry").split()
        xdo("key", "ctrl+alt+m")
        until(lambda: any(self._size(window) == screen for window in self.on_screen()), "the window fills the screen")

    def resize(self, width, height):
        """Takes the window off the whole screen and gives it a size."""
        window = self.on_screen()[0]
        xdo("key", "ctrl+alt+m")
        until(lambda: b"MAXIMIZED" not in subprocess.run(["xprop", "-id", window, "_NET_WM_STATE"], capture_output=True).stdout,
              "the window leaves the whole screen")
        xdo("windowsize", window, width, height, "windowmove", window, 0, 0)
        until(lambda: self._size(window) == [str(width), str(height)], "the window takes its new size")

    def size(self):
        return list(map(int, self._size(self.on_screen()[0])))

    @staticmethod
    def _size(window):
        return xdo("getwindowgeometry", window).split()[-1].split("x")

    # --- what is there

    def frames(self):
        self.alive()
        return self.application.windows()

    def on_screen(self):
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(self.process.pid)], capture_output=True, text=True)
        return found.stdout.split()

    def walk(self, start=None):
        """Every widget below start (all windows when None), from top to bottom, as all were at one moment."""
        self.alive()
        return list(self.application.walk(start))

    def look(self, role=None, name=None, start=None):
        """All widgets of a role (or roles, as Atspi calls them: 'button', 'text') and name (text or compiled pattern), now."""
        roles = [role] if isinstance(role, str) else role

        def fits(widget):
            if roles and widget.get_role_name() not in roles:
                return False
            if name is None:
                return True
            said = widget.seen.name
            # GTK names the buttons of its message dialogs twice over.
            return bool(name.search(said)) if isinstance(name, re.Pattern) else said in (name, f"{name} {name}")

        return [widget for widget in self.walk(start) if fits(widget)]

    def find(self, role=None, name=None, start=None, patience=PATIENCE):
        """The first such widget, as soon as there is one."""
        return until(lambda: next(iter(self.look(role, name, start)), None), f"{role} '{getattr(name, 'pattern', name)}' shows", patience)

    def gone(self, role=None, name=None, start=None):
        until(lambda: not self.look(role, name, start), f"{role} '{getattr(name, 'pattern', name)}' goes away")
        self.settled()

    def settled(self):
        """Waits until the screen has the windows that the tree has, and one of them the keys: what is pressed while a dialog or a menu is just going goes
        nowhere. A menu that stays is on the screen alone, so not for long."""
        with contextlib.suppress(AssertionError):
            until(lambda: len(self.on_screen()) == len(self.frames()) and self.active() in self.on_screen(), "nothing is just going", 2)

    def texts(self, start=None):
        """All that can be read below start: names of labels and contents of entries."""
        return self._read(self.walk(start))

    def rows(self, role="list item", start=None):
        """Each widget of the role, with what can be read in it, all from one look."""
        there = self.walk(start)
        found = []
        for number, widget in enumerate(there):
            if widget.get_role_name() == role:
                end = next((after for after in range(number + 1, len(there)) if there[after].depth <= widget.depth), len(there))
                found.append((widget, self._read(there[number:end])))
        return found

    @staticmethod
    def _read(widgets):
        read = [widget for widget in widgets if widget.get_role_name() in ("text", "label", "entry", "static")]
        said = [widget.seen.name if widget.get_role_name() == "label" or not widget.has(TEXT) else "" for widget in read]
        within = [number for number, words in enumerate(said) if not words and read[number].has(TEXT)]
        for number, answer in zip(within, ask_all([read[number].text_question() for number in within])):
            said[number] = answer.unpack()[0] if answer else ""
        return [words for words in said if words]

    def foot(self):
        """The part of the window below the table."""
        if self.below is None:
            self.below = self.find("panel", "The course: one bead for each hooping").get_parent()
        return self.below

    def until_plan(self, pattern, patience=PATIENCE):
        """Waits for the plan's sentence to hold the pattern, and returns it."""
        pattern = re.compile(pattern)

        def sentence():
            said = next(widget.seen.name for widget in self.walk(self.foot()) if widget.get_role_name() == "label")
            return pattern.search(said) and said

        return until(sentence, f"the plan reads '{pattern.pattern}'", patience)

    def reads(self, pattern, start=None):
        """The first readable text that holds the pattern, now, or None."""
        pattern = re.compile(pattern)
        return next((said for said in self.texts(start) if pattern.search(said)), None)

    def until_reads(self, pattern, start=None, patience=PATIENCE):
        return until(lambda: self.reads(pattern, start), f"'{pattern}' can be read", patience)

    # --- hands

    def box(self, widget):
        """Where a widget lies on the screen: x, y, width, height."""
        left, top, width, height = widget.get_extents()
        x, y = self.origin(widget)
        return x + left, y + top, width, height

    def origin(self, widget):
        """The screen place of the client area of the widget's window."""
        frame = widget.get_window()
        title = frame.get_name()
        if WATCHED:  # a window that comes slowly bears no title at first
            with contextlib.suppress(AssertionError):
                until(lambda: any(window[0] == title for window in sight.windows()), "the window bears its title", 1)
        windows = until(sight.windows, "the window is on the screen")  # for a moment none is, while a dialog goes
        _, x, y, over_all, tall = next((window for window in windows if window[0] == title), windows[0])
        _, _, width, height = frame.get_extents()
        # What the window draws around its client area is as wide on all sides.
        return x + (over_all - width) // 2, y + (tall - height) // 2

    def click(self, widget, button=1, at=(0.5, 0.5)):
        self.bring_into_view(widget)
        x, y, width, height = self.box(widget)
        self.click_at(x + width * at[0], y + height * at[1], button)

    def bring_into_view(self, widget):
        """Turns the wheel over the pane that holds the widget, if one does, until all of it can be seen or the pane goes no farther."""
        pane = widget.get_parent()
        while pane is not None and pane.get_role_name() not in ("scroll pane", "application"):
            pane = pane.get_parent()
        if pane is None or pane.get_role_name() == "application":
            return
        for _ in range(60):
            x, top, width, height = self.box(pane)
            _, y, _, tall = self.box(widget)
            if top <= y and y + tall <= top + height:
                return
            self.click_at(x + width - 6, top + height / 2, 5 if y > top else 4)
            try:
                until(lambda: self.box(widget)[1] != y, "the pane scrolls", 1.0)
            except AssertionError:
                return

    @staticmethod
    def click_at(x, y, button=1):
        xdo("mousemove", round(x), round(y), "click", button)

    @staticmethod
    def drag(start, end, steps=10, hold=None):
        """From one screen place to another in small steps; hold is a key held down meanwhile."""
        words = ["mousemove", round(start[0]), round(start[1])]
        if hold:
            words += ["keydown", hold]
        words += ["mousedown", 1]
        for step in range(1, steps + 1):
            x = start[0] + (end[0] - start[0]) * step / steps
            y = start[1] + (end[1] - start[1]) * step / steps
            words += ["mousemove", round(x), round(y), "sleep", "0.012"]
        words += ["mouseup", 1]
        if hold:
            words += ["keyup", hold]
        xdo(*words)

    def key(self, *keys):
        """Presses keys. After an Escape that has a dialog or a menu going, what is pressed next would go nowhere: so that is waited for."""
        there = len(self.on_screen()) if keys[-1] == "Escape" else 1
        xdo("key", *keys)
        if there > 1:
            with contextlib.suppress(AssertionError):  # it may have put away something within the dialog
                until(lambda: len(self.on_screen()) < there, "the dialog goes", 1)
            self.settled()

    @staticmethod
    def type(text):
        xdo("type", "--delay", "12", "--", text)

    def do(self, widget, action=0):
        """Does what the widget is for, through the accessibility tree."""
        assert widget.do_action(action), f"{widget.get_role_name()} '{widget.get_name()}' does nothing"

    @staticmethod
    def active():
        """The window that has the keys, as on_screen() tells it; for a moment there is none."""
        return subprocess.run(["xdotool", "getactivewindow"], capture_output=True, text=True).stdout.strip()

    def until_alone(self, what="the dialog is put away"):
        """Waits until only the main window is left and has the keys: what is pressed before goes to a dialog that is just going, or nowhere."""
        def alone():
            return len(self.frames()) == 1 and [self.active()] == self.on_screen()

        until(alone, what)

    # --- the cloth on the table, in fabric millimetres

    def find_cloth(self, width, height, colour, near=24):
        """Looks for the cloth on the screen, by its colour within near; from then on its millimetres are known."""
        self.cloth = until(lambda: self._steady_cloth(width, height, colour, near), "the cloth lies still on the table")

    @staticmethod
    def _steady_cloth(width, height, colour, near):
        try:
            first, second = (sight.Cloth(width, height, colour, near) for _ in range(2))
        except sight.NotSeen:
            return None
        return second if vars(first) == vars(second) else None

    def pixel(self, x, y):
        return self.cloth.pixel(x, y)

    def click_cloth(self, at, button=1, hold=None):
        x, y = self.pixel(*at)
        words = ["mousemove", round(x), round(y), "click", button]
        xdo(*(["keydown", hold, *words, "keyup", hold] if hold else words))

    def drag_on_cloth(self, start, end, hold=None):
        self.drag(self.pixel(*start), self.pixel(*end), hold=hold)

    @contextlib.contextmanager
    def held_on_cloth(self, start, end):
        """Drags, and lets go only after the block."""
        (x0, y0), (x1, y1) = self.pixel(*start), self.pixel(*end)
        words = ["mousemove", round(x0), round(y0), "mousedown", 1]
        for step in range(1, 11):
            words += ["mousemove", round(x0 + (x1 - x0) * step / 10), round(y0 + (y1 - y0) * step / 10), "sleep", "0.012"]
        xdo(*words)
        try:
            yield
        finally:
            xdo("mouseup", 1)

    def menu_on_cloth(self, at, name):
        """Opens the menu of the right button there and does one entry of it."""
        self.click_cloth(at, 3)
        self.do(self.find("menu item", name))
        self.gone("menu item", name)

    def handles_of(self, at, width, height):
        """Where the handles of an unturned selected motif lie on the screen: the lower right corner, and the one to turn by."""
        x, y = self.pixel(*at)
        right = max(width / 2 * self.cloth.scale + 7, 24)
        below = max(height / 2 * self.cloth.scale + 7, 24)
        return (x + right, y + below), (x, y - below - 36)

    def table(self):
        return self.find("image", "The cloth")

    def table_picture(self):
        """The part of the screen where the table is."""
        x, y, width, height = map(round, self.box(self.table()))
        return sight.screen()[y:y + height, x:x + width]

    def until_still(self):
        """The table's picture, once it has been the same for a moment: two pictures in a row can fall between two frames of a busy machine."""
        last, since = self.table_picture(), time.monotonic()

        def same():
            nonlocal last, since
            now = self.table_picture()
            if now.shape != last.shape or (now != last).any():
                last, since = now, time.monotonic()
            return time.monotonic() - since > 0.15 * SLOWER

        until(same, "the table stands still")
        return last

    # --- menus, sections and lists

    def menu(self, name):
        """Does an entry of the main menu."""
        self.do_menu_button("Menu")
        self.do(self.find("menu item", name))
        self.gone("menu item", name)

    def do_menu_button(self, name):
        self.click(self.find("push button", name))

    def fold(self, *names, unfold=False):
        """Folds sections of the side pane, or unfolds them, so that the others have room."""
        for name in names:
            section = self.find("push button", name)
            if is_pressed(section) != unfold:
                self.click(section)
            until(lambda: is_pressed(section) == unfold, f"{name} {'un' if unfold else ''}folds")

    def unfold(self, *names):
        self.fold(*names, unfold=True)

    def order_rows(self):
        """Name and row of each motif in the stitch order, from back to front."""
        rows = self.rows("list item", self.find("list", "Stitch order, back to front"))
        return [(next(text for text in said if not text.isdigit()), row) for row, said in rows]

    def drag_widget(self, taken, onto, at=0.2):
        """Takes one widget by its middle and lets it fall on another, at a part of its height."""
        x, y, width, height = self.box(onto)
        start = self._middle(taken)
        end = (x + width / 2, y + height * at)
        words = ["mousemove", *map(round, start), "mousedown", 1]
        for step in range(1, 21):
            words += ["mousemove", round(start[0] + (end[0] - start[0]) * step / 20), round(start[1] + (end[1] - start[1]) * step / 20),
                      "sleep", "0.02"]
        xdo(*words, "sleep", "0.1", "mouseup", 1)

    # --- files

    def saved(self, path):
        """Saves by keyboard and reads the file back once it has been written anew."""
        self.settled()
        before = os.stat(path)
        self.key("ctrl+s")
        until(lambda: (os.stat(path).st_ino, os.stat(path).st_mtime_ns) != (before.st_ino, before.st_mtime_ns), "the scene is saved")
        return read_scene(path)

    def choose_file(self, ask, path):
        """Brings up a file dialog, by keys or by what ask does, and types the path there."""
        before = len(self.frames())
        if callable(ask):
            ask()
        else:
            self.key(ask)
        until(lambda: len(self.frames()) > before, "the file dialog opens")
        self.type_path(path)
        self.accept(self.frames()[-1])

    def accept(self, dialog):
        """Does what the dialog's last button says. Return would be taken by the list of names that the dialog offers while a name is typed, which comes and
        goes when it likes."""
        # While the dialog still reads its folder the button takes nothing.
        until(lambda: dialog not in self.frames() or self.look("push button", None, dialog)[-1].do_action(), "the dialog's button takes a press")
        until(lambda: dialog not in self.frames() and self.active() in self.on_screen(), "the file dialog closes and the keys go to a window again")

    def type_path(self, path):
        """Types a path into the file dialog in front. When the dialog has read its folder, it selects a part of the name by itself: who types just then
        types that part over, and once more. Without Ctrl+L a path that lost its first letter would be searched for."""
        dialog = self.frames()[-1]
        for patience in (2, 4, PATIENCE):
            self.key("ctrl+l")
            self.key("ctrl+a")
            self.type(path)
            try:
                until(lambda: any(text_of(entry) == path for entry in self.look("text", None, dialog)), "the path is typed", patience)
                return
            except AssertionError:
                if patience == PATIENCE:
                    raise

    # --- fields of the panes

    def field(self, label):
        """The entry or spin button of that name."""
        return self.find(("text", "spin button", "entry"), label)

    def until_field(self, label, wanted):
        until(lambda: text_of(self.field(label)) == wanted, f"{label} reads {wanted}")

    def fill_in(self, label, text):
        """Types text into the field of that name, as a person would."""
        self.bring_into_view(self.field(label))
        xdo("mousemove", *map(round, self._middle(self.field(label))), "click", "--repeat", "3", "--delay", "40", 1)
        self.key("ctrl+a")
        self.type(text)
        self.key("Return")

    def _middle(self, widget):
        x, y, width, height = self.box(widget)
        return x + width / 2, y + height / 2

    def picture(self, path):
        screenshot(path)


def text_of(widget):
    """The contents of an entry or label."""
    return widget.get_text()


def is_pressed(widget):
    return widget.get_state_set().contains(Atspi.StateType.PRESSED)


def read_scene(path):
    with open(path, encoding="utf-8") as scene:
        return json.load(scene)


checks = []


def check(function):
    checks.append(function)
    return function


def run_checks():
    """Runs what was declared with @check and ends the script. Names given as arguments choose some of them."""
    if not shutil.which(PROGRAM):
        print(f"Bail out! There is no program at {PROGRAM}: name it in HOOPWRIGHT.")
        sys.exit(1)
    desk_manager = desk.start_window_manager()
    chosen = [one for one in checks if len(sys.argv) < 2 or one.__name__ in sys.argv[1:]]
    failed = 0
    print(f"1..{len(chosen)}", flush=True)
    for number, one in enumerate(chosen, 1):
        name = one.__name__.replace("_", " ")
        began = time.monotonic()
        open_windows = []

        def opened(*arguments, **options):
            window = Window(*arguments, **options)
            open_windows.append(window)
            return window

        try:
            one(opened)
            for window in open_windows:
                said = [line for line in re.findall(r"^.*(?:CRITICAL|WARNING|Error).*$", window.words(), re.MULTILINE)
                        if not (window.complaint and re.search(window.complaint, line))]
                assert not said, "the program complained: " + said[0]
            print(f"ok {number} - {name} # {time.monotonic() - began:.1f} s", flush=True)
        except Exception as trouble:  # noqa: BLE001 - whatever goes wrong is this check's failure
            failed += 1
            print(f"not ok {number} - {name}", flush=True)
            os.makedirs(FAILURES, exist_ok=True)
            kept = os.path.join(FAILURES, f"{os.path.basename(sys.argv[0])[:-3]}-{one.__name__}.png")
            screenshot(kept)
            print(f"# picture: {kept}")
            for line in "".join(traceback.format_exception(trouble)).splitlines():
                print("# " + line, flush=True)
            for window in open_windows:
                for line in window.words().splitlines()[-20:]:
                    print("# program: " + line, flush=True)
        finally:
            for window in open_windows:
                window.close()
    desk_manager.terminate()
    desk_manager.wait()
    sys.exit(1 if failed else 0)
