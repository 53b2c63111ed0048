"""Motifs from the files people have: brought in, asked about, outlined by hand, taken from a folder, and their threads from those at hand."""
import os
import re
import subprocess

import artworks
import scenes
from dropping import dragged_from_outside
from window import Atspi, check, run_checks, text_of, until, xdo


def size(motif):
    across = [x for ring in motif["outline"] for x, _ in ring]
    down = [y for ring in motif["outline"] for _, y in ring]
    return max(across) - min(across), max(down) - min(down)


def is_about(motif, width, height, off=0.3):
    found = size(motif)
    assert abs(found[0] - width) <= off and abs(found[1] - height) <= off, (motif["name"], found)


def harbour(open_window, *artwork):
    folder = scenes.folder()
    path = scenes.write(folder, scenes.harbour())
    return open_window(path, *(make(os.path.join(folder, name)) for make, name in artwork)), path


def page_texts(path):
    words = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True, text=True).stdout
    return words.split("\f")[:-1]


@check
def motifs_of_every_kind_come_in_at_their_size_are_planned_and_printed(open_window):
    window, path = harbour(open_window, (artworks.needles, "leaf.csv"), (artworks.svg, "sea-holly.svg"), (artworks.png, "plum.png"),
                           (artworks.jpeg, "damson.jpg"), (artworks.pdf, "slipway.pdf"))
    window.find("push button", re.compile("^Undo add 5 motifs"))
    window.until_plan(r"^\d hoopings, proven fewest", 60)
    motifs = window.saved(path)["motifs"]
    assert [motif["name"] for motif in motifs[4:]] == ["Leaf", "Sea holly", "Plum", "Damson", "Slipway"]
    assert [motif["artwork"]["path"] for motif in motifs[4:]] == ["leaf.csv", "sea-holly.svg", "plum.png", "damson.jpg", "slipway.pdf"], motifs
    is_about(motifs[4], 30, 30, 2)  # and the thread's own width
    for motif in motifs[5:8]:
        is_about(motif, 44, 30)
    is_about(motifs[8], 30, 40)
    assert all(motif["threads"] for motif in motifs)

    paper = os.path.join(os.path.dirname(path), "templates.pdf")
    window.key("ctrl+p")
    window.find("check box", "Templates")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper) and page_texts(paper), "the PDF is written")
    pages = page_texts(paper)
    assert len(pages) == 9
    for page, name in zip(pages[4:], ["Leaf", "Sea holly", "Plum", "Damson", "Slipway"]):
        assert name in page, page


@check
def a_broken_file_is_named_and_the_others_come_in(open_window):
    def broken(path):
        with open(path, "wb") as out:
            out.write(b"\x89PNG\r\n\x1a\nhalf")
        return path

    window, path = harbour(open_window, (broken, "torn.png"), (artworks.svg, "sea-holly.svg"))
    said = window.until_reads(r"torn\.png")
    assert "The other motif is on the cloth" in said, said
    assert len(window.saved(path)["motifs"]) == 5


@check
def a_picture_without_a_resolution_is_measured_by_its_width(open_window):
    window, path = harbour(open_window, (lambda p: artworks.png(p, resolution=False), "plum.png"))
    window.until_reads(r"plum\.png does not say how large it is")
    window.until_reads("132.3 mm wide")
    window.fill_in("Width of the whole picture", "100 mm")
    window.until_reads("100.0 mm wide and 80.0 mm high")
    window.click(window.find("push button", "Add the motif"))
    window.find("push button", re.compile("^Undo add Plum"))
    added = window.saved(path)["motifs"][4]
    is_about(added, 88, 60, 0.5)
    assert added["artwork"]["pixels_per_mm"] == 5, added["artwork"]


@check
def a_picture_is_measured_by_a_line_over_a_known_length(open_window):
    window, path = harbour(open_window, (lambda p: artworks.png(p, resolution=False), "plum.png"))
    window.until_reads("132.3 mm wide")
    # The plum's own width is the length known: 22 to either side of the middle, of 50.
    picture = window.find("image", "The picture")
    x, y, width, height = window.box(picture)
    fits = min((width - 48) / 50, (height - 48) / 40)
    middle = (x + width / 2, y + height / 2)
    window.drag((middle[0] - 22 * fits, middle[1]), (middle[0] + 22 * fits, middle[1]))
    until(lambda: window.field("Length of the line").get_state_set().contains(Atspi.StateType.SENSITIVE), "the length can be typed")
    window.fill_in("Length of the line", "44 mm")
    window.click(window.find("push button", "Add the motif"))
    window.find("push button", re.compile("^Undo add Plum"))
    is_about(window.saved(path)["motifs"][4], 44, 30, 1)  # a pixel of the screen at each end of the line


@check
def a_page_of_a_document_is_chosen(open_window):
    window, path = harbour(open_window, (lambda p: artworks.pdf(p, (40, 55)), "slipway.pdf"))
    window.until_reads("slipway.pdf has several pages")
    window.until_reads("30.0 mm wide and 40.0 mm high")
    window.fill_in("Page", "2")
    window.until_reads("30.0 mm wide and 55.0 mm high")
    window.click(window.find("push button", "Add the motif"))
    window.find("push button", re.compile("^Undo add Slipway"))
    added = window.saved(path)["motifs"][4]
    is_about(added, 30, 55)
    assert added["artwork"]["page"] == 2, added["artwork"]


