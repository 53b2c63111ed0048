"""The workbench without eyes and without a pointer: in every view each control has a name and a role; a motif and a hooping can be reached and worked on
through the lists and the keyboard alone; the focus goes everywhere, never gets stuck and is seen; what the plan has come to is told."""
import re
import time

import scenes
import sight
from views import Views
from window import Atspi, check, is_pressed, run_checks, text_of, until

CONTROLS = {"push button", "toggle button", "check box", "radio button", "text", "entry", "spin button", "combo box", "list", "list item", "list box",
            "slider", "image", "menu item", "check menu item", "radio menu item", "table cell", "switch", "icon", "page tab", "color chooser", "link",
            "dialog", "alert", "frame", "status bar", "notification"}
# Containers take the focus only to hand it on; a label takes it to be copied from.
HANDS_ON = {"scroll pane", "panel", "filler", "label", "document text", "static", "viewport", "unknown"}
MOST_STOPS = 400


def name_of(widget):
    name = (widget.get_name() or "").strip()
    return "" if re.match(r"(Gtk|Hw)[A-Z]", name) else name


def is_nameless(widget):
    """A part of a control, such as the button of a colour field, goes by the name of the whole."""
    whole = widget
    for _ in range(3):
        if whole is None or whole.get_role_name() == "application":
            return True
        if name_of(whole):
            return False
        whole = whole.get_parent()
    return True


def hold_against(view, window, start, faults):
    """Every control below start that is there to be used has a name, and a role that says what it is."""
    for widget in window.walk(start):
        role = widget.get_role_name()
        usable = widget.get_state_set().contains(Atspi.StateType.FOCUSABLE)
        if not usable:
            continue
        if role not in CONTROLS | HANDS_ON:
            faults.append(f"{view}: a control is a '{role}' ('{widget.get_name()}')")
        if role in CONTROLS and is_nameless(widget):
            faults.append(f"{view}: a {role} without a name in {widget.get_parent().get_role_name()} '{widget.get_parent().get_name()}'")


def hold_pictures_against(view, seen, faults):
    for one in seen:
        if one["kind"] == "picture button" and not one["tip"]:
            faults.append(f"{view}: a button shows a picture alone and has no tooltip: {one['place']}")


@check
def on_the_start_page_every_control_has_a_name_and_a_role(open_window):
    views = Views(open_window, scene=None)
    faults = []
    hold_against("start", views.window, views.window.main, faults)
    hold_pictures_against("start", views.witness(), faults)
    assert not faults, "\n".join(faults)


@check
def at_the_table_every_control_has_a_name_and_a_role(open_window):
    views = Views(open_window)
    faults = []
    views.unfold_all()
    views.select_motif()
    views.window.until_field("From the left", "460.0 mm")
    hold_against("table", views.window, views.window.main, faults)
    hold_pictures_against("table", views.witness(), faults)
    assert not faults, "\n".join(faults)


@check
def at_the_machine_every_control_has_a_name_and_a_role(open_window):
    views = Views(open_window)
    faults = []
    for step in views.machine():
        hold_against(f"machine, step {step}", views.window, views.window.main, faults)
        hold_pictures_against(f"machine, step {step}", views.witness(), faults)
    assert not faults, "\n".join(faults)


@check
def in_every_dialog_every_control_has_a_name_and_a_role(open_window):
    views = Views(open_window)
    faults = []
    for name, frame in views.dialogs():
        hold_against(name, views.window, frame, faults)
        hold_pictures_against(name, views.witness(), faults)
        if not name_of(frame):
            faults.append(f"{name}: the dialog has no name")
    assert not faults, "\n".join(faults)


def stops_of(views):
    return {one["text"]: one for one in views.witness() if one["kind"] == "stop"}


def focused(stops):
    return next((one for one in stops.values() if one["focused"]), None)


def walk_with_tab(views, key="Tab"):
    """Presses Tab until the focus is back at a place it had. Returns the places in order, all stops there were, and where the focus got stuck."""
    order, known, quiet = [], {}, 0
    for _ in range(MOST_STOPS):
        stops = stops_of(views)
        known.update(stops)
        at = focused(stops)
        if at is None:
            quiet += 1  # a row of a list, a heading of a pane: not a stop of its own
            assert quiet < 40, f"the focus is lost after {order[-3:]}"
        else:
            quiet = 0
            if order and at["text"] in order and at["text"] != order[-1]:
                return order, known
            if not order or order[-1] != at["text"]:
                order.append(at["text"])
        views.window.key(key)
    raise AssertionError(f"the focus does not come round; the last was {known[order[-1]]['place']}")


@check
def tab_goes_through_the_whole_window_and_comes_round(open_window):
    views = Views(open_window)
    views.window.key("Tab")
    order, known = walk_with_tab(views)
    now = stops_of(views)
    missed = [one["place"] for id, one in now.items() if id not in order]
    assert not missed, "Tab does not come to: " + "\n".join(missed)
    assert len(order) > 20, order


@check
def tab_goes_through_a_dialog_and_comes_round(open_window):
    views = Views(open_window)
    for name, _ in views.dialogs(["edit-cloth", "print"]):
        views.window.key("Tab")
        order, _ = walk_with_tab(views)
        assert len(order) > 3, (name, order)


def differs(before, after, box, origin):
    x, y, width, height = (round(side) for side in box)
    left, top = max(x + origin[0] - 6, 0), max(y + origin[1] - 6, 0)
    area = slice(top, y + origin[1] + height + 6), slice(left, x + origin[0] + width + 6)
    return (abs(before[area].astype(int) - after[area].astype(int)).max(axis=2) > 40).sum()


