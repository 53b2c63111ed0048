"""What the guide and the man page show as examples can be used as it stands.

Usage: examples-hold.py PROGRAM GUIDE-FOLDER MAN-PAGE
"""
import html
import json
import os
import re
import struct
import subprocess
import sys
import tempfile
import zlib

program, guide, page = sys.argv[1:]
program = os.path.abspath(program)


def shown(name):
    text = open(os.path.join(guide, name), encoding="utf-8").read()
    return re.findall(r"<screen>(.*?)</screen>", text, re.DOTALL)


def grey_png(width, height):
    """An even grey picture."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = zlib.compress((b"\0" + b"\x80" * width) * height)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)) \
        + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def plan(scene):
    return subprocess.run([program, "plan", scene], capture_output=True, text=True, timeout=60)


def checks():
    with tempfile.TemporaryDirectory() as folder:
        scene = json.loads(shown("scene-file.page")[0])
        path = os.path.join(folder, "harbour.hoopscene")

        with open(path, "w", encoding="utf-8") as out:
            json.dump(scene, out)
        done = plan(path)
        yield "the guide's scene is planned", done.returncode == 0 and not json.loads(done.stdout)["problems"], done

        for command, page_name in (("correct", "corrections.page"), ("follow", "draw-in.page")):
            given, printed = shown(page_name)[:2]
            measured = os.path.join(folder, "measured.json")
            with open(measured, "w", encoding="utf-8") as out:
                out.write(given)
            done = subprocess.run([program, command, path, measured], capture_output=True, text=True, timeout=60)
            same = done.returncode == 0 and list(json.loads(done.stdout).items()) == list(json.loads(printed).items())
            yield f"hoopwright {command} answers as the guide shows", same, done

        given, printed = shown("threads-at-hand.page")[:2]
        threads = os.path.join(folder, "threads.csv")
        with open(threads, "w", encoding="utf-8") as out:
            out.write(given)
        done = subprocess.run([program, "match", path, threads], capture_output=True, text=True, timeout=60)
        same = done.returncode == 0 and json.loads(done.stdout) == json.loads(printed)
        yield "hoopwright match answers as the guide shows", same, done

        with open(os.path.join(folder, "leaf.csv"), "w", encoding="utf-8") as out:
            out.write(next(text for text in shown("needle-lists.page") if "\n" in text) + "\n")
        scene["motifs"][0]["artwork"] = {"path": "leaf.csv", "kind": "needles"}
        scene["motifs"][0]["threads"] = [{"name": "moss", "colour": "#335522", "stitches": 6}]
        with open(path, "w", encoding="utf-8") as out:
            json.dump(scene, out)
        done = plan(path)
        yield "the guide's needle list is read", done.returncode == 0 and not json.loads(done.stdout)["problems"], done

        words = open(page, encoding="utf-8").read().replace("\\-", "-").replace("\\(mu", "×")
        examples = [json.loads(text) for text in re.findall(r"^\.nf\n(.*?)^\.fi", words, re.MULTILINE | re.DOTALL)]
        with open(path, "w", encoding="utf-8") as out:
            json.dump(examples[0], out)
        done = plan(path)
        yield "the man page's scene is planned", done.returncode == 0, done

        with open(threads, "w", encoding="utf-8") as out:
            out.write(re.search(r"^\.EX\n(name,.*?)^\.EE", words, re.MULTILINE | re.DOTALL)[1])
        matched = subprocess.run([program, "match", path, threads], capture_output=True, text=True, timeout=60)
        same = matched.returncode == 0 and json.loads(matched.stdout) in examples
        yield "hoopwright match answers as the man page shows", same, matched

        told = subprocess.run([program, "supplies", path], capture_output=True, text=True, timeout=60)
        section = words.partition("\n.SH SUPPLIES")[2].partition("\n.SH ")[0]
        printed, usual = re.findall(r"^\.nf\n(.*?)^\.fi", section, re.MULTILINE | re.DOTALL)
        same = told.returncode == 0 and json.loads(told.stdout) == json.loads(printed)
        yield "hoopwright supplies answers as the man page shows", same, told
        with open(path, "w", encoding="utf-8") as out:
            json.dump({**examples[0], **json.loads(usual)}, out)
        again = subprocess.run([program, "supplies", path], capture_output=True, text=True, timeout=60)
        yield "the usual supplies are those the man page shows", again.stdout == told.stdout, again

        made = json.loads(done.stdout)
        for command, given, printed in (("correct", *examples[2:4]), ("follow", *examples[4:6])):
            with open(measured, "w", encoding="utf-8") as out:
                json.dump(given, out)
            done = subprocess.run([program, command, path, measured], capture_output=True, text=True, timeout=60)
            answer = json.loads(done.stdout) if done.returncode == 0 else {}
            if "advice" in printed:
                shortened = printed.pop("advice").partition("...")[0]
                printed["advice"] = shortened + answer.get("advice", "")[len(shortened):]
            other = {key: answer.get(key) for key in printed if answer.get(key) != printed[key]}
            yield f"hoopwright {command} answers as the man page shows", not other, (other, done)

        photo = os.path.join(folder, "cloth.png")
        squared = os.path.join(folder, "square.png")
        with open(photo, "wb") as out:
            out.write(grey_png(1200, 900))
        points = words.partition("\n.SH POINTS")[2].partition("\n.SH ")[0]
        for place, texts in (("guide", shown("photo-square.page")),
                             ("man page", re.findall(r"^\.nf\n(.*?)^\.fi", points, re.MULTILINE | re.DOTALL))):
            with open(measured, "w", encoding="utf-8") as out:
                out.write(texts[0])
            done = subprocess.run([program, "square", photo, measured, "-o", squared], capture_output=True, text=True,
                                  timeout=60)
            same = done.returncode == 0 and list(json.loads(done.stdout).items()) == list(json.loads(texts[1]).items())
            yield f"hoopwright square answers as the {place} shows", same and os.path.getsize(squared) > 0, done

        drawing = os.path.join(folder, "tree.svg")
        outline = words.partition("\n.SH OUTLINE")[2].partition("\n.SH ")[0]
        for place, given, printed in (("guide", *map(html.unescape, shown("artwork.page")[:2])),
                                      ("man page", re.search(r"^\.EX\n(.*?)^\.EE", outline, re.MULTILINE | re.DOTALL)[1],
                                       re.search(r"^\.nf\n(.*?)^\.fi", outline, re.MULTILINE | re.DOTALL)[1])):
            with open(drawing, "w", encoding="utf-8") as out:
                out.write(given)
            done = subprocess.run([program, "outline", drawing], capture_output=True, text=True, timeout=60)
            same = done.returncode == 0 and json.loads(done.stdout) == json.loads(printed)
            yield f"hoopwright outline answers as the {place} shows", same, done

        missing = [key for key in examples[1] if key not in made] \
            + [key for key in examples[1]["hoopings"][0] if key not in made["hoopings"][0]]
        yield "a plan has the keys that the man page shows", not missing, missing


number = failed = 0
for number, (name, good, why) in enumerate(checks(), 1):
    print(f"{'ok' if good else 'not ok'} {number} - {name}")
    if not good:
        failed = 1
        print(f"# {why}")
print(f"1..{number}")
sys.exit(failed)
