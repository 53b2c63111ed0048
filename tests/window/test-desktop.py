"""The program as a citizen of the desktop: it comes back to where the person was, knows the scenes used last, takes a scene that is dropped on it, is started by its name,
and prints through the desktop's print dialog."""
import os
import re
import signal
import subprocess

import scenes
from dropping import dragged_from_outside
from window import PROGRAM, Atspi, Window, check, run_checks, text_of, until, xdo

APP = "org.hoopwright.Hoopwright"
PATH = "/org/hoopwright/Hoopwright"


def home():
    """What is remembered is kept there, by a settings backend that writes files."""
    folder = scenes.folder()
    return {"XDG_STATE_HOME": folder, "XDG_CONFIG_HOME": folder, "GSETTINGS_BACKEND": "keyfile"}


def harbour(open_window, environment, file="harbour.hoopscene", **changed):
    path = scenes.write(scenes.folder(), {**scenes.harbour(), **changed}, file)
    window = open_window(path, environment=environment)
    window.until_plan("^3 hoopings, proven fewest")
    return window, path


def cloth_in_the_middle(window):
    """The fabric place in the middle of the table, and the pixels to a millimetre."""
    x, y, width, height = window.box(window.table())
    middle = x + (width + 26) / 2, y + (height + 26) / 2  # the rulers lie at the left and above
    cloth = window.cloth
    left, top = cloth.pixel(0, 0)
    return (middle[0] - left) / cloth.scale, (middle[1] - top) / cloth.scale, cloth.scale


def until_scale(window, wanted):
    """The window tells a scene's name before its table is painted."""
    def seen():
        window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
        return abs(window.cloth.scale / wanted - 1) < 0.01

    until(seen, f"the cloth has {wanted:.3f} pixels to the millimetre")


def leave(window):
    window.key("ctrl+q")
    assert window.ended() == 0


@check
def the_scene_open_last_comes_back_at_its_place_and_in_its_view(open_window):
    there = home()
    window, path = harbour(open_window, there)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    whole = cloth_in_the_middle(window)
    # Two steps smaller and dragged aside with the middle button, so that the whole cloth can still be found in the picture.
    window.key("ctrl+minus", "ctrl+minus")
    x, y, width, height = window.box(window.table())
    xdo("mousemove", round(x + width / 2), round(y + height / 2), "mousedown", 2)
    for step in range(1, 11):
        xdo("mousemove", round(x + width / 2 + 9 * step), round(y + height / 2 + 5 * step))
    xdo("mouseup", 2)
    window.menu("Order numbers")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    left_at = cloth_in_the_middle(window)
    assert left_at[2] < whole[2] * 0.7 and abs(left_at[0] - whole[0]) > 50, (whole, left_at)
    leave(window)

    window = open_window(environment=there)
    window.until_plan("^3 hoopings, proven fewest")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    until_scale(window, left_at[2])
    now = cloth_in_the_middle(window)
    assert abs(now[2] / left_at[2] - 1) < 0.01 and all(abs(a - b) < 2 for a, b in zip(now, left_at)), (left_at, now)
    window.do_menu_button("Menu")
    item = window.find("menu item", "Order numbers")
    assert not item.get_state_set().contains(Atspi.StateType.CHECKED), "what was not shown is not shown"
    window.key("Escape", "Escape")

    # Another scene is seen in its own way: whole, on its first day; and the first one as it was left.
    other = scenes.write(os.path.dirname(path), {**scenes.harbour(), "name": "High Tide"}, "high.hoopscene")
    window.choose_file("ctrl+o", other)
    window.until_reads("^High Tide$")
    until_scale(window, whole[2])
    window.choose_file("ctrl+o", path)
    window.until_reads("^Harbour at Low Tide$")
    until_scale(window, left_at[2])


@check
def who_stopped_at_the_machine_goes_on_there(open_window):
    there = home()
    window, path = harbour(open_window, there)
    window.key("F8")
    window.until_reads("^Next: hooping 1 of 3$")
    leave(window)
    window = open_window(environment=there)
    window.until_reads("^Next: hooping 1 of 3$")
    window.key("F8")
    window.until_plan("^3 hoopings")
    leave(window)
    window = open_window(environment=there)
    window.until_plan("^3 hoopings")


