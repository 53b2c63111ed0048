"""What the window takes at most: motifs in the folder that is shown, and what is typed into its fields."""
import os

import scenes
from window import check, run_checks

MOST = 5000
NEEDLES = "x_mm,y_mm,action,thread\n0,0,stitch,moss\n9,0,stitch,moss\n9,9,stitch,moss\n0,0,end,moss\n"


@check
def a_folder_of_more_motifs_than_are_shown_says_so(open_window):
    shelf, path = scenes.folder(), scenes.write(scenes.folder(), scenes.harbour())
    for number in range(MOST):
        with open(os.path.join(shelf, f"leaf-{number}.csv"), "w", encoding="utf-8") as out:
            out.write(NEEDLES)
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.fold("Hoopings")
    window.unfold("My motifs")
    window.choose_file(lambda: window.click(window.find("push button", "Folder of motifs")), shelf)
    window.until_reads("^leaf-0.csv$")
    assert not window.reads("^The folder holds more")
    with open(os.path.join(shelf, "one-more.csv"), "w", encoding="utf-8") as out:
        out.write(NEEDLES)
    window.choose_file(lambda: window.click(window.find("push button", "Folder of motifs")), shelf)
    window.until_reads("^The folder holds more than 5000 motifs, and no more are shown. Divide it into several folders.$")
    window.click(window.find(None, "Search by name"))
    window.type("nobody")
    window.until_reads("^No motif bears that name.$")
    window.key("ctrl+a", "BackSpace")
    window.until_reads("^The folder holds more than 5000 motifs")


def typed(window, field, text, shown):
    window.fill_in(field, text)
    window.until_field(field, shown)


@check
def what_is_typed_beyond_an_end_is_not_taken(open_window):
    window = open_window(scenes.write(scenes.folder(), scenes.harbour()))
    window.until_plan("^3 hoopings, proven fewest")
    window.menu("Cloth and edge line…")
    typed(window, "Height of the cloth", "10000", "10000.0 mm")
    typed(window, "Height of the cloth", "10001", "10000.0 mm")
    typed(window, "Height of the cloth", "20", "20.0 mm")
    typed(window, "Height of the cloth", "19", "20.0 mm")
    window.key("Escape")
    window.gone("dialog", "Cloth and edge line")
    window.menu("Hoops…")
    typed(window, "Field width", "2000", "2000.0 mm")
    typed(window, "Field width", "2001", "2000.0 mm")
    typed(window, "Field width", "10", "10.0 mm")
    typed(window, "Field width", "9", "10.0 mm")


@check
def what_a_file_holds_beyond_that_is_shown_as_it_is(open_window):
    scene = scenes.harbour()
    scene["fabric"]["height"] = 15000
    scene["hoops"][0].update(field=[3000, 200], frame=[3100, 260])
    window = open_window(scenes.write(scenes.folder(), scene))
    window.menu("Cloth and edge line…")
    window.until_field("Height of the cloth", "15000.0 mm")
    window.key("Escape")
    window.gone("dialog", "Cloth and edge line")
    window.menu("Hoops…")
    window.until_field("Field width", "3000.0 mm")


run_checks()
