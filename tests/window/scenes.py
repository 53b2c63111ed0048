"""Small scenes whose plans can be told by hand, and files that are no scenes."""
import atexit
import json
import os
import shutil
import tempfile

# A colour found nowhere else in the window, so that the cloth can be seen in a picture of the screen.
CLOTH = "#20d8c0"
WIDTH, HEIGHT = 600.0, 450.0


def box(width, height):
    return [[[-width / 2, -height / 2], [width / 2, -height / 2], [width / 2, height / 2], [-width / 2, height / 2]]]


def motif(number, name, size, position, thread, **more):
    return {"id": f"m{number}", "name": name, "outline": box(*size), "position": list(position), "angle": 0, "scale": 1.0, "mirrored": False,
            "threads": [{"name": thread[0], "colour": thread[1], "stitches": 900}], **more}


def harbour():
    """Three places too far apart to share a hooping, two motifs at the first of them, one over the other: three hoopings."""
    return {
        "format": "hoopwright-scene", "version": 1, "name": "Harbour at Low Tide",
        "fabric": {"width": WIDTH, "height": HEIGHT, "colour": CLOTH, "hold": "floated"},
        "edge_line": {"points": [[20, 20], [580, 20], [580, 430], [20, 430]], "margin": 2.0},
        "hoops": [{"id": "h1", "name": "130 x 180", "field": [130, 180], "frame": [170, 240], "clearance": 2.0, "turn": "any"}],
        "motifs": [
            motif(1, "Sea wall", (60, 40), (100, 100), ("slate", "#33506b")),
            motif(2, "Lighthouse", (30, 60), (320, 100), ("chalk", "#e8e4da")),
            motif(3, "Rowing boat", (50, 30), (110, 115), ("tar", "#40302a")),
            motif(4, "Buoy", (34, 34), (460, 340), ("rust", "#a0401c")),
        ],
    }


def folder():
    """A new folder, gone when the script ends."""
    made = tempfile.mkdtemp(prefix="hoopwright-scenes-")
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made


def write(folder, scene, name="harbour.hoopscene"):
    path = os.path.join(folder, name)
    with open(path, "w", encoding="utf-8") as out:
        if isinstance(scene, str):
            out.write(scene)
        else:
            json.dump(scene, out)
    return path


def broken():
    """Name of the trouble, and the text of a file that has it."""
    whole = json.dumps(harbour())

    def changed(change):
        scene = harbour()
        change(scene)
        return json.dumps(scene)

    return {
        "cut off": whole[:len(whole) // 2],
        "empty": "",
        "another format": json.dumps({"format": "shopping list", "version": 1}),
        "a word for a width": changed(lambda scene: scene["fabric"].update(width="wide")),
        "no number": whole.replace("600.0", "NaN"),
        "beyond counting": whole.replace("600.0", "1e999"),
        "a negative hoop": changed(lambda scene: scene["hoops"][0].update(field=[-130, 180])),
        "one id twice": changed(lambda scene: scene["motifs"][1].update(id="m1")),
        "no outline": changed(lambda scene: scene["motifs"][0].update(outline=[])),
        "motifs not in a list": changed(lambda scene: scene.update(motifs="many")),
        "a picture": "\x89PNG\r\n\x1a\n\x00\x00",
        "too many motifs": changed(lambda scene: scene.update(motifs=[motif(n, f"Pebble {n}", (4, 4), (50, 50), ("grey", "#777777"))
                                                                          for n in range(10001)])),
    }
