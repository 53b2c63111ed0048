"""Small artwork of each kind, of sizes known by how it is made: a plum of 44 x 30 mm, a round stone of 30 mm, rows of stitches."""
import os
import struct
import subprocess
import zlib

PER_MM = 10  # pixels
WIDTH, HEIGHT = 50, 40  # mm of a page


def _is_plum(x, y):
    return ((x - 25) / 22) ** 2 + ((y - 20) / 15) ** 2 <= 1


def png(path, resolution=True):
    """A plum on a clear ground; the resolution is told by the pHYs chunk (PNG specification, 11.3.5.3) or not at all."""
    rows = bytearray()
    for y in range(HEIGHT * PER_MM):
        rows.append(0)
        for x in range(WIDTH * PER_MM):
            rows += b"\x6b\x2f\x6f\xff" if _is_plum((x + 0.5) / PER_MM, (y + 0.5) / PER_MM) else b"\0\0\0\0"

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n")
        out.write(chunk(b"IHDR", struct.pack(">IIBBBBB", WIDTH * PER_MM, HEIGHT * PER_MM, 8, 6, 0, 0, 0)))
        if resolution:
            out.write(chunk(b"pHYs", struct.pack(">IIB", PER_MM * 1000, PER_MM * 1000, 1)))
        out.write(chunk(b"IDAT", zlib.compress(bytes(rows))))
        out.write(chunk(b"IEND", b""))
    return path


def jpeg(path):
    """The same on white paper, 254 pixels to the inch."""
    bare = path + ".png"
    png(bare)
    subprocess.run(["convert", bare, "-background", "white", "-flatten", "-units", "PixelsPerInch", "-density", "254", "-quality", "95",
                    "jpeg:" + path], check=True)
    os.remove(bare)
    return path


def svg(path):
    with open(path, "w", encoding="utf-8") as out:
        out.write('<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="40mm" viewBox="0 0 50 40">'
                  '<ellipse cx="25" cy="20" rx="22" ry="15" fill="#4a7fa5"/></svg>')
    return path


def pdf(path, sides=(40,)):
    """A page with an upright rectangle on it for each of the heights, 30 mm wide; 1 unit is 1/72 inch (ISO 32000-1, 8.3.2.3)."""
    unit = 72 / 25.4
    objects = ["<< /Type /Catalog /Pages 2 0 R >>",
               f"<< /Type /Pages /Kids [{' '.join(f'{3 + 2 * i} 0 R' for i in range(len(sides)))}] /Count {len(sides)} >>"]
    for i, side in enumerate(sides):
        drawn = f"0.72 0.55 0.12 rg {10 * unit:.4f} {10 * unit:.4f} {30 * unit:.4f} {side * unit:.4f} re f"
        objects.append(f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {50 * unit:.4f} {80 * unit:.4f}] /Contents {4 + 2 * i} 0 R >>")
        objects.append(f"<< /Length {len(drawn)} >>\nstream\n{drawn}\nendstream")
    text, places = "%PDF-1.4\n", []
    for number, content in enumerate(objects, 1):
        places.append(len(text))
        text += f"{number} 0 obj\n{content}\nendobj\n"
    start = len(text)
    text += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n" + "".join(f"{place:010d} 00000 n \n" for place in places)
    text += f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{start}\n%%EOF\n"
    with open(path, "w", encoding="latin-1") as out:
        out.write(text)
    return path


def needles(path):
    """Rows 0.5 mm apart, 30 mm wide and 30 mm high."""
    with open(path, "w", encoding="utf-8") as out:
        out.write("x_mm,y_mm,action,thread\n")
        for row in range(61):
            out.write(f"{-15 if row % 2 else 15},{row / 2 - 15},stitch,moss\n")
        out.write("0,0,end,moss\n")
    return path
