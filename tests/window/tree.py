"""The accessibility tree of a running program, read over the bus as screen readers read it, but many questions at a time.

The library for it (libatspi) asks one thing of one widget and waits for the answer: half a second for the 250 widgets of the window on an idle machine, and
nothing is done meanwhile. Here a program is asked for all it holds in one message (what readers fill their caches with), and only where that does not tell all
the children of a widget is it asked for them, with the questions in flight together: 15 ms. Nothing is remembered from one look to the next.
"""
import collections
import functools
import json
import os

import gi

gi.require_version("Atspi", "2.0")
gi.require_version("Json", "1.0")
from gi.repository import Atspi, Gio, GLib, Json  # noqa: E402

ACCESSIBLE = "org.a11y.atspi.Accessible"
COMPONENT = "org.a11y.atspi.Component"
TEXT = "org.a11y.atspi.Text"
ROOT = "/org/a11y/atspi/accessible/root"
PATIENCE = int(10000 * float(os.environ.get("HOOPWRIGHT_PATIENCE", 1)))  # ms; watched.sh

def connected():
    """A connection to the bus of accessibility of the desk, which is not its session bus."""
    session = Gio.bus_get_sync(Gio.BusType.SESSION)
    address = session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None, 0, PATIENCE, None).unpack()[0]
    return Gio.DBusConnection.new_for_address_sync(
        address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION, None, None)


connection = functools.lru_cache(None)(connected)  # one for all the looks of a test


def ask(name, path, interface, method, arguments=None):
    """One question and its answer. Raises GLib.Error when what was asked is no longer there."""
    return connection().call_sync(name, path, interface, method, arguments, None, 0, PATIENCE, None)


def ask_all(questions, bus=None, context=None):
    """The answers to many questions (name, path, interface, method, arguments), all under way together; None for what is no longer there. A thread
    has a bus and a main context of its own."""
    bus = bus or connection()
    context = context or GLib.MainContext.default()
    answers = [None] * len(questions)
    waiting = len(questions)

    def answered(source, result, number):
        nonlocal waiting
        waiting -= 1
        try:
            answers[number] = source.call_finish(result)
        except GLib.Error:
            pass

    for number, (name, path, interface, method, arguments) in enumerate(questions):
        bus.call(name, path, interface, method, arguments, None, 0, PATIENCE, None, answered, number)
    while waiting:
        context.iteration(True)
    return answers


def as_python(answer):
    """What GLib.Variant.unpack() gives, in a tenth of its time."""
    return json.loads(Json.gvariant_serialize_data(answer)[0])


@functools.lru_cache(None)
def role_name(role):
    return Atspi.role_get_name(Atspi.Role(role))


class States:
    """The states a widget is in."""

    def __init__(self, words):
        self.bits = words[0] | words[1] << 32

    def contains(self, state):
        return bool(self.bits >> int(state) & 1)


class Seen:
    """What was told of a widget when all were looked at."""

    def __init__(self, item):
        (_, self.path), _, (_, self.parent), self.number, self.count, self.interfaces, self.name, self.role, self.description, self.states = item


class Widget:
    """One widget of a program. What it is asked it asks the program for, now; 'seen' is what was found when it was looked for, 'around' the same of all
    the others. Where it hangs in the tree never changes and is not asked for again."""

    def __init__(self, name, path, seen=None, depth=0, around=None):
        self.bus_name = name
        self.path = path
        self.seen = seen
        self.depth = depth  # below where the looking began
        self.around = around or {}

    def __eq__(self, other):
        return isinstance(other, Widget) and (self.bus_name, self.path) == (other.bus_name, other.path)

    def __hash__(self):
        return hash((self.bus_name, self.path))

    def ask(self, interface, method, signature=None, *arguments):
        return ask(self.bus_name, self.path, interface, method, GLib.Variant(signature, arguments) if signature else None).unpack()

    def get(self, name, interface=ACCESSIBLE):
        return self.ask("org.freedesktop.DBus.Properties", "Get", "(ss)", interface, name)[0]

    def get_name(self):
        return self.get("Name")

    def get_description(self):
        return self.get("Description")

    def get_parent(self):
        name, path = (self.bus_name, self.seen.parent) if self.seen and self.seen.parent in self.around else self.get("Parent")
        return Widget(name, path, self.around.get(path), around=self.around) if name else None

    def get_window(self):
        """The window it is in."""
        widget = self
        while (above := widget.get_parent()) is not None and above.path != ROOT:
            widget = above
        return widget

    def get_role_name(self):
        if self.path == ROOT:
            return "application"
        role = self.seen.role if self.seen else self.ask(ACCESSIBLE, "GetRole")[0]  # it never changes
        return role_name(role)

    def get_state_set(self):
        return States(self.ask(ACCESSIBLE, "GetState")[0])

    def get_extents(self):
        """x, y, width and height in its window."""
        return self.ask(COMPONENT, "GetExtents", "(u)", int(Atspi.CoordType.WINDOW))[0]

    def has(self, interface):
        return interface in (self.seen.interfaces if self.seen else self.ask(ACCESSIBLE, "GetInterfaces")[0])

    def get_text(self):
        """The contents of an entry or label; the name of what has none."""
        return ask(*self.text_question()).unpack()[0] if self.has(TEXT) else self.get_name()

    def text_question(self):
        return self.bus_name, self.path, TEXT, "GetText", GLib.Variant("(ii)", (0, 1 << 30))

    def get_selection(self):
        """Where the selected text begins and ends, in letters."""
        return self.ask(TEXT, "GetSelection", "(i)", 0)

    def do_action(self, number=0):
        return self.ask("org.a11y.atspi.Action", "DoAction", "(i)", number)[0]

    def set_value(self, value):
        self.ask("org.freedesktop.DBus.Properties", "Set", "(ssv)", "org.a11y.atspi.Value", "CurrentValue", GLib.Variant("d", value))


