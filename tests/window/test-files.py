"""Files and paper from the window: saving under a new name, opening again, papers as PDF, a motif brought in, the guide on F1."""
import csv
import os
import re
import subprocess
import xml.etree.ElementTree

import scenes
from window import check, read_scene, run_checks, text_of, until

BUOY = (460, 340)


def harbour(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    return window, path


def page_texts(path):
    """The words on each page of a PDF, as poppler reads them."""
    words = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True, text=True).stdout
    return words.split("\f")[:-1]


@check
def a_scene_saved_under_a_new_name_opens_as_it_was(open_window):
    window, path = harbour(open_window)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    window.click_cloth(BUOY)
    window.key("ctrl+d")
    window.find("push button", re.compile("^Undo duplicate"))
    copy = os.path.join(os.path.dirname(path), "low tide.hoopscene")
    window.choose_file("ctrl+shift+s", copy)
    until(lambda: os.path.exists(copy), "the file is written")
    window.until_reads("^saved$")
    written = read_scene(copy)
    assert len(written["motifs"]) == 5
    assert len(read_scene(path)["motifs"]) == 4, "the first file is left alone"

    window.key("ctrl+q")
    assert window.ended() == 0
    again = open_window(copy)
    again.until_reads("^saved$")
    assert again.saved(copy) == written


@check
def another_scene_is_opened_by_keyboard(open_window):
    window, path = harbour(open_window)
    other = scenes.harbour()
    other["name"] = "Harbour at High Tide"
    other["motifs"] = other["motifs"][:1]
    scenes.write(os.path.dirname(path), other, "high tide.hoopscene")
    window.choose_file("ctrl+o", os.path.join(os.path.dirname(path), "high tide.hoopscene"))
    window.until_reads("^Harbour at High Tide$")
    window.until_plan("^1 hooping, proven fewest")


def check_bar(path):
    """How long the bar of 100 mm at the foot of the first page of a PDF is, mm: its upper rule is the first unbroken line from above."""
    dots = 508  # to the inch: 20 to a millimetre
    picture = subprocess.run(["pdftoppm", "-r", str(dots), "-gray", "-f", "1", "-l", "1", "-x", "100", "-y", str(20 * 275), "-W", "2700", "-H", "300",
                              path], check=True, capture_output=True).stdout
    _, size, _, pixels = picture.split(b"\n", 3)
    width, height = map(int, size.split())
    for row in range(height):
        runs = re.findall(rb"[\x00-\x7f]+", pixels[row * width:(row + 1) * width])
        longest = max(map(len, runs), default=0)
        if longest > 1700:
            return longest / 20
    raise AssertionError("the page has no check bar")


@check
def the_templates_are_written_as_a_pdf_and_drawn_longer_for_a_printer_that_shrinks(open_window):
    window, path = harbour(open_window)
    paper = os.path.join(os.path.dirname(path), "templates.pdf")
    window.key("ctrl+p")
    window.find("check box", "Templates")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper) and page_texts(paper), "the PDF is written")
    pages = page_texts(paper)
    assert len(pages) == 4
    for page, name in zip(pages, ["Sea wall", "Lighthouse", "Rowing boat", "Buoy"]):
        assert name in page and "100 mm" in page, page
    assert abs(check_bar(paper) - 100) <= 0.1, check_bar(paper)

    window.unfold("Is your printer true to size?")
    window.find("label", "The 240.0 mm down measured")
    window.fill_in("Measured across", "76.4")
    window.fill_in("Measured down", "244,9 mm")
    window.until_reads("The line across is 180.0 mm long on this sheet, so 76.4 mm is more than a tenth off")
    window.fill_in("Measured across", "176.4")
    window.until_reads("^PDF files: everything is drawn 2.0 % longer across, 2.0 % shorter down.$")
    truer = os.path.join(os.path.dirname(path), "truer.pdf")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), truer)
    until(lambda: os.path.exists(truer) and page_texts(truer), "the PDF is written")
    assert abs(check_bar(truer) - 100 * 180 / 176.4) <= 0.1, check_bar(truer)
    window.do(window.find("push button", "Forget what was measured"))
    window.until_reads("^PDF files: everything is drawn as it is.$")
    test_sheet = os.path.join(os.path.dirname(path), "test.pdf")
    window.choose_file(lambda: window.do(window.find("push button", "Save it as PDF…")), test_sheet)
    until(lambda: os.path.exists(test_sheet) and page_texts(test_sheet), "the test sheet is written")
    assert "across, 180.0 mm" in page_texts(test_sheet)[0]


