"""A screen reader may ask about anything at any moment: it counts windows and asks for one that has closed meanwhile, it asks for what is just going away, and it has
many questions under way at once. None of it may end the program, nor make it complain. The other tests read the window in the same way, one look after the other."""
import random
import threading

import scenes
import tree
from views import DIALOGS, Views
from window import GLib, check, run_checks, until

PROPERTIES = "org.freedesktop.DBus.Properties"


def asked_for_window(program, number):
    """The path of the program's window of that number, as a reader is told it."""
    (name, path), = tree.ask(program.name, tree.ROOT, tree.ACCESSIBLE, "GetChildAtIndex", GLib.Variant("(i)", (number,))).unpack()
    assert name == program.name and path.startswith("/org/hoopwright/"), (name, path)
    return path


class Reader(threading.Thread):
    """Asks in bursts, from a seed, until it is stopped, on a connection of its own."""

    def __init__(self, program, seed):
        super().__init__(daemon=True)
        self.program = program
        self.random = random.Random(seed)
        self.known = [tree.ROOT]
        self.answered = self.refused = 0
        self.stopped = threading.Event()

    def question(self):
        path = self.random.choice(self.known)
        number = GLib.Variant("(i)", (self.random.randrange(-1, 12),))

        def of(name):
            return path, PROPERTIES, "Get", GLib.Variant("(ss)", (tree.ACCESSIBLE, name))

        return self.random.choice([
            (tree.ROOT, tree.ACCESSIBLE, "GetChildAtIndex", number), (tree.ROOT, tree.ACCESSIBLE, "GetChildren", None), of("Parent"), of("ChildCount"),
            of("Name"), of("Description"), (path, tree.ACCESSIBLE, "GetChildAtIndex", number), (path, tree.ACCESSIBLE, "GetChildren", None),
            (path, tree.ACCESSIBLE, "GetChildren", None), (path, tree.ACCESSIBLE, "GetIndexInParent", None), (path, tree.ACCESSIBLE, "GetState", None),
            (path, tree.ACCESSIBLE, "GetRelationSet", None), (path, tree.ACCESSIBLE, "GetAttributes", None), (path, tree.ACCESSIBLE, "GetInterfaces", None),
            (path, tree.COMPONENT, "GetExtents", GLib.Variant("(u)", (1,))), (path, tree.TEXT, "GetText", GLib.Variant("(ii)", (0, 50))),
            ("/org/a11y/atspi/cache", "org.a11y.atspi.Cache", "GetItems", None)])

    def run(self):
        context = GLib.MainContext()
        context.push_thread_default()  # so that the answers come to this thread
        bus = tree.connected()
        while not self.stopped.wait(0.02):
            questions = [self.question() for _ in range(20)]
            for question, answer in zip(questions, tree.ask_all([(self.program.name, *question) for question in questions], bus, context)):
                if answer is None:
                    self.refused += 1
                    continue
                self.answered += 1
                if question[2] in ("GetChildren", "GetChildAtIndex"):
                    (found,) = answer.unpack()
                    self.known += [path for _, path in ([found] if isinstance(found, tuple) else found)]
                    self.known = self.known[-800:]  # those of windows that have gone among them

    def stop(self):
        self.stopped.set()
        self.join()
        print(f"# {self.answered} questions answered, {self.refused} refused", flush=True)
        assert self.answered > 200, "the reader has asked"


@check
def a_window_that_is_not_there(opened):
    window = opened(scenes.write(scenes.folder(), scenes.harbour()))
    program = window.application
    for number in (1, 99, -1):
        asked_for_window(program, number)
    for _ in range(3):
        window.key("ctrl+o")
        until(lambda: len(window.frames()) == 2, "the file dialog opens")
        assert asked_for_window(program, 1) != asked_for_window(program, 0), "the dialog is the second window"
        window.key("Escape")
        for _ in range(100):  # while it goes
            asked_for_window(program, 1)
            asked_for_window(program, 2)
        until(lambda: len(window.frames()) == 1, "the file dialog closes")
    window.key("ctrl+question")
    until(lambda: len(window.frames()) == 2, "the keys are shown")
    window.key("Escape")  # GTK hides them and keeps them
    until(lambda: len(window.frames()) == 1, "the keys are put away")
    for number in (0, 1, 2):
        asked_for_window(program, number)
    window.alive()


@check
def questions_while_dialogs_come_and_go(opened):
    views = Views(opened)
    reader = Reader(views.window.application, 1)
    reader.start()
    for _, frame in views.dialogs(DIALOGS):
        views.window.look(None, None, frame)
    reader.stop()
    views.window.alive()


@check
def questions_while_rows_and_panes_come_and_go(opened):
    views = Views(opened)
    window = views.window
    reader = Reader(window.application, 2)
    reader.start()
    views.unfold_all()
    for _ in range(3):
        views.select_motif()
        window.until_field("From the left", "460.0 mm")
        window.key("Delete")
        window.until_plan("^2 hoopings")
        window.key("ctrl+z")
        window.until_plan("^3 hoopings")
    for _ in views.machine():
        pass
    reader.stop()
    window.alive()


run_checks()
