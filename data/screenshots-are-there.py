"""The pictures the metainfo names are there, in the size it gives, and no others are.

Usage: screenshots-are-there.py METAINFO FOLDER
"""
import os
import sys
import xml.etree.ElementTree as tree

metainfo, folder = sys.argv[1:]
named = {}
for image in tree.parse(metainfo).iter("image"):
    named[os.path.basename(image.text)] = (int(image.get("width")), int(image.get("height")))


def size(path):
    with open(path, "rb") as picture:
        head = picture.read(24)
    return head[:8] == b"\x89PNG\r\n\x1a\n" and (int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big"))


there = {name: size(os.path.join(folder, name)) for name in os.listdir(folder)}
print("1..1")
print("ok 1 - the screenshots are those the metainfo names" if named and named == there else f"not ok 1 - named: {named}, there: {there}")
sys.exit(named != there)