@check
def the_bench_sheet_is_written_as_a_pdf_in_inches(open_window):
    window, path = harbour(open_window)
    paper = os.path.join(os.path.dirname(path), "sheet.pdf")
    window.menu("Inches")
    window.key("ctrl+p")
    window.click(window.find("check box", "Bench sheet"))
    window.until_reads(r"^Page 1 of [4-9]$")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper) and page_texts(paper), "the PDF is written")
    pages = page_texts(paper)
    words = " ".join(pages)
    assert len(pages) >= 4, "an overview, and a page for each of three hoopings"
    assert re.search(r"\d in\b", words) and "Lighthouse" in words and "needle" in words


@check
def paper_speaks_another_language_than_the_screen(open_window):
    window, path = harbour(open_window)
    paper = os.path.join(os.path.dirname(path), "werkblatt.pdf")
    window.key("ctrl+p")
    window.click(window.find("check box", "Bench sheet"))
    window.unfold("Looks, lengths and language")
    choice = window.find("combo box", "Language of the paper")
    window.bring_into_view(choice)
    window.click(choice)
    window.key("Down", "Return")  # the first after that of the window: Deutsch
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper) and page_texts(paper), "the PDF is written")
    words = " ".join(page_texts(paper))
    assert "Was gebraucht wird" in words and "What is needed" not in words, words[:400]
    window.until_reads("^Looks, lengths and language$")


@check
def a_needle_list_becomes_a_motif(open_window):
    window, path = harbour(open_window)
    leaf = os.path.join(os.path.dirname(path), "leaf.csv")
    with open(leaf, "w", encoding="utf-8") as out:
        out.write("x_mm,y_mm,action,thread\n")
        for row in range(40):
            out.write(f"{-10 if row % 2 else 10},{row / 2 - 10},stitch,moss\n")
        out.write("0,0,end,moss\n")
    window.choose_file(lambda: window.menu("Add motifs…"), leaf)
    window.find("push button", re.compile("^Undo add"))
    added = window.saved(path)["motifs"][4]
    assert added["artwork"]["path"] == "leaf.csv", added
    across = [x for ring in added["outline"] for x, _ in ring]
    assert 20 <= max(across) - min(across) < 23, added["outline"]
    assert added["threads"][0]["name"] == "moss" and added["threads"][0]["stitches"] in (39, 40), added["threads"]


@check
def a_needle_list_with_a_wrong_line_is_answered_with_a_sentence(open_window):
    window, path = harbour(open_window)
    leaf = os.path.join(os.path.dirname(path), "leaf.csv")
    with open(leaf, "w", encoding="utf-8") as out:
        out.write("x_mm,y_mm,action,thread\n0,0,stitch,moss\n1,far,stitch,moss\n")
    window.choose_file(lambda: window.menu("Add motifs…"), leaf)
    said = window.until_reads(r"leaf\.csv")
    assert re.search(r"line 3", said) and "far" in said, said
    assert len(window.saved(path)["motifs"]) == 4