@check
def an_outline_is_drawn_by_hand_and_undone(open_window):
    window, path = harbour(open_window, (artworks.pdf, "slipway.pdf"))
    window.find("push button", re.compile("^Undo add Slipway"))
    before = window.saved(path)["motifs"][4]["outline"]
    window.click(window.find("push button", "Edit the outline…"))
    window.find("image", "The outline, with its points")
    points = len(before[0])
    window.until_reads(rf"^{points} points, 30\.0 mm wide")
    window.key("Tab", *["shift+Left"] * 10)
    window.until_reads(rf"^{points} points, (40|30)\.")
    window.key("ctrl+z")
    window.key("Delete")
    window.until_reads(rf"^{points - 1} points")
    window.key("Return")
    window.find("push button", re.compile("^Undo edit the outline of Slipway"))
    assert len(window.saved(path)["motifs"][4]["outline"][0]) == points - 1
    window.key("ctrl+z")
    window.find("push button", re.compile("^Undo add Slipway"))
    assert window.saved(path)["motifs"][4]["outline"] == before


@check
def a_motif_is_found_in_the_folder_and_put_on_the_cloth(open_window):
    window, path = harbour(open_window)
    shelf = os.path.join(os.path.dirname(path), "shelf")
    os.mkdir(shelf)
    artworks.svg(os.path.join(shelf, "sea-holly.svg"))
    artworks.png(os.path.join(shelf, "plum.png"))
    window.fold("Hoopings")
    window.unfold("My motifs")
    window.choose_file(lambda: window.click(window.find("push button", "Folder of motifs")), shelf)
    window.until_reads("^sea-holly.svg$")
    window.until_reads("^plum.png$")
    window.click(window.find(None, "Search by name"))
    window.type("holly")
    until(lambda: not window.reads("^plum.png$"), "only what bears the name is left")
    cell = next(widget for widget in window.walk() if widget.get_role_name() == "label" and widget.get_name() == "sea-holly.svg")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    x, y, width, height = window.box(cell)
    window.drag((x + width / 2, y - 30), window.pixel(300, 300), steps=20)
    window.find("push button", re.compile("^Undo add Sea holly"))
    added = window.saved(path)["motifs"][4]
    assert added["artwork"]["path"] == "shelf/sea-holly.svg", added["artwork"]
    assert abs(added["position"][0] - 300) < 2 and abs(added["position"][1] - 300) < 2, added["position"]
    window.click(cell)
    window.key("Return")
    until(lambda: len(window.saved(path)["motifs"]) == 6, "Enter puts one more on the cloth")


@check
def a_picture_dropped_from_outside_is_a_motif_or_a_photo(open_window):
    window, path = harbour(open_window)
    folder = os.path.dirname(path)
    plum, holly = artworks.png(os.path.join(folder, "plum.png")), artworks.svg(os.path.join(folder, "sea-holly.svg"))
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    with dragged_from_outside(window, [plum], window.pixel(300, 300)):
        window.until_reads(r"^What does plum\.png show\?$")
    window.click(window.find("push button", "A motif"))
    window.find("push button", re.compile("^Undo add Plum"))
    added = window.saved(path)["motifs"][4]
    assert abs(added["position"][0] - 300) < 2 and abs(added["position"][1] - 300) < 2, added["position"]
    with dragged_from_outside(window, [plum], window.pixel(300, 200)):
        window.click(window.find("push button", "A photo of the cloth"))
    window.find("push button", "Add the photo")
    window.key("Escape")
    # What is chosen in place of a scene is asked about too.
    window.choose_file(lambda: window.key("ctrl+o"), plum)
    window.until_reads(r"^What does plum\.png show\?$")
    window.key("Escape")
    # Several together are motifs, and beside the table they come to the middle of the cloth.
    x, y, width, height = window.box(window.find("push button", "Stitch order"))
    with dragged_from_outside(window, [plum, holly], (x + width / 2, y + height / 2)):
        window.find("push button", re.compile("^Undo add 2 motifs"))
    middle = [sum(motif["position"][axis] for motif in window.saved(path)["motifs"][5:]) / 2 for axis in (0, 1)]
    assert abs(middle[0] - scenes.WIDTH / 2) < 1 and abs(middle[1] - scenes.HEIGHT / 2) < 1, middle


@check
def a_thread_at_hand_takes_the_place_of_one_of_the_scene(open_window):
    window, path = harbour(open_window)
    threads = os.path.join(os.path.dirname(path), "threads.csv")
    with open(threads, "w", encoding="utf-8") as out:
        out.write("name,number,colour,metres\nStorm,7,#34516c,2\nBrick,12,#a2421e,400\n")
    window.menu("Threads at hand…")
    window.until_reads("nothing at hand yet")
    window.choose_file(lambda: window.click(window.find("push button", "Load a list…")), threads)
    window.until_reads("^2 threads at hand$")
    window.until_reads("hardly to be told apart|the same to the eye")
    window.until_reads("^To be bought$")
    window.click(window.find("push button", "Use Storm · 7 for slate"))
    window.until_reads(r"^Storm$")
    window.key("Escape")
    window.until_alone()
    saved = window.saved(path)
    assert saved["motifs"][0]["threads"][0]["name"] == "Storm" and len(saved["palette"]) == 2, saved["motifs"][0]
    window.key("ctrl+z")
    until(lambda: window.saved(path)["motifs"][0]["threads"][0]["name"] == "slate", "the scene's own thread is back")


run_checks()