@check
def who_left_at_the_start_page_begins_there(open_window):
    there = home()
    window, path = harbour(open_window, there)
    window.menu("Start page")
    window.until_reads("^The Walled Garden$")
    leave(window)
    window = open_window(environment=there)
    window.until_reads("^The Walled Garden$")
    assert not window.reads("^3 hoopings")
    # A scene that is gone is not missed.
    leave(window)
    window = open_window(path, environment=there)
    window.until_plan("^3 hoopings")
    leave(window)
    os.remove(path)
    window = open_window(environment=there)
    window.until_reads("^The Walled Garden$")
    assert not window.reads("harbour.hoopscene.* not ")


@check
def the_window_has_its_size_again(open_window):
    there = home()
    window, _ = harbour(open_window, there)
    window.resize(1010, 700)
    until(lambda: window.box(window.table())[2] < 1011, "the table follows")
    leave(window)
    window = open_window(environment=there, filled=False)
    until(lambda: window.size() == [1010, 700], "the window is as large as it was")


@check
def a_scene_used_before_is_opened_from_the_menu(open_window):
    there = home()
    window, first = harbour(open_window, there, "ebb.hoopscene", name="Ebb")
    leave(window)
    window, _ = harbour(open_window, there, "flood.hoopscene", name="Flood")
    window.do_menu_button("Menu")
    window.do(window.find("menu item", "Open again"))
    window.do(window.find("menu item", "ebb.hoopscene"))
    window.until_reads("^Ebb$")


@check
def a_scene_dropped_on_the_window_is_opened_after_unsaved_work_was_spoken_of(open_window):
    window, path = harbour(open_window, home())
    dropped = scenes.write(os.path.dirname(path), {**scenes.harbour(), "name": "Dropped"}, "dropped.hoopscene")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    with dragged_from_outside(window, [dropped], window.pixel(300, 300)):
        window.until_reads("^Dropped$")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    window.click_cloth((460, 340))
    window.key("Right")
    window.until_reads("^changed since it was saved$")
    with dragged_from_outside(window, [path], window.pixel(300, 300)):
        window.click(window.find("push button", "Leave without saving"))
        window.until_reads("^Harbour at Low Tide$")


class Started:
    """A program the bus started; enough of a process for Window."""

    def __init__(self, pid):
        self.pid = pid
        self.returncode = 0

    def poll(self):
        return None if os.path.exists(f"/proc/{self.pid}/stat") and " Z " not in open(f"/proc/{self.pid}/stat").read() else 0

    def kill(self):
        os.kill(self.pid, signal.SIGKILL)

    def wait(self, patience=10):
        until(lambda: self.poll() is not None, "the started program ends", patience)
        return 0


def bus(*words):
    return subprocess.run(["gdbus", "call", "--session", *words], check=True, capture_output=True, text=True).stdout


def bus_owner():
    said = subprocess.run(["gdbus", "call", "--session", "--dest", "org.freedesktop.DBus", "--object-path", "/org/freedesktop/DBus", "--method",
                           "org.freedesktop.DBus.GetConnectionUnixProcessID", APP], capture_output=True, text=True).stdout
    found = re.search(r"uint32 (\d+)", said)
    return found and int(found[1])


@check
def the_desktop_starts_it_by_its_name_and_asks_it_for_a_new_scene(open_window):
    services = os.path.join(os.environ["XDG_DATA_HOME"], "dbus-1", "services")
    os.makedirs(services, exist_ok=True)
    with open(os.path.join(services, APP + ".service"), "w", encoding="utf-8") as out:
        out.write(f"[D-BUS Service]\nName={APP}\nExec={PROGRAM} --gapplication-service\n")
    bus("--dest", "org.freedesktop.DBus", "--object-path", "/org/freedesktop/DBus", "--method", "org.freedesktop.DBus.ReloadConfig")
    path = scenes.write(scenes.folder(), scenes.harbour())
    uri = "file://" + path

    # A scene is opened by a program that did not run yet.
    bus("--dest", APP, "--object-path", PATH, "--method", "org.freedesktop.Application.Open", f"['{uri}']", "{}")
    window = Window(process=Started(until(bus_owner, "the program is started")))
    try:
        window.until_plan("^3 hoopings, proven fewest")
        # The action of the desktop's menu, by the bus and by the command line: the same program shows its start page.
        bus("--dest", APP, "--object-path", PATH, "--method", "org.freedesktop.Application.ActivateAction", "new-scene", "[]", "{}")
        window.until_reads("^The Walled Garden$")
        window.key("Escape")
        window.until_plan("^3 hoopings")
        done = subprocess.run([PROGRAM, "--new-scene"], timeout=60, capture_output=True, text=True)
        assert done.returncode == 0 and not done.stdout, done
        window.until_reads("^The Walled Garden$")
        window.key("ctrl+q")
        until(lambda: window.process.poll() is not None, "it ends with its last window")
    finally:
        window.close()