def harbour_with_stitches(open_window):
    """The buoy comes from a needle list; of the other motifs only the outlines are known."""
    scene, folder = scenes.harbour(), scenes.folder()
    scene["motifs"][3]["artwork"] = {"path": "buoy.csv", "kind": "needles"}
    with open(os.path.join(folder, "buoy.csv"), "w", encoding="utf-8") as out:
        out.write("x_mm,y_mm,action,thread\n" + "".join(f"{-17 if row % 2 else 17},{row - 17},stitch,rust\n" for row in range(35)))
    window = open_window(scenes.write(folder, scene))
    window.until_plan("^3 hoopings, proven fewest")
    return window, folder


def hooping_of(window, motif):
    """The number of the hooping that stitches the motif, as the dialog's checks tell it."""
    return re.match(r"Hooping (\d)", window.find("check box", re.compile(motif)).get_name())[1]


@check
def needle_lists_tables_and_a_picture_are_taken_along_into_a_folder(open_window):
    window, folder = harbour_with_stitches(open_window)
    window.menu("Take along…")
    save = window.find("push button", "Save")
    buoy, boat = hooping_of(window, "Buoy"), hooping_of(window, "Lighthouse")
    window.click(save)
    said = window.until_reads("6 files were saved")
    assert "of Lighthouse only the outline is known" in said and "Sea wall and Rowing boat only the outlines" in said, said
    names = {name for name in os.listdir(folder) if name.startswith("Harbour at Low Tide, ")}
    assert names == {f"Harbour at Low Tide, {rest}" for rest in (f"Hooping {buoy}.csv", "Hoopings.csv", "Threads.csv", "Marks.csv", "What to buy.csv",
                                                                "Picture.png")}, names
    needles = os.path.join(folder, f"Harbour at Low Tide, Hooping {buoy}.csv")
    with open(needles, encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    assert [row["action"] for row in rows].count("stitch") == 35
    assert all((row["x_mm"], row["y_mm"]) == ("0", "0") for row in (rows[0], rows[-1])) and rows[-1]["action"] == "end"

    # What is there is replaced only when the person says so.
    with open(needles, "w", encoding="utf-8") as table:
        table.write("mine")
    window.click(save)
    window.until_reads("^Replace 6 files")
    window.click(window.find("push button", "Go back"))
    window.gone("push button", "Go back")
    assert open(needles, encoding="utf-8").read() == "mine"
    window.click(save)
    window.do(window.find("push button", "Replace"))
    until(lambda: "stitch" in open(needles, encoding="utf-8").read(), "the list is written over")
    window.until_reads("6 files were saved")
    window.key("Escape")
    window.gone("push button", "Save")

    # One list alone, by the hooping's menu; without stitches nobody is asked for a place.
    window.fold("Scene")
    drawing = os.path.join(folder, "buoy.svg")

    def ask():
        window.click(window.find(None, f"Decide about hooping {buoy}"))
        window.do(window.find("menu item", "Save needle list…"))

    window.choose_file(ask, drawing)
    window.until_reads("^The needle list of hooping . was saved as “buoy.svg”.$")
    assert xml.etree.ElementTree.parse(drawing).getroot().get("width") == "130mm"
    window.click(window.find(None, f"Decide about hooping {boat}"))
    window.do(window.find("menu item", "Save needle list…"))
    window.until_reads("^Hooping . has no needle list: of Lighthouse only the outline is known")


@check
def the_guide_opens_on_f1(open_window):
    window, _ = harbour(open_window)
    window.key("F1")
    until(lambda: len(window.frames()) > 1, "the guide opens")
    guide = window.frames()[-1]
    rows = until(lambda: window.look("list item", None, window.find(None, "Pages of the guide")), "its pages are listed")
    titles = [window.texts(row)[0] for row in rows]
    assert "Cautions" in titles and "Marks and the needle check" in titles, titles
    page = window.find(None, "Page of the guide", guide)
    assert "Move, turn and resize motifs" in text_of(page)
    window.click(rows[titles.index("Cautions")])
    until(lambda: "machine’s own manual" in text_of(page), "the cautions can be read")


run_checks()
