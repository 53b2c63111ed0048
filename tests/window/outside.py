"""Another program, from whose small window files are dragged: run with the paths of the files."""
import sys

import gi

gi.require_version("Gdk", "4.0")
gi.require_version("Gtk", "4.0")
from gi.repository import Gdk, Gio, GLib, Gtk  # noqa: E402

paths = sys.argv[1:]
window = Gtk.Window(title="Files from outside", default_width=120, default_height=80)
source = Gtk.DragSource(actions=Gdk.DragAction.COPY)
listed = "".join(Gio.File.new_for_path(path).get_uri() + "\r\n" for path in paths)  # text/uri-list, RFC 2483
source.set_content(Gdk.ContentProvider.new_for_bytes("text/uri-list", GLib.Bytes.new(listed.encode())))
window.add_controller(source)
window.present()
while Gtk.Window.get_toplevels().get_n_items():
    GLib.MainContext.default().iteration(True)