class Program:
    """A program on the bus of accessibility, by its name there."""

    def __init__(self, name):
        self.name = name

    @staticmethod
    def of_process(pid):
        """The program of a process, or None while it has not joined the tree."""
        (programs,) = ask("org.a11y.atspi.Registry", ROOT, ACCESSIBLE, "GetChildren").unpack()
        names = [name for name, _ in programs]
        whose = ask_all([("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "GetConnectionUnixProcessID",
                          GLib.Variant("(s)", (name,))) for name in names])
        return next((Program(name) for name, process in zip(names, whose) if process and process.unpack()[0] == pid), None)

    def windows(self):
        return [Widget(self.name, path) for _, path in ask(self.name, ROOT, ACCESSIBLE, "GetChildren").unpack()[0]]

    def walk(self, start=None):
        """Every widget below start (all windows when None), from top to bottom, as all were at one moment."""
        tops = [start.path] if start is not None else [window.path for window in self.windows()]
        if start is not None:
            start.ask(ACCESSIBLE, "GetRole")  # raises when it is gone
        answers, once_more = {}, set()
        # GTK has in its list only the widgets that somebody has asked for before: those asked for now are in it the next time.
        while True:
            seen = self._all()
            children = self._known_children(seen)
            asked = [path for path in seen if path not in children and path not in answers and self._below(tops, path, seen)]
            for path, answer in zip(asked, ask_all([(self.name, path, ACCESSIBLE, "GetChildren", None) for path in asked])):
                answers[path] = [child for _, child in as_python(answer)[0]] if answer else []
            met = {child for path in asked for child in answers[path]}
            met |= {seen[child].parent for child in met if child in seen} | set(tops)  # see _below_it
            new = met - seen.keys() - once_more - {ROOT}
            if not new:
                break
            once_more |= new
        for top in tops:
            yield from self._below_it(top, seen, {**answers, **children})

    @staticmethod
    def _known_children(seen):
        """The children, in order, of each widget that has all of its children in the list, and no others: one that is hidden has the number of the next."""
        numbered = collections.defaultdict(list)
        for path, widget in seen.items():
            numbered[widget.parent].append((widget.number, path))
        known = {}
        for path, widget in seen.items():
            there = sorted(numbered.get(path, []))
            if [number for number, _ in there] == list(range(widget.count)):
                known[path] = [child for _, child in there]
        return known

    def _all(self):
        items = as_python(ask(self.name, "/org/a11y/atspi/cache", "org.a11y.atspi.Cache", "GetItems"))[0]
        return {item[0][1]: Seen(item) for item in items}

    @staticmethod
    def _below(tops, path, seen):
        while path not in tops:
            if path not in seen:
                return False
            path = seen[path].parent
        return True

    def _below_it(self, path, seen, children, depth=0):
        if path not in seen:
            return
        yield Widget(self.name, path, seen[path], depth, seen)
        for child in children.get(path, []):
            # A page of a stack stands between the stack and what is on it, but the stack leaves it out of the list of its children.
            page = seen.get(seen[child].parent) if child in seen else None
            between = page is not None and page.path != path and page.parent == path
            yield from self._below_it(page.path if between else child, seen, children, depth + 1)