def print_dialog(window):
    window.key("ctrl+p")
    window.find("check box", "Templates")
    until(lambda: window.reads(r"^Page 1 of \d"), "the pages are laid out")
    before = len(window.frames())
    window.click(window.find("push button", "Print…"))
    until(lambda: len(window.frames()) > before, "the print dialog opens")
    return window.frames()[-1]


def pdf_pages(path):
    done = subprocess.run(["pdfinfo", path], capture_output=True, text=True)
    found = re.search(r"^Pages: +(\d+)$", done.stdout, re.MULTILINE)
    size = re.search(r"^Page size: +([\d.]+) x ([\d.]+) pts", done.stdout, re.MULTILINE)
    return found and (int(found[1]), float(size[1]) / 72 * 25.4, float(size[2]) / 72 * 25.4)


@check
def papers_go_through_the_print_dialog_and_the_printer_keeps_its_sheet(open_window):
    there = home()
    settings = os.path.join(there["XDG_CONFIG_HOME"], "glib-2.0", "settings", "keyfile")
    os.makedirs(os.path.dirname(settings))
    with open(settings, "w", encoding="utf-8") as out:
        out.write("[org/hoopwright/Hoopwright]\nprinter-stretch={'Kitchen': (1.01, 1.0)}\nprinter-setups={'Kitchen': ('A3', {'quality': 'high'})}\n")
    window, path = harbour(open_window, there)
    window.key("ctrl+p")
    sheet = window.find("combo box", "Paper size")
    window.click(sheet)
    window.key("Down", "Return")
    until(lambda: window.reads("^Letter$", sheet), "Letter is chosen")
    window.key("Escape")
    window.gone("check box", "Templates")

    dialog = print_dialog(window)
    window.click(window.find("label", "Print to File", dialog))
    window.find("check box", re.compile("^_?PDF$"), dialog)
    window.click(until(lambda: [button for button in window.look("push button", None, dialog)
                                if re.search("^_?Print( Print)?$", button.get_name()) and button.get_state_set().contains(Atspi.StateType.SENSITIVE)],
                       "it can be printed")[0])
    folder = os.path.dirname(path)
    def written():
        """A file that is still being written has fewer pages."""
        papers = [name for name in os.listdir(folder) if name.endswith(".pdf")]
        told = papers and pdf_pages(os.path.join(folder, papers[0]))
        return told and told[0] == 4 and (papers[0], *told)

    paper, _, width, height = until(written, "four pages are in a file beside the scene")
    assert "Harbour at Low Tide" in paper
    # Letter, 8.5 by 11 in (ANSI/ASME Y14.1, size A).
    assert abs(width - 215.9) < 0.2 and abs(height - 279.4) < 0.2, (width, height)
    until(lambda: re.search(r"printer-setups=.*'': \('Letter', ", open(settings, encoding="utf-8").read()), "how it was set is kept")
    assert "'Kitchen': ('A3', {'quality': 'high'})" in open(settings, encoding="utf-8").read(), "and so is what is known of the other printer"

    # The other printer prints on its own sheets.
    window.unfold("Is your printer true to size?")
    printer = window.find("combo box", "Printer")
    window.bring_into_view(printer)
    window.click(printer)
    window.key("Down", "Return")
    until(lambda: window.reads("^A3$", window.find("combo box", "Paper size")), "A3 is chosen with the printer")
    window.click(printer)
    window.key("Up", "Return")
    until(lambda: window.reads("^Letter$", window.find("combo box", "Paper size")), "and Letter with the file")


run_checks()