def overlap(one, other):
    """Whether they lie on each other: the pane has scrolled, so that the next place stands where the last one stood."""
    if one is None:
        return False
    (x, y, w, h), (x2, y2, w2, h2) = one["box"], other["box"]
    return x < x2 + w2 and x2 < x + w and y < y2 + h2 and y2 < y + h


def hold_focus_in_sight(open_window, **more):
    """Each place the focus leaves looks different afterwards, by more than a few pixels."""
    views = Views(open_window, **more)
    views.window.key("Escape", "Tab")
    unseen, looked_at = [], 0
    before = None
    for _ in range(60):
        at = focused(stops_of(views))
        screen = sight.screen()
        # The text cursor of an entry blinks; the ring around the entry is what counts.
        if before is not None and before[0] is not None and not overlap(at, before[0]):
            looked_at += 1
            if differs(before[1], screen, before[0]["box"], views.window.origin(views.window.main)) < 40:
                unseen.append(f"{before[0]['place']} {before[0]['box']}")
        before = at, screen
        views.window.key("Tab")
    assert looked_at > 15, looked_at
    assert not unseen, "the focus is not seen on: " + "\n".join(unseen)


@check
def the_focus_is_seen(open_window):
    hold_focus_in_sight(open_window)


@check
def the_focus_is_seen_in_the_dark(open_window):
    hold_focus_in_sight(open_window, GTK_THEME="Default:dark")


@check
def the_focus_is_seen_in_high_contrast(open_window):
    hold_focus_in_sight(open_window, GTK_THEME="Default-hc")


def go_to(window, field):
    """Tab, until the field has the focus."""
    for _ in range(30):
        if window.field(field).get_state_set().contains(Atspi.StateType.FOCUSED):
            return
        window.key("Tab")
        time.sleep(0.1)
    raise AssertionError(f"Tab does not come to {field}")


def order_row(window, name):
    rows = window.look("list item", re.compile(rf"^\d+, {name}[.,]"), window.find("list", "Stitch order, back to front"))
    return rows[0]


@check
def a_motif_is_chosen_and_worked_on_without_a_pointer(open_window):
    views = Views(open_window)
    window = views.window
    heading = window.find("push button", "Stitch order")
    window.do(heading)
    until(lambda: len(window.order_rows()) == 4, "the list is there")
    until(lambda: order_row(window, "Lighthouse"), "a row is named by place, motif and hooping")
    assert re.match(r"^2, Lighthouse\. Stitched in hooping \d$", order_row(window, "Lighthouse").get_name()), order_row(window, "Lighthouse").get_name()
    # On the cloth, Tab goes through the motifs in stitch order.
    window.key("Tab", "Tab")
    window.until_field("Name of the motif", "Lighthouse")
    until(lambda: order_row(window, "Lighthouse").get_state_set().contains(Atspi.StateType.SELECTED), "its row is selected")
    window.key("shift+Right")  # move
    window.until_field("From the left", "325.0 mm")
    window.key("F6")  # to the side pane; the motif stays selected
    for field, value, wanted in (("From the top", "120", "120.0 mm"), ("Width", "33", "33.0 mm"), ("Turn", "15", "15°")):
        go_to(window, field)
        window.key("ctrl+a")
        window.type(value)
        window.key("Return")
        window.until_field(field, wanted)
    window.key("F6", "F6", "F6")  # foot, header, cloth
    until(lambda: window.table().get_state_set().contains(Atspi.StateType.FOCUSED), "F6 comes round to the cloth")
    window.key("Prior")  # forward in the stitch order
    until(lambda: [name for name, _ in window.order_rows()] == ["Sea wall", "Rowing boat", "Lighthouse", "Buoy"], "it comes later")
    window.key("ctrl+l")  # locked in place
    until(lambda: re.search("locked in place", order_row(window, "Lighthouse").get_name()), "its row says it is locked")
    saved = window.saved(views.path)["motifs"][2]
    assert saved["name"] == "Lighthouse" and saved["locked"] and abs(saved["position"][0] - 325) < 1e-6 and abs(saved["angle"] - 15) < 1e-6, saved


@check
def a_hooping_is_chosen_and_held_without_a_pointer(open_window):
    views = Views(open_window)
    window = views.window
    cards = window.look("list item", None, window.find("list", "Hoopings"))
    assert [bool(window.look("push button", re.compile(rf"^Hooping {place}: "), card)) for place, card in enumerate(cards, 1)] == [True] * 3
    button = window.find("push button", re.compile("^Hooping 2: "))
    window.do(button)
    until(lambda: is_pressed(window.find("push button", re.compile("^Hooping 2: "))), "it is chosen")
    decide = window.look("push button", "Decide about hooping 2")[-1]
    window.do(decide)
    held = window.find(("menu item", "radio menu item", "check menu item"), re.compile("^As it is|^Keep|^Hold|whole"))
    window.do(held)
    until(lambda: window.look("push button", "Let this hooping go"), "it is held")
    assert window.saved(views.path)["pins"], "the scene keeps it"


@check
def what_the_plan_has_come_to_is_told_as_a_status(open_window):
    views = Views(open_window)
    window = views.window
    status = window.find(("status bar", "statusbar"), re.compile("^3 hoopings, proven fewest"))
    window.key("Tab", "Delete")
    until(lambda: not re.search("^3 hoopings, proven fewest · 3 thread", status.get_name()), "the new plan is told")
    assert re.search(r"hoopings?", status.get_name()), status.get_name()


@check
def a_message_comes_as_an_alert(open_window):
    path = scenes.write(scenes.folder(), scenes.broken()["no outline"], "broken.hoopscene")
    window = open_window(path)
    message = window.find(("notification", "alert"), re.compile("outline"))
    assert name_of(message)


run_checks()
