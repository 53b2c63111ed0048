"""Scenes and artwork that would have the program reach out of what the person opened: to the network, to files beside it, to programs."""
import json
import os

SVG_REACHES = {
    "image": '<image width="40" height="40" xlink:href="{0}"/>',
    "use": '<use xlink:href="{0}#leaf"/>',
    "import": '<style>@import url("{0}"); rect {{ stroke: url("{0}#leaf") }}</style>',
    "include": '<xi:include href="{0}" parse="text"/>',
    "font": '<style>@font-face {{ font-family: garden; src: url("{0}") }} text {{ font-family: garden }}</style><text y="20">fig</text>',
    "entity": "<title>&stolen;</title>",
    "filter": '<filter id="f"><feImage xlink:href="{0}"/></filter><rect width="9" height="9" filter="url(#f)"/>',
}
PLACES = ("http://127.0.0.1:9/do-not-read.svg", "https://garden.example/do-not-read.png", "do-not-read.svg", "do-not-read.png",
          "file:///tmp/do-not-read.svg", "../do-not-read.svg", "/dev/zero", "file:///dev/zero")


def svg(reach):
    """One drawing that reaches for all the places in one way."""
    entity = reach == "entity"
    return ('<?xml version="1.0"?>\n<?xml-stylesheet type="text/css" href="do-not-read.css"?>\n'
            + ('<!DOCTYPE svg SYSTEM "http://127.0.0.1:9/do-not-read.dtd" [<!ENTITY stolen SYSTEM "do-not-read.svg">]>\n' if entity else "")
            + '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:xi="http://www.w3.org/2001/XInclude" '
            'width="50mm" height="50mm" viewBox="0 0 50 50">'
            '<script xlink:href="http://127.0.0.1:9/do-not-read.js">fetch("http://127.0.0.1:9/")</script>'
            '<rect x="5" y="5" width="40" height="40" fill="#335522"/>' + "".join(SVG_REACHES[reach].format(place) for place in PLACES) + '</svg>')


def pdf():
    """A page with a square; opening it, printing it and drawing it would each reach out (ISO 32000-1, 12.6.4, 7.11 and 7.3.8.2)."""
    square = b"0.2 0.3 0.1 rg 20 20 100 100 re f /Far Do"
    parts = [
        b"<</Type/Catalog/Pages 2 0 R/OpenAction 5 0 R/AA<</WP 6 0 R/DP 6 0 R>>/Names<</JavaScript<</Names[(a) 5 0 R]>>>>>>",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 144 144]/Contents 4 0 R/AA<</O 7 0 R>>/Resources<</XObject<</Far 8 0 R>>>>"
        b"/Annots[<</Type/Annot/Subtype/Link/Rect[0 0 144 144]/A 7 0 R>>]>>",
        b"<</Length %d>>stream\n%s\nendstream" % (len(square), square),
        b'<</S/JavaScript/JS(app.launchURL\\("http://127.0.0.1:9/"\\); this.submitForm\\("http://127.0.0.1:9/"\\);)>>',
        b"<</S/Launch/F(/bin/touch)/Unix<</F(/bin/touch do-not-read)>>>>",
        b"<</S/URI/URI(http://127.0.0.1:9/)/Next<</S/GoToR/F(do-not-read.pdf)/D[0/Fit]>>>>",
        b"<</Type/XObject/Subtype/Image/Width 1/Height 1/BitsPerComponent 8/ColorSpace/DeviceGray/Length 0/F(do-not-read.png)>>stream\n\nendstream",
    ]
    text, places = b"%PDF-1.7\n", []
    for number, part in enumerate(parts, 1):
        places.append(len(text))
        text += b"%d 0 obj%s endobj\n" % (number, part)
    start = len(text)
    text += b"xref\n0 %d\n0000000000 65535 f \n" % (len(parts) + 1) + b"".join(b"%010d 00000 n \n" % place for place in places)
    return text + b"trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n" % (len(parts) + 1, start)


def motif(number, path, kind):
    x = 60 + 60 * (number % 8)
    y = 60 + 60 * (number // 8)
    return {"id": f"m{number}", "name": f"Fig {number}", "outline": [[[-20, -20], [20, -20], [20, 20], [-20, 20]]], "position": [x, y],
            "artwork": {"path": path, "kind": kind}, "threads": [{"name": "moss", "colour": "#335522", "stitches": 400}]}


def write(folder):
    """Writes a scene with all of it into the folder and returns the scene's path and its artwork."""
    artwork = []
    for reach in SVG_REACHES:
        name = f"{reach}.svg"
        with open(os.path.join(folder, name), "w", encoding="utf-8") as out:
            out.write(svg(reach))
        artwork.append((name, "svg"))
    with open(os.path.join(folder, "fig.pdf"), "wb") as out:
        out.write(pdf())
    artwork.append(("fig.pdf", "pdf"))
    for name in ("do-not-read.svg", "do-not-read.css"):
        with open(os.path.join(folder, name), "w", encoding="utf-8") as out:
            out.write('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect id="leaf" width="9" height="9"/></svg>')
    far = [("http://127.0.0.1:9/do-not-read.svg", "svg"), ("../do-not-read.csv", "needles"), ("/tmp/do-not-read.csv", "needles"),
           ("//garden.example/share/do-not-read.pdf", "pdf"), ("file:///tmp/do-not-read.png", "png"), ("/dev/zero", "needles")]
    scene = {"format": "hoopwright-scene", "version": 1, "name": "Orchard of others",
             "fabric": {"width": 600, "height": 600}, "edge_line": {"points": [[5, 5], [595, 5], [595, 595], [5, 595]]},
             "hoops": [{"id": "h1", "name": "Large", "field": [300, 300], "frame": [340, 340]}],
             "photo": {"stack": [{"name": "Cloth", "path": "../do-not-read.jpg", "points": []}], "shown": -1},
             "motifs": [motif(number, *what) for number, what in enumerate(artwork + far)]}
    path = os.path.join(folder, "orchard.hoopscene")
    with open(path, "w", encoding="utf-8") as out:
        json.dump(scene, out)
    return path, [name for name, _ in artwork]
